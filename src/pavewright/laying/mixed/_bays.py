"""Large areas in bays, each laid by itself: a movement joint runs straight between two of them."""

from __future__ import annotations

import math

import numpy as np


def bays_of(area: np.ndarray, most_cells: int) -> tuple[np.ndarray, ...]:
    """Return an area in bays of about equal size across its longer side.

    Args:
        area: Whether each cell is to be covered, shape (rows, columns), bool.
        most_cells: Cells that one bay may have, but for what is left of its last row.
    """
    count = math.ceil(int(area.sum()) / most_cells)
    if count <= 1:
        return (area,)
    if area.shape[1] > area.shape[0]:
        return tuple(bay.T for bay in bays_of(area.T, most_cells))
    reached = np.cumsum(area.sum(axis=1))
    rows = np.minimum((reached - 1) * count // reached[-1], count - 1)
    found = (area & (rows == number)[:, None] for number in range(count))
    return tuple(bay for bay in found if bay.any())
