"""Readings that stand in a row: the profiles along which an edge is rolled."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

_ENOUGH = 3


def rows_of(places: NDArray[np.float64], beside_mm: float) -> tuple[tuple[int, ...], ...]:
    """Return readings that stand in a row east or north, three or more of them, each row in turn along it.

    Args:
        places: East and north, shape (n, 2), float64. [mm]
        beside_mm: How far a reading may stand beside its row. [mm]

    Source: definition
    """
    found: list[tuple[int, ...]] = []
    for across, way in ((1, 0), (0, 1)):
        order = np.argsort(places[:, across], kind="stable")
        row: list[int] = []
        for number in order.tolist():
            if row and places[number, across] - places[row[0], across] > beside_mm:
                found += _sorted_row(row, places[:, way])
                row = []
            row.append(number)
        found += _sorted_row(row, places[:, way])
    return tuple(found)


def _sorted_row(row: list[int], along: NDArray[np.float64]) -> list[tuple[int, ...]]:
    """Return a row in turn along it, once for each place; none where it is too short."""
    kept: list[int] = []
    for number in sorted(row, key=lambda each: (float(along[each]), each)):
        if not kept or along[number] - along[kept[-1]] > 1.0:
            kept.append(number)
    return [tuple(kept)] if len(kept) >= _ENOUGH else []
