#!/usr/bin/env python3
"""Write the example jobs: an invented contractor, invented customers, readings with the errors that readings have.

    python tools/make_examples.py           write examples/*.json and the demo of the package
    python tools/make_examples.py --check   say which of them are stale

Chance is seeded: the same program writes the same files.
"""

from __future__ import annotations

import json
import math
import random
import sys
from pathlib import Path
from typing import Any

from pavewright import rulebook
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.survey import survey

ROOT = Path(__file__).resolve().parent.parent
Document = dict[str, Any]
Places = dict[str, tuple[float, float]]

CONTRACTOR = "Wrenfold Paving (invented)"
PRICES = "Prices are invented."


def identity(job: str, title: str, client: str, address: str, date: str) -> Document:
    """Return who and where."""
    return {
        "job": job,
        "title": title,
        "client": f"{client} (invented)",
        "address": f"{address}, Lower Tessamere (invented)",
        "contractor": CONTRACTOR,
        "date": date,
        "revision": 1,
        "locality": "england",
        "currency": "GBP",
        "invented": True,
    }


def taped(places: Places, pairs: str, chance: random.Random, sd_mm: float) -> list[Document]:
    """Return tapes between pairs of points, read to the millimetre with their errors."""
    tapes = []
    for pair in pairs.split():
        start, end = pair.split("-")
        length = math.dist(places[start], places[end]) + chance.gauss(0.0, sd_mm)
        tapes.append({"start": start, "end": end, "length_mm": float(round(length))})
    return tapes


def level_book(
    name: str, mark: tuple[str, float], levels: list[tuple[str, float]], moves: int, chance: random.Random, sd_mm: float
) -> Document:
    """Return a level book that begins and closes on a benchmark and moves the instrument some times on the way."""

    def read(collimation: float, level: float) -> float:
        return float(round(collimation - level + chance.gauss(0.0, sd_mm)))

    rows: list[Document] = []
    each = math.ceil(len(levels) / (moves + 1))
    collimation = mark[1] + chance.randint(1250, 1550)
    rows.append({"point": mark[0], "backsight_mm": read(collimation, mark[1])})
    for setup in range(moves + 1):
        for point, level in levels[setup * each : (setup + 1) * each]:
            rows.append({"point": point, "intermediate_mm": read(collimation, level)})
        if setup < moves:
            change = mark[1] + chance.randint(-150, 100)
            foresight = read(collimation, change)
            collimation = change + chance.randint(1250, 1550)
            row = {"point": f"change {setup + 1}", "foresight_mm": foresight, "backsight_mm": read(collimation, change)}
            rows.append(row)
    rows.append({"point": mark[0], "foresight_mm": read(collimation, mark[1])})
    return {"name": name, "rows": rows}


def material(key: str, name: str, amount: float, unit: str, price: int, **more: float) -> Document:
    """Return a priced material."""
    return {"key": key, "name": name, "pack_amount": amount, "pack_unit": unit, "pack_price_minor": price, **more}


