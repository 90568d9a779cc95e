#!/usr/bin/env python3
"""Print how long a plan takes against the number of slabs, which stage costs what, and how well slabs are sawn.

    python tools/benchmark.py              areas of about 100, 1,000 and 10,000 slabs, the demo, starts
    python tools/benchmark.py 100 400      areas of these sizes
    python tools/benchmark.py flow         filling 500 and 2,000 cells a side, a storm on cells of 100 and 50 mm
    python tools/benchmark.py flow 60 120  grids of these sides

Times depend on the machine; the ratios between sizes are what to look at: per slab they should hardly grow.
"""

from __future__ import annotations

import json
import math
import random
import sys
import time
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely
from shapely.geometry import Polygon
from skimage.morphology import reconstruction

from pavewright import flow
from pavewright.desk import demo_document, find_starts, make_pack, make_plan
from pavewright.job import Pattern
from pavewright.laying.patterns import Bond, Layout, Size
from pavewright.laying.search import Limits, field_of

if TYPE_CHECKING:
    from collections.abc import Callable
import rectpack

from pavewright.laying.cutting import Part, Stock, saw_plan

TURNS = 3
SAWN = (30, 60, 100)
SAW_JOBS = 3
"""Jobs of each size in the table of saw plans."""
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
        "version": 3,
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
        "site": {"ground": {"soil": "sandy_clay"}},
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


