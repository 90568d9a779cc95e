"""Which shifts are worth trying, and the best of them.

Counts change only where an edge of a unit passes a corner of the outline, or comes so near to it that a piece becomes a
crumb or stops being a sliver. So those shifts are tried, not equal steps: along with every kind of shift across, or,
where these are too many, along and across in turn, from the best so far.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.laying.search._field import Field, Limits

_SAME_MM = 0.05
"""Shifts that differ less are one. [mm]"""
_SLIVER_COST, _NOTCH_COST = 5.0, 1.0
"""What a sliver and a notch weigh against a plain cut piece where starts are ranked."""
NARROW_COST = 1000.0
"""What a piece that cannot be cut and laid weighs: more than all else."""
_NOTHING_CUT_MM = 1e6
"""Stands for the smallest piece where nothing is cut. [mm]"""
_ALIKE_MM, _ALIKE_SAWN_MM = 5.0, 100.0
"""Starts whose smallest pieces, and whose sawing, differ by less are alike. [mm]"""
_ROUNDS = 3
"""How often shifts along and across are improved in turn."""


@dataclass(frozen=True)
class Ranked:
    """Shifts that were tried, best first.

    Attributes:
        shifts: The best of them, shape (k, 2). [mm]
        counts: What the kernel counts for each, and how many pieces are too narrow to be cut and laid, shape (k, 7).
        tried: How many were tried.
    """

    shifts: np.ndarray
    counts: np.ndarray
    tried: int


def best_shifts(field: Field, period_mm: XY, limits: Limits, most: int, kept: int) -> Ranked:
    """Return the best shifts of a pattern, the same ones on every run.

    Args:
        field: The field and its pattern.
        period_mm: Shifts that give every possible start once. [mm]
        limits: What makes a crumb or a sliver.
        most: How many shifts may be tried, about.
        kept: How many are returned.
    """
    along, across = (_events(field, axis, period_mm[axis], limits) for axis in (0, 1))
    here = np.zeros((1, 2))

    def counted(these: np.ndarray) -> np.ndarray:
        counts = field.count(these)
        return np.column_stack((counts, field.too_narrow(these, counts, period_mm)))

    if len(along) * len(across) <= most:
        wide, deep = np.meshgrid(along, across)
        shifts = np.vstack((here, np.stack((wide.ravel(), deep.ravel()), axis=1)))
        return _ranked(shifts, counted(shifts), kept)
    starts = max(most // ((len(along) + len(across)) * _ROUNDS), 1)
    shifts, counts = here, counted(here)
    for _ in range(_ROUNDS):
        for axis, values in ((0, along), (1, across)):
            best = _ranked(shifts, counts, starts * 4).shifts[:, 1 - axis]
            others = best[np.sort(np.unique(best, return_index=True)[1])][:starts]
            more = np.empty((len(values) * len(others), 2))
            more[:, axis] = np.tile(values, len(others))
            more[:, 1 - axis] = np.repeat(others, len(values))
            shifts, counts = np.vstack((shifts, more)), np.vstack((counts, counted(more)))
    return _ranked(shifts, counts, kept)


def _ranked(shifts: np.ndarray, counts: np.ndarray, kept: int) -> Ranked:
    """Return the best shifts, those with equal counts once."""
    score = counts[:, 1] + _SLIVER_COST * counts[:, 2] + _NOTCH_COST * counts[:, 3]
    score += NARROW_COST * counts[:, 6]
    moved = np.abs(shifts).sum(axis=1)
    smallest = np.minimum(counts[:, 4], _NOTHING_CUT_MM)
    order = np.lexsort((moved, counts[:, 5].round(3), -smallest.round(3), score))
    keys = np.stack((score, smallest // _ALIKE_MM, counts[:, 5] // _ALIKE_SAWN_MM), axis=1)[order]
    different = np.concatenate(((True,), np.any(keys[1:] != keys[:-1], axis=1)))
    best = order[different][:kept]
    return Ranked(shifts[best], counts[best], len(np.unique(shifts.round(3), axis=0)))


def _events(field: Field, axis: int, period_mm: float, limits: Limits) -> np.ndarray:
    """Return the shifts along one axis at which a count may change, between zero and one period. [mm]."""
    ends = field.units[:, [axis, axis + 2]] % period_mm
    edges = _different(ends.ravel(), period_mm)
    corners = _different(field.corners[:, axis], period_mm)
    least = {value for pair in limits.min_mm for value in pair}
    off = np.array(
        [
            0.0,
            *(
                sign * value
                for value in (limits.absorbed_mm, *sorted(least | set(limits.min_width_mm)))
                for sign in (-1.0, 1.0)
            ),
        ]
    )
    # just past the threshold: a piece as wide as the limit is no sliver
    off = off + np.sign(off) * _SAME_MM
    shifts = corners[:, None, None] - edges[None, :, None] + off[None, None, :]
    return _different(np.concatenate(((0.0,), shifts.ravel())), period_mm)


def _different(values: np.ndarray, period_mm: float) -> np.ndarray:
    """Return values within one period, those that are the same but for rounding once."""
    steps = np.unique(np.round((values % period_mm) / _SAME_MM).astype(np.int64))
    found: np.ndarray = steps * _SAME_MM
    return found[found < period_mm]
