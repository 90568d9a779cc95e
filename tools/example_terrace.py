"""The example terrace: an L on two house walls, ground rising away, a sunk bed in its inner corner.

The document stands in one piece, as a person would read it; that is why its function is long.
"""

from __future__ import annotations

import random

from example_parts import (
    ARRANGED,
    CATALOGUE,
    DRAIN_MATERIALS,
    MORTAR_MATERIALS,
    Document,
    Places,
    as_laid,
    identity,
    level_book,
    taped,
)


def l_terrace() -> Document:
    """Return the terrace: an L on two house walls, ground rising away, a sunk bed in its inner corner."""
    chance = random.Random(20270316)
    places: Places = {
        "A": (0.0, 0.0),
        "B": (8412.0, 0.0),
        "C": (8846.0, 3655.0),
        "D": (3655.0, 3655.0),
        "E": (3655.0, 7925.0),
        "F": (0.0, 7925.0),
        "IC1": (6094.0, 2206.0),
        "Post": (2950.0, 6900.0),
        "Gully": (7950.0, 320.0),
    }
    pairs = (
        "A-B A-C B-C A-D B-D A-E B-E A-F B-F C-D D-E E-F D-F C-F C-E A-IC1 B-IC1 C-IC1 D-IC1 A-Post F-Post E-Post "
        "D-Post A-Gully B-Gully C-Gully"
    )
    spots = _terrace_spots()
    book = level_book("Visit of 16 March", ("BM", 10000.0), [(name, level) for name, _, level in spots], 2, chance, 1.0)
    document: Document = {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity(
            "WF-2701", "Terrace behind the house", "A. and M. Aldbright", "3 Fennel Row", "2027-03-18"
        ),
        "measurements": {
            "datum": "brass pin beside the kitchen door, 10.000 m on the job's own datum",
            "points": [{"name": "BM", "x_mm": 400.0, "y_mm": -60.0, "note": "brass pin beside the kitchen door"}],
            "offsets": [
                {"name": name, "line_from": "A", "line_to": "B", "along_mm": x, "offset_mm": y}
                for name, (x, y), _ in spots
            ]
            + [
                {"name": "Fence south", "line_from": "A", "line_to": "B", "along_mm": 8640.0, "offset_mm": -150.0},
                {"name": "Fence north", "line_from": "A", "line_to": "B", "along_mm": 9120.0, "offset_mm": 3900.0},
                {"name": "Drain west", "line_from": "A", "line_to": "B", "along_mm": 1200.0, "offset_mm": 8600.0},
                {"name": "Drain bend", "line_from": "A", "line_to": "B", "along_mm": 6094.0, "offset_mm": 2206.0},
                {"name": "Drain east", "line_from": "A", "line_to": "B", "along_mm": 9000.0, "offset_mm": 1500.0},
                {"name": "Apple", "line_from": "A", "line_to": "B", "along_mm": 6900.0, "offset_mm": 8300.0},
            ],
            "tape_plan": {
                "base_from": "A",
                "base_to": "B",
                "bearing_deg": 90.0,
                "tapes": taped(places, pairs, chance, 2.0),
                "sides": [
                    {"point": name, "line_from": "A", "line_to": "B", "side": "left"}
                    for name in places
                    if name not in {"A", "B"}
                ],
            },
            "benchmarks": [{"point": "BM", "level_mm": 10000.0, "note": "brass pin"}],
            "level_books": [book],
            "ground_points": [name for name, _, _ in spots],
        },
        "site": _terrace_site(),
        "areas": [
            {
                "name": "Terrace",
                "outline": [{"point": name} for name in "ABCDEF"],
                "use": "foot",
                "position": "rear",
                "fall": {
                    "away_from": "House rear",
                    "one_in": 60.0,
                    "cross_one_in": 80.0,
                    "cross_to": "right",
                },
                "laying": {
                    "unit": "Flag 600",
                    "pattern": "running",
                    "stagger": 0.5,
                    "along": ["A", "B"],
                    "joint_mm": 10.0,
                    "origin": "A",
                    "bedding": "mortar_on_concrete",
                },
                "edges": [
                    {"corner": "A", "restraint": "wall"},
                    {"corner": "C", "restraint": "haunch"},
                    {"corner": "D", "restraint": "haunch"},
                    {"corner": "F", "restraint": "wall"},
                ],
                "note": "The bed in the inner corner is dug lower and takes the water of two edges.",
            }
        ],
        "units": [
            {
                "name": "Flag 600",
                "kind": "flag",
                "material": "pressed concrete",
                "length_mm": 600.0,
                "width_mm": 600.0,
                "thickness_mm": 40.0,
                "kg_each": 33.0,
                "per_pack": 20,
                "pack_price_minor": 23800,
                "joint_min_mm": 5.0,
                "joint_max_mm": 15.0,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [
                {"key": "excavator", "name": "Micro excavator", "day_price_minor": 11500},
                {"key": "dumper", "name": "Tracked barrow", "day_price_minor": 7200},
                {"key": "mixer", "name": "Drum mixer", "day_price_minor": 1900},
                {"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800},
            ],
            "disposal": {"kind": "grab", "volume_m3": 9.0, "payload_tonnes": 14.0, "load_price_minor": 29500},
            "materials": [*MORTAR_MATERIALS, *DRAIN_MATERIALS],
            "catalogue": CATALOGUE,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5, "pace": 1.0, "machine_dig": True},
        "arrangements": ARRANGED,
        "calendar": {
            "start": "2027-05-10",
            "day_starts_min": 480,
            "weekdays": [0, 1, 2, 3, 4],
            "days_off": ["2027-05-31"],
            "weather_percent": 15.0,
        },
        "tolerance": "flags",
    }
    document["as_laid"] = as_laid(document, "Terrace", "2027-06-04", chance)
    document["handed_over"] = _handed_over()
    return document


def _handed_over() -> Document:
    """Return what was written down when the work was complete; it is not handed over yet."""
    return {
        "completed_on": "2027-06-03",
        "batches": [
            {
                "unit": "Flag 600",
                "batch": "L 27-118",
                "area": "Terrace",
                "delivered_on": "2027-05-17",
                "ticket": "T 4471",
            },
            {"product": "Sealant of the movement joint", "batch": "", "delivered_on": "2027-05-18"},
        ],
        "buried": [
            {
                "name": "Pipe of the lawn channel at its outlet",
                "kind": "drain",
                "depth_mm": 465.0,
                "measured_on": "2027-05-12",
            },
            {
                "name": "Pipe of the fence channel at its outlet",
                "kind": "drain",
                "measured_on": "2027-05-12",
                "note": "photo only",
            },
        ],
        "cover_keys": [{"cover": "IC1", "count": 2, "kept_at": "hook beside the kitchen door"}],
        "spares": [{"unit": "Flag 600", "count": 9, "kept_at": "behind the shed, on edge"}],
    }


def _terrace_spots() -> list[tuple[str, tuple[float, float], float]]:
    """Return spot levels of the ground: it rises away from the house; a bed in the inner corner lies lower."""
    grid = [(x, y) for y in (300.0, 1900.0, 3450.0) for x in (300.0, 2000.0, 3450.0, 5200.0, 6900.0, 8250.0)]
    grid += [(x, y) for y in (5200.0, 6600.0, 7700.0) for x in (300.0, 1900.0, 3450.0)]
    grid += [(x, 8700.0) for x in (-200.0, 1900.0, 3450.0)] + [(8750.0, 250.0), (9050.0, 3500.0)]
    bed = [(3850.0, 3850.0), (6200.0, 3850.0), (8700.0, 3850.0), (3850.0, 5900.0), (3850.0, 7900.0), (5600.0, 5600.0)]
    chance = random.Random(7)
    found = []
    for number, (x, y) in enumerate(grid + bed, start=1):
        sunk = number > len(grid)
        level = 9772.0 if sunk else 9972.0 + 10.0 * y / 1000.0 - 4.0 * x / 1000.0
        found.append((f"G{number}", (x, y), level + chance.uniform(-9.0, 9.0)))
    return found


def _terrace_site() -> Document:
    return {
        "north_bearing_deg": 24.0,
        "access_width_mm": 900.0,
        "carry_mm": 18000.0,
        "walls": [
            {
                "name": "House rear",
                "start": "A",
                "end": "B",
                "dpc_level_mm": 10150.0,
                "openings": [
                    {
                        "name": "Kitchen door",
                        "along_mm": 700.0,
                        "width_mm": 1500.0,
                        "threshold_level_mm": 10160.0,
                        "min_step_mm": 100.0,
                        "max_step_mm": 200.0,
                    }
                ],
                "air_bricks": [{"name": "V1", "along_mm": 5200.0, "underside_level_mm": 10075.0}],
            },
            {
                "name": "Extension",
                "start": "A",
                "end": "F",
                "dpc_level_mm": 10150.0,
                "air_bricks": [{"name": "V2", "along_mm": 3100.0, "underside_level_mm": 10075.0}],
            },
        ],
        "outfalls": [
            {"name": "Sunk bed", "kind": "border", "confirmed": True, "note": "dug 200 lower than the paving"},
            {
                "name": "Soakaway",
                "kind": "soakaway",
                "confirmed": True,
                "invert_level_mm": 9100.0,
                "state": "existing",
                "note": "took a bath of water in ten minutes on the visit",
            },
        ],
        "gullies": [
            {
                "name": "Kitchen gully",
                "point": "Gully",
                "size_mm": 150.0,
                "grating_level_mm": 9850.0,
                "invert_level_mm": 9450.0,
                "outfall": "Soakaway",
                "takes_paving": False,
            }
        ],
        "channels": [
            {
                "name": "Fence channel",
                "start": "B",
                "end": "C",
                "width_mm": 100.0,
                "pipe_mm": 3200.0,
                "state": "new",
                "invert_level_mm": 9700.0,
                "outfall": "Soakaway",
            },
            {
                "name": "Lawn channel",
                "start": "E",
                "end": "F",
                "width_mm": 100.0,
                "pipe_mm": 5600.0,
                "state": "new",
                "invert_level_mm": 9700.0,
                "outfall": "Soakaway",
            },
        ],
        "covers": [
            {
                "name": "IC1",
                "point": "IC1",
                "length_mm": 600.0,
                "width_mm": 450.0,
                "bearing_deg": 90.0,
                "level_mm": 9852.0,
                "fixed": False,
            }
        ],
        "obstacles": [{"name": "Pergola post", "point": "Post", "length_mm": 120.0, "width_mm": 120.0}],
        "trees": [{"name": "Apple tree", "point": "Apple", "stem_diameter_mm": 180.0, "protected": False}],
        "boundaries": [
            {
                "name": "East fence",
                "start": "Fence south",
                "end": "Fence north",
                "neighbour": "neighbour",
                "note": "not square to the house: it opens out to the north",
            }
        ],
        "services": [
            {
                "name": "Foul drain",
                "kind": "drain",
                "points": ["Drain west", "Drain bend", "Drain east"],
                "depth_mm": 850.0,
                "known_from": "lifted cover IC1",
            }
        ],
        "ground": {"soil": "sandy_clay", "topsoil_mm": 80.0, "water_table": "low", "note": "trial hole beside IC1"},
        "walk_round": [
            {"question": "Which way does the drain run?", "answer": "value", "value": "from the bathroom to the lane"},
            {"question": "Is there a footing under the fence?", "answer": "could_not_see"},
        ],
    }