def starts_benchmark(turns: int = 400) -> None:
    """Print what a start costs counted by the kernel, and by a loop of overlays over all units at once."""
    outline = Polygon(
        [(0, 0), (9130, 0), (9390, 3870), (6410, 4210), (6410, 8170), (3300, 7730), (0, 8440)],
        [
            [(1500, 1500), (2110, 1500), (2110, 2000), (1500, 2000)],
            [(7000, 900), (7130, 900), (7130, 1030), (7000, 1030)],
        ],
    )
    chance = random.Random(5)
    bonds = {
        Pattern.STACK: Bond((Size(600.0, 600.0),), 10.0),
        Pattern.RUNNING: Bond((Size(600.0, 300.0),), 10.0, 0.5),
        Pattern.HERRINGBONE: Bond((Size(410.0, 200.0),), 10.0),
        Pattern.BASKETWEAVE: Bond((Size(410.0, 200.0),), 10.0),
    }
    print(f"\n{'starts of':>12} {'units':>6} {'kernel us':>10} {'overlays us':>12} {'ratio':>6}")
    for pattern, bond in bonds.items():
        layout = Layout(pattern, bond, (0.0, 0.0))
        limits = Limits(3.0, ((100.0, 100.0),))
        field = field_of([outline], layout, limits)
        wide, deep = layout.period_mm
        shifts = np.array([(chance.uniform(0.0, wide), chance.uniform(0.0, deep)) for _ in range(turns)])
        field.count(shifts[:2])
        begun = time.perf_counter()
        counts = field.count(shifts)
        kernel_us = 1e6 * (time.perf_counter() - begun) / turns
        few = shifts[: max(turns // 20, 5)]
        begun = time.perf_counter()
        whole = [by_overlays(outline, field.units, shift) for shift in few]
        overlays_us = 1e6 * (time.perf_counter() - begun) / len(few)
        if whole != counts[: len(few), 0].tolist():
            sys.exit("kernel and overlays differ")
        units = int(counts[:, :2].sum(axis=1).mean())
        print(f"{pattern.value:>12} {units:6d} {kernel_us:10.1f} {overlays_us:12.1f} {overlays_us / kernel_us:6.0f}")


def by_overlays(outline: Polygon, units: np.ndarray, shift: np.ndarray) -> int:
    """Return the whole units of one start: prepared predicates for all units, overlays for those on the edge."""
    boxes = shapely.box(units[:, 0] + shift[0], units[:, 1] + shift[1], units[:, 2] + shift[0], units[:, 3] + shift[1])
    shapely.prepare(outline)
    boxes = boxes[shapely.intersects(outline, boxes)]
    inside = shapely.contains_properly(outline, boxes)
    edge = boxes[~inside]
    parts = shapely.intersection(edge, outline)
    box, full = shapely.bounds(parts), shapely.bounds(edge)
    size, whole = box[:, 2:] - box[:, :2], full[:, 2:] - full[:, :2]
    as_its_box = shapely.area(parts) >= size.prod(axis=1) - 1.0
    return int(inside.sum() + (as_its_box & np.all(size >= whole - 3.0, axis=1)).sum())


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


def best_of(work: Callable[[], Any]) -> float:
    """Return the best time of a few turns, after one that may have to compile. [s]."""
    work()
    best = math.inf
    for _ in range(TURNS):
        begun = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - begun)
    return best


def rough_plane(side: int) -> flow.Grid:
    """Return a plane of 1 in 60 with half a millimetre of noise, so many cells a side, free at its low edge."""
    chance = np.random.default_rng(side)
    long = 10.0 * side
    yard = flow.rasterise(
        shapely.box(0.0, 0.0, long, long), 10.0, lambda x, y: -(x + 0.3 * y) / 60.0 + chance.normal(0.0, 0.5, x.shape)
    )
    return flow.with_exit_line(yard, "edge", shapely.LineString([(long, 0.0), (long, long)]))


def valley(cell_mm: float) -> flow.Grid:
    """Return a patio of 5.4 by 4.2 m that falls to a gully in a valley."""
    patio = flow.rasterise(
        shapely.box(0.0, 0.0, 5400.0, 4200.0),
        cell_mm,
        lambda x, y: np.abs(y - 2600.0) / 50.0 + np.abs(x - 4900.0) / 90.0,
    )
    return flow.with_exit_polygon(patio, "gully", shapely.box(4825.0, 2525.0, 4975.0, 2675.0))


def flow_tables(sides: list[int]) -> None:
    """Print what filling costs beside another library and beside one look at the grid, and a storm by its cells."""
    print(f"{'side':>6} {'fill s':>8} {'other/fill':>10} {'fill/look':>9} {'catchments/fill':>15}")
    for side in sides:
        yard = rough_plane(side)
        seed = np.where(yard.exits >= 0, yard.levels_mm, np.inf)
        seed[~np.isfinite(seed)] = yard.levels_mm.max()
        filled = flow.fill(yard)
        fill = best_of(lambda yard=yard: flow.fill(yard))
        other = best_of(lambda seed=seed, yard=yard: reconstruction(seed, yard.levels_mm, method="erosion"))
        look = best_of(lambda yard=yard: float(yard.levels_mm.sum()))
        share = best_of(lambda filled=filled: flow.catchments(filled))
        print(f"{side:6d} {fill:8.3f} {other / fill:10.2f} {fill / look:9.1f} {share / fill:15.2f}")
    print(
        f"{'cell mm':>8} {'storm s':>8} {'steps':>7} {'ns/cell/step':>12} {'ratio':>6} {'peak l/s':>8} {'deepest':>7}"
    )
    first = 0.0
    for cell_mm in (100.0, 50.0):
        patio = valley(cell_mm)
        spent = best_of(lambda patio=patio: flow.storm(patio, 75.0, 10.0, 15.0))
        done = flow.storm(patio, 75.0, 10.0, 15.0)
        each = 1e9 * spent / done.steps / np.count_nonzero(patio.inside)
        first = first or spent
        print(
            f"{cell_mm:8.0f} {spent:8.3f} {done.steps:7d} {each:12.1f} {spent / first:6.2f} {done.peak_l_s[0]:8.4f}"
            f" {done.deepest_mm:7.2f}"
        )


def boxes(count: int, seed: int) -> list[tuple[int, int]]:
    """Return sizes of cut pieces as edges make them: most keep one side of the slab, some are cut both ways."""
    dice = random.Random(10_000 * count + seed)
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
    """Print slabs used against the fewest possible and against a general library, over several jobs of each size."""
    print(
        f"{'parts':>8} {'slabs':>6} {'bound':>6} {'gap %':>6} {'proved':>7} {'rectpack':>9} {'s':>7} {'rectpack s':>11}"
    )
    stock = (Stock(float(SLAB_MM), float(SLAB_MM)),)
    warm = [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(boxes(60, 99))]
    saw_plan(warm, stock, float(KERF_MM), may_turn=True)
    for count in SAWN:
        jobs = [boxes(count, seed) for seed in range(SAW_JOBS)]
        plans, ours, other, theirs = [], 0.0, 0.0, 0
        for sizes in jobs:
            parts = [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(sizes)]
            begun = time.perf_counter()
            plans.append(saw_plan(parts, stock, float(KERF_MM), may_turn=True))
            ours += time.perf_counter() - begun
            begun = time.perf_counter()
            theirs += slabs_by_rectpack(sizes)
            other += time.perf_counter() - begun
        gap = 100.0 * sum(plan.cost / plan.min_cost - 1.0 for plan in plans) / len(plans)
        used, least = sum(plan.cost for plan in plans), sum(plan.min_cost for plan in plans)
        proved = f"{sum(plan.proved for plan in plans)}/{len(plans)}"
        print(
            f"{count:8d} {used:6d} {least:6d} {gap:6.2f} {proved:>7} {theirs:9d} {ours / len(jobs):7.3f}"
            f" {other / len(jobs):11.3f}"
        )


def main(words: list[str]) -> int:
    """Print the tables."""
    if words[:1] == ["flow"]:
        flow_tables([int(word) for word in words[1:]] or [500, 2000])
        return 0
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
    starts_benchmark()
    begun = time.perf_counter()
    (found,) = find_starts(demo_document())
    print(f"demo: {found.starts_tried} starts counted, {found.laid} laid and cut {time.perf_counter() - begun:.3f} s")
    saw_table()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