MORTAR_MATERIALS = [
    material("cement", "Cement, 25 kg", 25.0, "kg", 640),
    material("sharp_sand", "Sharp sand, bulk bag", 850.0, "kg", 5200),
    material("soft_sand", "Soft sand, 25 kg", 25.0, "kg", 310),
    material("ballast", "All-in ballast, bulk bag", 850.0, "kg", 5400),
    material("plasticiser", "Plasticiser, 5 litre", 5.0, "litre", 1150),
    material("channel", "Channel with grating, 1 m", 1.0, "each", 2950, length_mm=1000.0),
    material("edging", "Edging, 1 m", 1.0, "each", 680, length_mm=1000.0),
]
SAND_MATERIALS = [
    material("cement", "Cement, 25 kg", 25.0, "kg", 640),
    material("ballast", "All-in ballast, bulk bag", 850.0, "kg", 5400),
    material("sharp_sand", "Sharp sand, bulk bag", 850.0, "kg", 5200),
    material("sub_base", "Graded stone, bulk bag", 850.0, "kg", 4700),
    material("joint_sand", "Dry jointing sand, 20 kg", 20.0, "kg", 590),
    material("geotextile", "Geotextile, roll of 50 m²", 50.0, "m2", 5900),
    material("edging", "Edging, 1 m", 1.0, "each", 680, length_mm=1000.0),
    material("kerb", "Small kerb, 0.9 m", 1.0, "each", 920, length_mm=915.0),
    material("channel", "Channel for cars with grating, 1 m", 1.0, "each", 5850, length_mm=1000.0),
]


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
        "IC1": (6100.0, 2200.0),
        "Post": (2950.0, 6900.0),
        "Gully": (7950.0, 320.0),
    }
    pairs = (
        "A-B A-C B-C A-D B-D A-E B-E A-F B-F C-D D-E E-F D-F C-F C-E A-IC1 B-IC1 C-IC1 D-IC1 A-Post F-Post E-Post "
        "D-Post A-Gully B-Gully C-Gully"
    )
    spots = _terrace_spots()
    book = level_book("Visit of 16 March", ("BM", 10000.0), [(name, level) for name, _, level in spots], 2, chance, 0.9)
    document: Document = {
        "format": "pavewright.job",
        "version": 1,
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
                {"name": "Drain bend", "line_from": "A", "line_to": "B", "along_mm": 6100.0, "offset_mm": 2200.0},
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
                "joint_least_mm": 5.0,
                "joint_most_mm": 15.0,
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
            "materials": MORTAR_MATERIALS,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5, "pace": 1.0, "machine_dig": True},
        "calendar": {
            "start": "2027-05-10",
            "day_starts_min": 480,
            "weekdays": [0, 1, 2, 3, 4],
            "days_off": ["2027-05-31"],
            "weather_percent": 15.0,
        },
        "tolerance": "flags",
    }
    document["as_laid"] = _as_laid(document, "Terrace", "2027-06-04", chance)
    return document


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
                        "least_step_mm": 100.0,
                        "most_step_mm": 200.0,
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
            }
        ],
        "channels": [
            {
                "name": "Fence channel",
                "start": "B",
                "end": "C",
                "width_mm": 100.0,
                "invert_level_mm": 9700.0,
                "outfall": "Soakaway",
            },
            {
                "name": "Lawn channel",
                "start": "E",
                "end": "F",
                "width_mm": 100.0,
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


def _as_laid(document: Document, area: str, date: str, chance: random.Random) -> Document:
    """Return levels read on the finished paving: near the plan, two of them not."""
    job = parse(document)
    rules = rulebook.load(job.identity.locality.value)
    measured = survey(job, rules)
    plane = finished_levels(job, measured, rules).area(area).plane
    shape = measured.site.area(area).gross
    x1, y1, x2, y2 = shape.bounds_mm
    places = [
        (x, y)
        for y in _spread(y1 + 250.0, y2 - 250.0, 1500.0)
        for x in _spread(x1 + 250.0, x2 - 250.0, 1450.0)
        if shape.contains((x, y))
    ]
    out = {7: 12.0, 16: -13.0}
    readings = [
        {
            "x_mm": float(round(x)),
            "y_mm": float(round(y)),
            "level_mm": float(round(plane.level_at((x, y)) + chance.gauss(0.0, 1.1) + out.get(number, 0.0))),
            "area": area,
            "label": f"L{number}",
        }
        for number, (x, y) in enumerate(places, start=1)
    ]
    return {
        "date": date,
        "read_by": "the foreman (invented)",
        "instrument": "automatic level and staff",
        "reading_sd_mm": 1.5,
        "readings": readings,
    }


def _spread(low: float, high: float, step: float) -> list[float]:
    count = max(1, round((high - low) / step))
    return [low + (high - low) * k / count for k in range(count + 1)]


def curved_path() -> Document:
    """Return the path: two curved lengths of small blocks with two steps between them."""
    places = {
        "P1": (0.0, 0.0, 5020.0),
        "P2": (1210.0, 0.0, 5010.0),
        "P3": (2050.0, 4200.0, 4890.0),
        "P4": (860.0, 4420.0, 4900.0),
        "Q3": (2420.0, 9050.0, 4470.0),
        "Q4": (1200.0, 9020.0, 4480.0),
    }
    ground = {
        "G1": (-600.0, -300.0, 5012.0),
        "G2": (1800.0, -300.0, 4996.0),
        "G3": (-100.0, 2100.0, 4962.0),
        "G4": (2300.0, 2100.0, 4934.0),
        "G5": (300.0, 4500.0, 4884.0),
        "G6": (2700.0, 4100.0, 4862.0),
        "G7": (500.0, 5300.0, 4596.0),
        "G8": (2900.0, 5100.0, 4578.0),
        "G9": (500.0, 7200.0, 4532.0),
        "G10": (3000.0, 7200.0, 4514.0),
        "G11": (600.0, 9600.0, 4462.0),
        "G12": (3000.0, 9600.0, 4446.0),
    }
    points = [
        {"name": name, "x_mm": x, "y_mm": y, "level_mm": level} for name, (x, y, level) in (places | ground).items()
    ]

    def length(name: str, outline: list[tuple[str, float]], fall: Document, edges: str) -> Document:
        return {
            "name": name,
            "outline": [{"point": point, "rise_mm": rise} for point, rise in outline],
            "use": "foot",
            "position": "rear",
            "fall": fall,
            "laying": {
                "unit": "Block 200",
                "pattern": "running",
                "stagger": 0.5,
                "bearing_deg": 100.0,
                "joint_mm": 3.0,
                "bedding": "sand_on_sub_base",
            },
            "edges": [{"corner": corner, "restraint": "edging"} for corner in edges.split()],
        }

    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": identity("WF-2702", "Curved path to the orchard", "R. Tamsin-Oake", "The Old Pound", "2027-04-09"),
        "measurements": {
            "datum": "top of the gate stone, 5.000 m on the job's own datum",
            "points": points,
            "offsets": [
                {"name": "Lamp", "line_from": "P1", "line_to": "P4", "along_mm": 2200.0, "offset_mm": 450.0},
            ],
            "ground_points": list(ground),
        },
        "site": {
            "north_bearing_deg": 341.0,
            "access_width_mm": 1050.0,
            "carry_mm": 35000.0,
            "outfalls": [{"name": "Orchard grass", "kind": "lawn", "confirmed": True}],
            "services": [
                {
                    "name": "Lamp cable",
                    "kind": "electricity",
                    "points": ["Lamp", "P1"],
                    "depth_mm": 600.0,
                    "known_from": "the customer's word",
                }
            ],
            "ground": {"soil": "sand", "topsoil_mm": 100.0, "water_table": "low"},
        },
        "areas": [
            length(
                "Upper path",
                [("P1", 0.0), ("P2", -210.0), ("P3", 0.0), ("P4", 190.0)],
                {
                    "bearing_deg": 10.0,
                    "one_in": 40.0,
                    "cross_one_in": 60.0,
                    "cross_to": "right",
                    "level_at": "P1",
                    "level_mm": 5025.0,
                },
                "P2 P4",
            ),
            length(
                "Lower path",
                [("P4", 0.0), ("P3", 230.0), ("Q3", 0.0), ("Q4", -210.0)],
                {"bearing_deg": 2.0, "one_in": 50.0, "cross_one_in": 60.0, "cross_to": "right"},
                "P3 Q4",
            ),
        ],
        "steps": [
            {
                "name": "Orchard steps",
                "upper_area": "Upper path",
                "lower_area": "Lower path",
                "corner": "P3",
                "going_mm": 330.0,
            }
        ],
        "units": [
            {
                "name": "Block 200",
                "kind": "block",
                "material": "concrete",
                "length_mm": 200.0,
                "width_mm": 100.0,
                "thickness_mm": 50.0,
                "kg_each": 2.3,
                "per_pack": 480,
                "pack_price_minor": 21900,
                "joint_least_mm": 2.0,
                "joint_most_mm": 5.0,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [
                {"key": "plate", "name": "Plate compactor", "day_price_minor": 2900},
                {"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800},
            ],
            "disposal": {"kind": "skip", "volume_m3": 4.6, "payload_tonnes": 6.0, "load_price_minor": 26500},
            "materials": SAND_MATERIALS,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5},
        "calendar": {"start": "2027-06-14", "weather_percent": 10.0},
        "tolerance": "blocks",
    }


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
    book = level_book("Visit of 2 May", ("BM", 20000.0), [(name, level) for name, _, level in spots], 1, chance, 0.8)
    return {
        "format": "pavewright.job",
        "version": 1,
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
            "outfalls": [{"name": "Soakaway", "kind": "soakaway", "confirmed": True, "invert_level_mm": 19200.0}],
            "channels": [
                {
                    "name": "Road channel",
                    "start": "D",
                    "end": "C",
                    "width_mm": 130.0,
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
                    "pattern": "running",
                    "stagger": 0.5,
                    "along": ["A", "B"],
                    "origin": "A",
                    "joint_mm": 3.0,
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
                "joint_least_mm": 2.0,
                "joint_most_mm": 5.0,
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
            "materials": SAND_MATERIALS,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 3, "hours_per_day": 7.5, "machine_dig": True},
        "calendar": {"start": "2027-07-05", "weather_percent": 10.0},
        "tolerance": "blocks",
    }


def files() -> dict[Path, str]:
    """Return every file by its place."""
    made = {"l_terrace": l_terrace(), "curved_path": curved_path(), "front_drive": front_drive()}
    texts = {name: json.dumps(document, indent=1, ensure_ascii=False) + "\n" for name, document in made.items()}
    found = {ROOT / "examples" / f"{name}.json": text for name, text in texts.items()}
    found[ROOT / "src" / "pavewright" / "desk" / "demo.json"] = texts["l_terrace"]
    return found


def main(words: list[str]) -> int:
    """Write the files, or check them."""
    stale = []
    for path, text in files().items():
        if path.is_file() and path.read_text("utf-8") == text:
            continue
        stale.append(path.relative_to(ROOT).as_posix())
        if "--check" not in words:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    if "--check" in words and stale:
        print(f"Stale: {', '.join(stale)}. Run python tools/make_examples.py.")
        return 1
    print(f"{len(stale)} files written." if "--check" not in words else "examples are fresh")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
