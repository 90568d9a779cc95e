"""A proof for small jobs: all sets of parts that straight cuts get out of one slab, and the fewest that cover them."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.cutting._chosen_slabs import whole_columns
from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.laying.cutting._grid import SawTask

MAX_PARTS = 24
"""Parts of the largest job that is tried."""
_MAX_SETS = 3000
_MAX_ON_ONE = 9
_MAX_NODES = 1000
_NEARLY = 1e-6
Size = tuple[int, int]


def fewest_by_subsets(task: SawTask) -> int | None:
    """Return a number of slabs that no plan of straight cuts right across can be below; None where it is too much work.

    The boxes into which a set of parts can be cut are those of its two halves side by side or one behind the other,
    for every way of halving it; a set whose smallest boxes all exceed the slab cannot be cut, nor any that holds it.

    Valid for: one size of slab, no factory sides.
    Source: definition
    """
    sets = _sets_that_fit(task)
    if sets is None:
        return None
    count = len(task.rows)
    largest = [
        each for each in sets if not any((each | 1 << part) in sets for part in range(count) if not each >> part & 1)
    ]
    holds = np.array([[each >> part & 1 for part in range(count)] for each in largest], dtype=np.int64)
    solver = quiet_solver()
    solver.setOptionValue("mip_max_nodes", _MAX_NODES)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.passModel(whole_columns(holds, np.ones(len(largest)), np.ones(count), whole=True))
    solver.run()
    return int(np.ceil(float(solver.getInfo().mip_dual_bound) - _NEARLY))


def _sets_that_fit(task: SawTask) -> dict[int, list[Size]] | None:
    """Return the smallest boxes of every set of parts that comes out of one slab, sets as bits."""
    slab = int(task.stock[0, 0]), int(task.stock[0, 1])
    count = len(task.rows)
    boxes: dict[int, list[Size]] = {}
    for part, (wide, high, turns, _, _) in enumerate(task.rows.tolist()):
        ways = ([(wide, high)] if turns & 0b0101 else []) + ([(high, wide)] if turns & 0b1010 else [])
        boxes[1 << part] = _smallest(ways, slab)
    level = list(boxes)
    for _ in range(_MAX_ON_ONE):
        fresh = []
        for each in level:
            for part in range(each.bit_length(), count):
                bigger = each | 1 << part
                if all(bigger & ~(1 << other) in boxes for other in range(part) if bigger >> other & 1):
                    found = _smallest(_joined(bigger, boxes), slab)
                    if found:
                        boxes[bigger] = found
                        fresh.append(bigger)
            if len(boxes) > _MAX_SETS:
                return None
        if not fresh:
            return boxes
        level = fresh
    return None


def _joined(whole: int, boxes: dict[int, list[Size]]) -> Iterable[Size]:
    """Yield every box of a set from its halves; the lowest part is always in the first half."""
    lowest = whole & -whole
    rest = whole ^ lowest
    half = (rest - 1) & rest
    while True:
        one, other = half | lowest, rest ^ half
        for (a, b), (c, d) in product(boxes.get(one, ()), boxes.get(other, ())):
            yield a + c, max(b, d)
            yield max(a, c), b + d
        if half == 0:
            return
        half = (half - 1) & rest


def _smallest(ways: Iterable[Size], slab: Size) -> list[Size]:
    """Return the boxes that fit the slab and that no other undercuts in both sizes."""
    kept: list[Size] = []
    for wide, high in sorted(set(ways)):
        if wide <= slab[0] and high <= slab[1] and (not kept or high < kept[-1][1]):
            kept.append((wide, high))
    return kept
