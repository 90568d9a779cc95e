"""Large areas in bays, each laid by itself: a movement joint runs straight between two of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator


def bays_of(area: np.ndarray, max_cells: int) -> tuple[np.ndarray, ...]:
    """Return an area in bays of about equal size across its longer side.

    Args:
        area: Whether each cell is to be covered, shape (rows, columns), bool.
        max_cells: Cells that one bay may have, but for what is left of its last row.
    """
    count = math.ceil(int(area.sum()) / max_cells)
    if count <= 1:
        return (area,)
    if area.shape[1] > area.shape[0]:
        return tuple(bay.T for bay in bays_of(area.T, max_cells))
    reached = np.cumsum(area.sum(axis=1))
    rows = np.minimum((reached - 1) * count // reached[-1], count - 1)
    found = (area & (rows == number)[:, None] for number in range(count))
    return tuple(bay for bay in found if bay.any())


def bay_joints(bays: tuple[np.ndarray, ...]) -> tuple[tuple[int, int, int, int], ...]:
    """Return where the joints between bays run: row and column of either end, in corners of cells.

    >>> bay_joints((np.array([[True, True], [False, False]]), np.array([[False, False], [True, True]])))
    ((1, 0, 1, 2),)
    """
    number = np.zeros(bays[0].shape, dtype=np.int64)
    for each, bay in enumerate(bays, start=1):
        number[bay] = each
    level = ((row, first, row, last) for row, first, last in _borders(number))
    upright = ((first, column, last, column) for column, first, last in _borders(number.T))
    return tuple(sorted((*level, *upright)))


def _borders(number: np.ndarray) -> Iterator[tuple[int, int, int]]:
    """Give row, first and last column of every run of cells with another bay in the row before."""
    apart = (number[1:] != number[:-1]) & (number[1:] > 0) & (number[:-1] > 0)
    for row, line in enumerate(apart, start=1):
        steps = np.diff(np.concatenate(([0], line.astype(np.int64), [0])))
        for first, last in zip(np.flatnonzero(steps == 1), np.flatnonzero(steps == -1), strict=True):
            yield row, int(first), int(last)
