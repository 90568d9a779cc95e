"""The example drive: blocks for cars at the front, falling to a channel at the road.

The document stands in one piece, as a person would read it; that is why its function is long.
"""

from __future__ import annotations

import random

from example_parts import (
    ARRANGED,
    CATALOGUE,
    DRAIN_MATERIALS,
    SAND_MATERIALS,
    Document,
    Places,
    identity,
    level_book,
    material,
    taped,
)


def front_drive() -> Document:
    """Return the drive: blocks for two cars, falling from the house to a channel at the road."""
    chance = random.Random(20270502)
    places: Places = {
        "A": (0.0, 0.0),
        "B": (6080.0, 0.0),
        "C": (6195.0, 4960.0),
        "D": (-90.0, 4905.0),
        "Lid": (4700.0, 3300.0),
    }
    pairs = "A-B A-C B-C A-D B-D C-D A-Lid B-Lid C-Lid D-Lid"
    grid = [(x, y) for y in (-50.0, 1600.0, 3300.0, 5300.0) for x in (-450.0, 2000.0, 4200.0, 6550.0)]
    slopes = random.Random(11)
    spots = [
        (f"G{number}", (x, y), 20048.0 - 17.0 * y / 1000.0 + 2.0 * x / 1000.0 + slopes.uniform(-8.0, 8.0))
        for number, (x, y) in enumerate(grid, start=1)
    ]
    book = level_book("Visit of 2 May", ("BM", 20000.0), [(name, level) for name, _, level in spots], 1, chance, 1.2)
    return {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity("WF-2703", "Drive at the front", "J. Penhallow-Reeve", "11 Saddler's Way", "2027-05-04"),
        "measurements": {
            "datum": "lid of the water meter, 20.000 m on the job's own datum",
            "points": [{"name": "BM", "x_mm": 6900.0, "y_mm": 5600.0, "note": "lid of the water meter"}],
            "offsets": [
                {"name": name, "line_from": "A", "line_to": "B", "along_mm": x, "offset_mm": y}
                for name, (x, y), _ in spots
            ]
            + [
                {"name": "Road west", "line_from": "A", "line_to": "B", "along_mm": -1500.0, "offset_mm": 5120.0},
                {"name": "Road east", "line_from": "A", "line_to": "B", "along_mm": 7600.0, "offset_mm": 5250.0},
                {"name": "Gas house", "line_from": "A", "line_to": "B", "along_mm": 700.0, "offset_mm": 0.0},
                {"name": "Gas road", "line_from": "A", "line_to": "B", "along_mm": 600.0, "offset_mm": 5400.0},
            ],
            "tape_plan": {
                "base_from": "A",
                "base_to": "B",
                "bearing_deg": 90.0,
                "tapes": taped(places, pairs, chance, 2.0),
                "sides": [
                    {"point": name, "line_from": "A", "line_to": "B", "side": "left"} for name in ("C", "D", "Lid")
                ],
            },
            "benchmarks": [{"point": "BM", "level_mm": 20000.0}],
            "level_books": [book],
            "ground_points": [name for name, _, _ in spots],
        },
        "site": {
            "north_bearing_deg": 198.0,
            "access_width_mm": 3000.0,
            "carry_mm": 8000.0,
            "walls": [{"name": "House front", "start": "A", "end": "B", "dpc_level_mm": 20210.0}],
            "outfalls": [
                {
                    "name": "Soakaway",
                    "kind": "soakaway",
                    "confirmed": True,
                    "invert_level_mm": 19200.0,
                    "soakaway": {
                        "length_mm": 1500.0,
                        "width_mm": 1000.0,
                        "depth_mm": 1200.0,
                        "void_percent": 30.0,
                        "pit_test": {
                            "length_mm": 900.0,
                            "width_mm": 600.0,
                            "depth_mm": 800.0,
                            "times_min": [27.0, 29.0, 30.0],
                            "date": "2027-05-03",
                            "note": "invented",
                        },
                    },
                }
            ],
            "rain": {"five_year_hour_mm": 19.0, "hour_to_two_days": 0.36, "years": 10.0, "climate_percent": 20.0},
            "channels": [
                {
                    "name": "Road channel",
                    "start": "D",
                    "end": "C",
                    "width_mm": 130.0,
                    "pipe_mm": 3500.0,
                    "state": "new",
                    "invert_level_mm": 19800.0,
                    "outfall": "Soakaway",
                }
            ],
            "covers": [
                {
                    "name": "Meter lid",
                    "point": "Lid",
                    "length_mm": 300.0,
                    "width_mm": 300.0,
                    "bearing_deg": 0.0,
                    "level_mm": 19990.0,
                    "fixed": False,
                }
            ],
            "boundaries": [{"name": "Road", "start": "Road west", "end": "Road east", "neighbour": "highway"}],
            "services": [
                {
                    "name": "Gas pipe",
                    "kind": "gas",
                    "points": ["Gas house", "Gas road"],
                    "depth_mm": 600.0,
                    "known_from": "owner's record, not traced",
                }
            ],
            "ground": {"soil": "silty_clay", "topsoil_mm": 100.0, "water_table": "low"},
            "walk_round": [{"question": "Is the dropped kerb approved?", "answer": "could_not_see"}],
        },
        "areas": [
            {
                "name": "Drive",
                "outline": [{"point": name} for name in "ABCD"],
                "use": "car",
                "position": "front",
                "fall": {"away_from": "House front", "one_in": 50.0},
                "laying": {
                    "unit": "Block 80",
                    "pattern": "herringbone",
                    "border": {"kind": "soldier"},
                    "along": ["A", "B"],
                    "turn_deg": 45.0,
                    "joint_mm": 2.5,
                    "fill_narrow": True,
                    "bedding": "sand_on_sub_base",
                },
                "edges": [
                    {"corner": "A", "restraint": "wall"},
                    {"corner": "B", "restraint": "kerb"},
                    {"corner": "D", "restraint": "kerb"},
                ],
            }
        ],
        "units": [
            {
                "name": "Block 80",
                "kind": "block",
                "material": "concrete",
                "length_mm": 200.0,
                "width_mm": 100.0,
                "thickness_mm": 80.0,
                "kg_each": 3.7,
                "per_pack": 404,
                "pack_price_minor": 24800,
                "joint_min_mm": 2.0,
                "joint_max_mm": 5.0,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [
                {"key": "excavator", "name": "Mini excavator", "day_price_minor": 16500},
                {"key": "plate", "name": "Plate compactor", "day_price_minor": 2900},
                {"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800},
            ],
            "disposal": {"kind": "grab", "volume_m3": 9.0, "payload_tonnes": 14.0, "load_price_minor": 29500},
            "materials": [
                *SAND_MATERIALS,
                *DRAIN_MATERIALS,
                material("soakaway_stone", "Clean stone 20 to 40, bulk bag", 850.0, "kg", 4900),
                material("perforated_pipe", "Perforated pipe 110, 3 m", 1.0, "each", 1620, length_mm=3000.0),
                material("silt_trap", "Silt trap", 1.0, "each", 7800),
            ],
            "catalogue": CATALOGUE,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 3, "hours_per_day": 7.5, "own_mixer": True, "machine_dig": True},
        "arrangements": {**ARRANGED, "drop_point": "G12"},
        "calendar": {"start": "2027-07-05", "weather_percent": 10.0},
        "tolerance": "blocks",
    }
