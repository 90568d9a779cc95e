"""How many slabs no plan can do with fewer than: dual-feasible functions on both axes."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.cutting._columns import min_cost_of_sizes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.laying.cutting._grid import SawTask

_MOST = 60
"""Thresholds tried of each family on an axis; more are thinned evenly."""
_NEARLY = 1e-7


def min_slabs(task: SawTask) -> int:
    """Return a number of slabs of one size that no plan for the parts can be below, whatever the cuts.

    A dual-feasible function maps sizes to shares so that what fits side by side never sums to more than 1. With one on
    each axis, the products of the shares of all parts on a slab sum to 1 at most. Where a part may turn, the turn that
    counts least is counted.

    Source: fekete_schepers_2004, dual feasible functions; carlier_clautiaux_moukrim_2007, the family of halves
    """
    if not len(task.rows):
        return 0
    rows, counts = np.unique(task.rows[:, :3], axis=0, return_counts=True)
    length, width, _ = (int(each) for each in task.stock[0])
    lying, standing = rows[:, 2] & 0b0101 > 0, rows[:, 2] & 0b1010 > 0
    ends = np.concatenate([rows[:, 0], rows[:, 1]])
    along, across = _shares(ends, length), _shares(ends, width)
    kinds = len(rows)
    best = 0.0
    for row in along:
        lie = np.where(lying, row[:kinds] * across[:, kinds:], np.inf)
        stand = np.where(standing, row[kinds:] * across[:, :kinds], np.inf)
        best = max(best, float((np.minimum(lie, stand) @ counts).max()))
    return int(np.ceil(best - _NEARLY))


def min_cost(task: SawTask) -> int:
    """Return a cost that no plan can be below.

    For one size its cost times the least number; for several by column generation or by area.

    Source: definition
    """
    if not len(task.rows):
        return 0
    if len(task.stock) == 1:
        return min_slabs(task) * int(task.stock[0, 2])
    return max(math.ceil(cost_by_area(task)), min_cost_of_sizes(task), int(task.stock[:, 2].min()))


def cost_by_area(task: SawTask) -> Fraction:
    """Return what the parts cost by their area, at the price of the size that is cheapest for its own; not rounded.

    Source: definition
    """
    price = min(Fraction(int(row[2]), int(row[0]) * int(row[1])) for row in task.stock)
    return price * sum(int(row[0]) * int(row[1]) for row in task.rows)


def _shares(sizes: np.ndarray, whole: int) -> np.ndarray:
    """Return each function of the families at each size, shape (functions, sizes), float64.

    Args:
        sizes: Whole steps, at most ``whole`` where they matter, int64.
        whole: Size of the slab on the axis. [step]
    """
    x = np.minimum(sizes, whole).astype(np.int64)
    rows = [x / whole]
    for k in _thinned(
        {int(each) for each in x if 2 * each <= whole} | {int(whole - each) for each in x if 2 * each > whole}
    ):
        if k < 1 or 2 * k > whole:
            continue
        rows.append(np.where(x > whole - k, 1.0, np.where(x < k, 0.0, x / whole)))
        parts = whole // k
        upper = 2 * (parts - (whole - x) // k)
        rows.append(np.where(2 * x > whole, upper, np.where(2 * x == whole, parts, 2 * (x // k))) / (2.0 * parts))
    for k in range(1, _MOST):
        times = (k + 1) * x
        rows.append(np.where(times % whole == 0, x / whole, (times // whole) / k))
    return np.unique(np.array(rows), axis=0)


def _thinned(thresholds: Iterable[int]) -> list[int]:
    ordered = sorted(thresholds)
    step = max(1, -(-len(ordered) // _MOST))
    return ordered[::step]
