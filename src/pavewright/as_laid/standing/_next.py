"""Where to read next: the places at which one more reading is expected to decide most."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

_LOOKED_AT = 120
"""So many places are tried."""
_JUDGED = 700
"""On so many cells it is looked at what is undecided."""


def worth_of(
    off_mm: NDArray[np.float64], wet: NDArray[np.bool_], reading_sd_mm: float
) -> tuple[NDArray[np.float64], float]:
    """Return how much one more reading at each tried place is expected to settle, and what is undecided now.

    Each simulated surface in turn is taken for the truth and read at the place; the others are weighed by how well they
    agree with that reading, and what they then leave undecided is summed over the cells.

    Args:
        off_mm: Simulated levels at the tried places, shape (runs, places), float64. [mm]
        wet: Whether each judged cell is under water, shape (runs, cells), bool.
        reading_sd_mm: Standard deviation of a reading. [mm]

    Source: definition, expected fall of the sum of p·(1 − p)
    """
    runs = len(wet)
    share = wet.mean(axis=0)
    under = wet[:, (share > 0.0) & (share < 1.0)].astype(np.float64)  # elsewhere nothing is undecided
    now = float((share * (1.0 - share)).sum())
    worth = np.zeros(off_mm.shape[1])
    width = max(reading_sd_mm, _FINEST_MM) * np.sqrt(2.0)  # a reading has its error, and so has that of the truth
    for place in range(off_mm.shape[1]):
        apart = (off_mm[:, place, None] - off_mm[None, :, place]) / width
        weights = np.exp(-0.5 * apart**2)
        weights[np.diag_indices(runs)] = 0.0  # a surface is no witness for itself
        sums = weights.sum(axis=1, keepdims=True)
        weights = np.where(sums > _FEW, weights / np.maximum(sums, _FEW), 1.0 / runs)
        after = weights @ under
        few = 1.0 - (weights**2).sum(axis=1, keepdims=True)  # few witnesses agree too well with each other
        worth[place] = now - float((after * (1.0 - after) / np.maximum(few, _LONELY)).sum()) / runs
    return worth, now


_FINEST_MM = 0.3
"""No reading is taken for finer than this. [mm]"""
_LONELY = 0.3
"""However few the witnesses, what they leave undecided is not raised beyond this. [-]"""
_FEW = 1.0
"""Where fewer surfaces than this agree with a reading, it is taken to say nothing."""


def tried(paved: NDArray[np.bool_], cell_mm: float, read_at: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return cells at which reading is tried, evenly over the paving and off what was read, shape (places,), intp.

    Args:
        paved: Cells that are paving, shape (rows, columns), bool.
        cell_mm: Side of a cell. [mm]
        read_at: Cells with a reading, shape (readings,), intp.
    """
    rows, columns = paved.shape
    every = max(round((np.count_nonzero(paved) / _LOOKED_AT) ** 0.5), 1)
    lattice = np.zeros(paved.shape, dtype=np.bool_)
    lattice[every // 2 :: every, every // 2 :: every] = True
    found = np.flatnonzero((lattice & paved).ravel())
    up, across = np.divmod(found[:, None], columns)
    read_up, read_across = np.divmod(read_at[None, :], columns)
    apart = np.hypot(up - read_up, across - read_across).min(axis=1, initial=rows + columns) * cell_mm
    return np.asarray(found[apart > _OFF_READ_MM], dtype=np.intp)


_OFF_READ_MM = 200.0
"""Nearer to a reading than this another one tells nothing new of the shape. [mm]"""


def judged(paved: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Return cells on which it is looked at what is undecided, shape (cells,), intp."""
    every = max(round((np.count_nonzero(paved) / _JUDGED) ** 0.5), 1)
    lattice = np.zeros(paved.shape, dtype=np.bool_)
    lattice[every // 2 :: every, every // 2 :: every] = True
    return np.asarray(np.flatnonzero((lattice & paved).ravel()), dtype=np.intp)


def best_apart(worth: NDArray[np.float64], at: NDArray[np.float64], count: int, apart_mm: float) -> list[int]:
    """Return the places of most worth, none near another: what one settles another beside it settles no more.

    Args:
        worth: How much a reading at each is expected to settle, shape (places,), float64. [-]
        at: Where they are, shape (places, 2), float64. [mm]
        count: How many at most.
        apart_mm: How far from each other. [mm]
    """
    found: list[int] = []
    for place in np.argsort(-worth, kind="stable"):
        if len(found) == count or worth[place] <= 0.0:
            break
        if all(np.hypot(*(at[place] - at[other])) >= apart_mm for other in found):
            found.append(int(place))
    return found
