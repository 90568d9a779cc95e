"""The cheapest choice among all ways of cutting a slab that the search met."""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy
import numpy as np

from pavewright.laying.cutting._chosen_slabs import whole_columns
from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Sequence

MAX_WAYS = 1500
"""Ways looked at, the latest met."""
_MAX_NODES = 50


def cheapest_cover(
    counts: np.ndarray, cost: np.ndarray, demand: np.ndarray, start: Sequence[int], max_ways: int = MAX_WAYS
) -> list[int]:
    """Return the ways chosen, one entry for each slab, that together cut every part.

    Args:
        counts: Parts of each kind that a way cuts, shape (ways, kinds), int64.
        cost: Cost of the slab of each way, shape (ways,), int64.
        demand: Parts wanted of each kind, shape (kinds,), int64.
        start: A choice that covers, one entry for each slab; returned where nothing cheaper is found.
        max_ways: How many of the latest ways are looked at.

    Valid for: whole costs. The solver stops after a number of branches, not of seconds, so that it ends the same way
        everywhere.
    Source: definition, set cover
    """
    kept = _kept(len(cost), start, max_ways)
    solver = quiet_solver()
    for option, value in (("mip_max_nodes", _MAX_NODES), ("mip_abs_gap", 1.0 - 1e-6), ("mip_rel_gap", 0.0)):
        solver.setOptionValue(option, value)
    solver.passModel(whole_columns(counts[kept], cost[kept], demand, whole=True))
    place = {int(way): number for number, way in enumerate(kept)}
    begin = highspy.HighsSolution()
    values = np.zeros(len(kept))
    for way in start:
        values[place[way]] += 1.0
    begin.col_value = values.tolist()
    solver.setSolution(begin)
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return list(start)
    chosen = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64)
    covers = bool((chosen @ counts[kept] >= demand).all())
    if not covers or int(chosen @ cost[kept]) >= int(cost[list(start)].sum()):
        return list(start)
    return [int(way) for way, times in zip(kept, chosen.tolist(), strict=True) for _ in range(times)]


def most_together(counts: np.ndarray, worth: np.ndarray, wanted: np.ndarray) -> list[int]:
    """Return ways that can all be cut from the parts wanted, worth the most together.

    Args:
        counts: Parts of each kind that a way cuts, shape (ways, kinds), int64.
        worth: Worth of each way, shape (ways,), int64.
        wanted: Parts wanted of each kind, shape (kinds,), int64.

    Source: definition, set packing
    """
    model = whole_columns(counts, -worth, wanted, whole=True)
    model.row_lower_, model.row_upper_ = np.full(len(wanted), -highspy.kHighsInf), wanted.astype(np.float64)
    solver = quiet_solver()
    solver.setOptionValue("mip_max_nodes", _MAX_NODES)
    solver.passModel(model)
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return []
    chosen = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64)
    if (chosen @ counts > wanted).any():
        return []
    return [int(way) for way in np.repeat(np.arange(len(worth)), chosen)]


def _kept(ways: int, start: Sequence[int], max_ways: int) -> np.ndarray:
    """Return the ways that are looked at: those of the start, then the latest met."""
    latest = np.arange(max(ways - max_ways, 0), ways)
    return np.union1d(latest, np.array(start, dtype=np.int64))
