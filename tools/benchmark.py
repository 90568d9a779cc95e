#!/usr/bin/env python3
"""Print how long a plan takes against the number of slabs, which stage costs what, and how well slabs are sawn.

    python tools/benchmark.py              areas of about 100, 1,000 and 10,000 slabs, then the demo
    python tools/benchmark.py 100 400      areas of these sizes

Times depend on the machine; the ratios between sizes are what to look at: per slab they should hardly grow.
"""

from __future__ import annotations

import json
import math
import random
import sys
import time
from typing import Any

import rectpack

from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.laying.cutting import Part, Stock, saw_plan

TURNS = 3
SAWN = (30, 60, 100)
KERF_MM = 3
SLAB_MM = 600


def document(slabs: int) -> dict[str, Any]:
    """Return a job with about so many slabs of 600 by 600, a tapered side and a recess, turned by a few degrees."""
    side = math.sqrt(slabs) * 610.0
    corners = {
        "A": (0.0, 0.0),
        "B": (side, 0.0),
        "C": (side * 1.03, side * 0.6),
        "D": (side * 0.7, side * 0.6),
        "E": (side * 0.7, side * 1.4),
        "F": (0.0, side * 1.4),
    }
    ground = {
        "G1": (-900.0, -900.0),
        "G2": (side * 1.1, -900.0),
        "G3": (side * 1.1, side * 1.5),
        "G4": (-900.0, side * 1.5),
    }
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {
            "job": f"B{slabs}",
            "title": "Benchmark",
            "date": "2027-01-01",
            "locality": "england",
            "invented": True,
        },
        "measurements": {
            "points": [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in corners.items()]
            + [{"name": n, "x_mm": x, "y_mm": y, "level_mm": 1000.0 + x / 90.0} for n, (x, y) in ground.items()],
            "ground_points": list(ground),
        },
        "areas": [
            {
                "name": "Yard",
                "outline": [{"point": name} for name in corners],
                "fall": {"bearing_deg": 20.0, "level_at": "A", "level_mm": 1000.0},
                "laying": {"unit": "Slab", "pattern": "running", "bearing_deg": 87.0},
            }
        ],
        "units": [
            {
                "name": "Slab",
                "length_mm": 600.0,
                "width_mm": 600.0,
                "thickness_mm": 40.0,
                "kg_each": 33.0,
                "per_pack": 20,
                "pack_price_minor": 20000,
            }
        ],
        "rates": {"labour_minor_per_hour": 3000},
        "crew": {"people": 2},
        "calendar": {"start": "2027-06-01"},
    }


class Clock:
    """Counts the time between the stages that a plan tells of."""

    def __init__(self) -> None:
        """Start with nothing counted."""
        self.spent: dict[str, float] = {}
        self._stage, self._since = "reading", time.perf_counter()

    def __call__(self, stage: str) -> None:
        """Book the time of the stage that ends now."""
        now = time.perf_counter()
        self.spent[self._stage] = self.spent.get(self._stage, 0.0) + now - self._since
        self._stage, self._since = stage, now


def timed(text: str | bytes) -> tuple[float, int, Clock]:
    """Return the best time of a few turns, the number of pieces, and the stages of the last turn."""
    best, pieces, clock = math.inf, 0, Clock()
    for _ in range(TURNS):
        clock = Clock()
        begun = time.perf_counter()
        made = make_plan(text, clock)
        clock("end")
        best = min(best, time.perf_counter() - begun)
        pieces = sum(len(area.pieces) for area in made.laying.areas)
    return best, pieces, clock


def boxes(count: int) -> list[tuple[int, int]]:
    """Return sizes of cut pieces as edges make them: most keep one side of the slab, some are cut both ways."""
    dice = random.Random(count)
    return [(dice.randint(60, 590), SLAB_MM if dice.random() < 0.6 else dice.randint(60, 590)) for _ in range(count)]


def slabs_by_rectpack(sizes: list[tuple[int, int]]) -> int:
    """Return the fewest slabs that a general library finds with all its ways, those that no saw can cut too."""
    best = len(sizes)
    ways = [getattr(rectpack, name) for name in dir(rectpack) if name.startswith(("Guillotine", "MaxRects", "Skyline"))]
    for way in ways:
        for order in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI):
            packer = rectpack.newPacker(pack_algo=way, sort_algo=order, rotation=True)
            for wide, high in sizes:
                packer.add_rect(wide + KERF_MM, high + KERF_MM)
            packer.add_bin(SLAB_MM + KERF_MM, SLAB_MM + KERF_MM, count=len(sizes))
            packer.pack()
            if len(packer.rect_list()) == len(sizes):
                best = min(best, len(packer))
    return best


def saw_table() -> None:
    """Print slabs used against the fewest possible and against a general library."""
    print(f"{'parts':>8} {'slabs':>6} {'bound':>6} {'rectpack':>9} {'s':>7} {'rectpack s':>11}")
    for count in SAWN:
        sizes = boxes(count)
        parts = [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(sizes)]
        stock = (Stock(float(SLAB_MM), float(SLAB_MM)),)
        saw_plan(parts, stock, float(KERF_MM), may_turn=True, rounds=1)
        begun = time.perf_counter()
        plan = saw_plan(parts, stock, float(KERF_MM), may_turn=True)
        ours = time.perf_counter() - begun
        begun = time.perf_counter()
        theirs = slabs_by_rectpack(sizes)
        other = time.perf_counter() - begun
        print(f"{count:8d} {plan.cost:6d} {plan.least_cost:6d} {theirs:9d} {ours:7.3f} {other:11.3f}")


def main(words: list[str]) -> int:
    """Print the tables."""
    sizes = [int(word) for word in words] or [100, 1000, 10000]
    print(f"{'pieces':>8} {'plan s':>8} {'ms/piece':>9} {'ratio':>6}")
    first = 0.0
    for slabs in sizes:
        spent, pieces, clock = timed(json.dumps(document(slabs)))
        each = 1000.0 * spent / pieces
        first = first or each
        print(f"{pieces:8d} {spent:8.3f} {each:9.3f} {each / first:6.2f}")
        print("         " + ", ".join(f"{stage} {1000.0 * part:.0f} ms" for stage, part in clock.spent.items()))
    spent, pieces, clock = timed(demo_document())
    print(f"demo: {pieces} pieces, plan {spent:.3f} s")
    print("         " + ", ".join(f"{stage} {1000.0 * part:.0f} ms" for stage, part in clock.spent.items()))
    made = make_plan(demo_document())
    begun = time.perf_counter()
    papers = make_pack(made)
    print(f"demo: pack of {len(papers)} papers {time.perf_counter() - begun:.3f} s")
    saw_table()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
