"""An untidy job, all of it invented: a lid that may not move, a footway at one side, two damp-proof courses, a tree."""

from __future__ import annotations

import copy
import json
from pathlib import Path

PATIO = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))


def untidy():
    """Return the document: one side has a freedom, one with a freedom lies on the footway and must not move."""
    job = copy.deepcopy(PATIO)
    points = job["measurements"]["points"]
    points += [
        {"name": "M", "x_mm": 2400.0, "y_mm": 0.0},
        {"name": "L", "x_mm": 1500.0, "y_mm": 2100.0},
        {"name": "T", "x_mm": 900.0, "y_mm": 4900.0},
    ]
    site, area = job["site"], job["areas"][0]
    area["fall"]["away_from"] = "Kitchen"
    site["walls"] = [
        {"name": "Kitchen", "start": "A", "end": "M", "kind": "house", "dpc_level_mm": 10160.0},
        {"name": "Study", "start": "M", "end": "B", "kind": "house", "dpc_level_mm": 10235.0},
    ]
    lid = {"name": "Lid", "point": "L", "length_mm": 600.0, "width_mm": 450.0, "level_mm": 9966.0, "fixed": True}
    site["covers"] = [lid]
    footway = {"name": "Footway", "start": "B", "end": "C", "start_level_mm": 9990.0, "end_level_mm": 9935.0}
    site["tie_ins"] = [footway | {"beyond": "highway", "tolerance_mm": 20.0}]
    site["boundaries"] = [{"name": "Back of the footway", "start": "B", "end": "C", "neighbour": "highway"}]
    site["trees"] = [{"name": "Old pear", "point": "T", "stem_diameter_mm": 350.0}]
    for edge in area["edges"]:
        if edge["corner"] in {"B", "C"}:
            edge["freedom_mm"] = 120.0
    return job
