"""The example yard: shut in between house, wall and bank, so that all of it has to be folded to one gully.

The document stands in one piece, as a person would read it; that is why its function is long.
"""

from __future__ import annotations

import random

from example_parts import ARRANGED, CATALOGUE, MORTAR_MATERIALS, Document, Places, identity, level_book, taped


def gully_yard() -> Document:
    """Return the yard: slabs folded to a gully, with ground that falls toward the house."""
    chance = random.Random(20270611)
    places: Places = {
        "A": (0.0, 0.0),
        "B": (5730.0, 0.0),
        "C": (5695.0, 4310.0),
        "D": (40.0, 4260.0),
        "Gully": (4880.0, 2530.0),
        "Lid": (1480.0, 2960.0),
    }
    pairs = "A-B A-C B-C A-D B-D C-D A-Gully B-Gully C-Gully A-Lid B-Lid C-Lid D-Lid"
    grid = [(x, y) for y in (150.0, 2150.0, 4500.0) for x in (-250.0, 2800.0, 6000.0)]
    spots = [
        (f"G{number}", (x, y), 7792.0 + 0.042 * y + chance.uniform(-12.0, 12.0))
        for number, (x, y) in enumerate(grid, start=1)
    ]
    book = level_book("Visit of 11 June", ("BM", 8000.0), [(name, level) for name, _, level in spots], 1, chance, 1.2)
    return {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity("WF-2704", "Yard behind the kitchen", "O. Hathers-Quill", "3 Tanner's Row", "2027-06-14"),
        "measurements": {
            "datum": "kitchen step, 8.000 m on the job's own datum",
            "points": [{"name": "BM", "x_mm": 2700.0, "y_mm": -60.0, "note": "kitchen step"}],
            "offsets": [
                {"name": name, "line_from": "A", "line_to": "B", "along_mm": x, "offset_mm": y}
                for name, (x, y), _ in spots
            ],
            "tape_plan": {
                "base_from": "A",
                "base_to": "B",
                "bearing_deg": 90.0,
                "tapes": taped(places, pairs, chance, 2.0),
                "sides": [
                    {"point": name, "line_from": "A", "line_to": "B", "side": "left"}
                    for name in ("C", "D", "Gully", "Lid")
                ],
            },
            "benchmarks": [{"point": "BM", "level_mm": 8000.0}],
            "level_books": [book],
            "ground_points": [name for name, _, _ in spots],
        },
        "site": {
            "north_bearing_deg": 12.0,
            "access_width_mm": 900.0,
            "carry_mm": 18000.0,
            "walls": [
                {
                    "name": "House rear",
                    "start": "A",
                    "end": "B",
                    "dpc_level_mm": 8010.0,
                    "openings": [
                        {
                            "name": "Kitchen door",
                            "along_mm": 2350.0,
                            "width_mm": 900.0,
                            "threshold_level_mm": 8020.0,
                            "min_step_mm": 20.0,
                            "max_step_mm": 220.0,
                        }
                    ],
                },
                {"name": "Garden wall", "start": "D", "end": "A", "kind": "garden"},
            ],
            "outfalls": [
                {"name": "Surface drain", "kind": "surface_water_sewer", "confirmed": True, "invert_level_mm": 7050.0}
            ],
            "gullies": [
                {
                    "name": "Yard gully",
                    "point": "Gully",
                    "size_mm": 200.0,
                    "grating_level_mm": 7770.0,
                    "fixed": False,
                    "invert_level_mm": 7250.0,
                    "outfall": "Surface drain",
                }
            ],
            "covers": [
                {
                    "name": "Chamber",
                    "point": "Lid",
                    "length_mm": 600.0,
                    "width_mm": 450.0,
                    "bearing_deg": 90.0,
                    "level_mm": 7838.0,
                    "fixed": False,
                }
            ],
            "services": [
                {
                    "name": "Surface drain pipe",
                    "kind": "drain",
                    "points": ["Gully", "Lid"],
                    "depth_mm": 600.0,
                    "known_from": "lifted cover",
                }
            ],
            "rain": {"five_year_hour_mm": 18.5, "hour_to_two_days": 0.33, "years": 10.0, "climate_percent": 20.0},
            "ground": {"soil": "silty_clay", "topsoil_mm": 0.0, "water_table": "low"},
        },
        "areas": [
            {
                "name": "Yard",
                "outline": [{"point": "A"}, {"point": "B"}, {"point": "C"}, {"point": "D"}],
                "use": "foot",
                "position": "rear",
                "before": "path",
                "fall": {
                    "away_from": "House rear",
                    "folding": "cheapest",
                    "one_in": 70.0,
                    "steepest_one_in": 40.0,
                    "valley_one_in": 90.0,
                },
                "laying": {
                    "unit": "Flag 450",
                    "pattern": "running",
                    "stagger": 0.5,
                    "along": ["A", "B"],
                    "joint_mm": 11.0,
                    "bedding": "mortar_on_concrete",
                },
                "edges": [
                    {"corner": "B", "restraint": "kerb"},
                    {"corner": "C", "restraint": "kerb"},
                    {"corner": "D", "restraint": "wall"},
                ],
            }
        ],
        "units": [
            {
                "name": "Flag 450",
                "kind": "flag",
                "material": "pressed concrete",
                "length_mm": 450.0,
                "width_mm": 450.0,
                "thickness_mm": 40.0,
                "kg_each": 18.5,
                "per_pack": 40,
                "pack_price_minor": 24800,
                "joint_min_mm": 5.0,
                "joint_max_mm": 12.0,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [
                {"key": "mixer", "name": "Mixer", "day_price_minor": 2400},
                {"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800},
            ],
            "disposal": {"kind": "skip", "volume_m3": 4.6, "payload_tonnes": 6.0, "load_price_minor": 26500},
            "materials": [
                *MORTAR_MATERIALS,
                {
                    "key": "kerb",
                    "name": "Kerb, 0.9 m",
                    "pack_amount": 1.0,
                    "pack_unit": "each",
                    "pack_price_minor": 890,
                    "length_mm": 915.0,
                },
            ],
            "cut_price_minor": 9200,
            "fill_price_minor": 6400,
            "catalogue": CATALOGUE,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5},
        "arrangements": ARRANGED,
        "calendar": {"start": "2027-08-09", "weather_percent": 10.0},
        "tolerance": "flags",
    }
