"""A cost that no plan from several sizes of slab can be below: column generation over ways of cutting one slab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy
import numpy as np

from pavewright.laying.cutting._chosen_slabs import whole_columns
from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._grid import SawTask

_CELLS = 150
"""Cells of the coarse grid on the longer side of the largest slab."""
_MAX_TURNS = 300
_CLOSE = 1e-4
_NEARLY = 1e-6


def min_cost_of_sizes(
    task: SawTask, met: Sequence[tuple[np.ndarray, float]] = (), known: int = 0, to_prove: int | None = None
) -> int:
    """Return a cost that no plan can be below, whatever the sizes chosen.

    Sizes are rounded down to a coarse grid, which only makes the cutting easier, and parts may be cut in fractions of a
    slab. In each turn the prices of the parts, divided by the most that a slab earns for its cost, give a bound.

    Args:
        task: What is to be cut.
        met: Slabs of a plan to start from: how many of each kind one gives, and its cost. [-, cost of the task]
        known: A cost that is known to be below every plan; the search ends when no more can come of it.
        to_prove: The cost of a plan, at which the search ends too.

    Source: gilmore_gomory_1965, pricing; farley_1990, the bound in each turn
    """
    from pavewright.laying.cutting._value_kernel import max_value  # noqa: PLC0415 - the compiler is slow to load

    cell = -(-int(task.stock[:, :2].max()) // _CELLS)
    lying, owner = _ways_to_lie(task, cell)
    demand = np.bincount(task.rows[:, 4], minlength=task.kinds).astype(np.float64)
    demand[np.setdiff1d(np.arange(task.kinds), owner)] = 0.0
    columns, costs = _first_columns(task, owner)
    columns += [counts * (demand > 0.0) for counts, _ in met]
    costs += [each for _, each in met]
    best, best_cost = 0.0, task.stock[:, 2].astype(np.float64)
    for _ in range(_MAX_TURNS):
        value, prices = _relaxed(np.array(columns), np.array(costs), demand)
        ratio, fresh = 1.0, 0
        for size, cost in zip((task.stock[:, :2] // cell).tolist(), best_cost.tolist(), strict=True):
            fitting = (lying[:, 0] <= size[0]) & (lying[:, 1] <= size[1])
            earned, counts = max_value(lying[fitting], prices[owner[fitting]], size[0], size[1])
            ratio = max(ratio, earned / cost)
            if earned > cost * (1.0 + _NEARLY):
                column = np.zeros(task.kinds)
                np.add.at(column, owner[fitting], counts)
                columns.append(column)
                costs.append(cost)
                fresh += 1
        best = max(best, float(prices @ demand) / ratio)
        if not fresh or value - best < _CLOSE * value:
            break
        if _up(value) <= known or (to_prove is not None and _up(best) >= to_prove):
            break
    return _up(best)


def _up(cost: float) -> int:
    """Return a cost rounded up to a whole one, but for the error of the arithmetic."""
    return int(np.ceil(cost - _NEARLY * max(cost, 1.0)))


def _ways_to_lie(task: SawTask, cell: int) -> tuple[np.ndarray, np.ndarray]:
    """Return width and height of each kind in each turn in cells, and the kind; parts of no width are left out."""
    rows = np.unique(task.rows, axis=0)
    lying = [(row[0] // cell, row[1] // cell, row[4]) for row in rows.tolist() if row[2] & 0b0101]
    lying += [(row[1] // cell, row[0] // cell, row[4]) for row in rows.tolist() if row[2] & 0b1010]
    kept = np.array(sorted(set(lying)), dtype=np.int64)
    kept = kept[(kept[:, 0] > 0) & (kept[:, 1] > 0)]
    return np.ascontiguousarray(kept[:, :2]), np.ascontiguousarray(kept[:, 2])


def _first_columns(task: SawTask, owner: np.ndarray) -> tuple[list[np.ndarray], list[float]]:
    """Return a slab for each kind, at the dearest cost, so that the first turn has a plan."""
    columns = [np.eye(task.kinds)[kind] for kind in np.unique(owner)]
    return columns, [float(task.stock[:, 2].max())] * len(columns)


def _relaxed(columns: np.ndarray, costs: np.ndarray, demand: np.ndarray) -> tuple[float, np.ndarray]:
    """Return the cost of the best plan in fractions of slabs, and the price of a part of each kind."""
    solver = quiet_solver()
    solver.passModel(whole_columns(columns, costs, demand, whole=False))
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        message = "the prices of the parts were not found"
        raise RuntimeError(message)
    prices = np.maximum(np.array(solver.getSolution().row_dual), 0.0)
    return float(solver.getInfo().objective_function_value), prices
