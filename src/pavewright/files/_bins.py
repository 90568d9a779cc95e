"""The median level in every cell of a fine grid, from a cloud of points: count, sort in, choose."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.compiled import called_with, compiled

if TYPE_CHECKING:
    import numpy as np


@called_with("int64[::1], int64[::1], int64, int64, int64, int32[:, ::1]")
def count_into(x: np.ndarray, y: np.ndarray, low_x: int, low_y: int, cell: int, counts: np.ndarray) -> None:
    """Count points into the cells of a grid.

    Args:
        x: Places east in steps of the file, shape (n,), int64.
        y: Places north, shape (n,), int64.
        low_x: West edge of the grid. [step]
        low_y: South edge. [step]
        cell: Side of a cell. [step]
        counts: Points in each cell, shape (columns, rows), int32; added to.
    """
    for k in range(len(x)):
        counts[(x[k] - low_x) // cell, (y[k] - low_y) // cell] += 1


@called_with("int64[::1], int64[::1], int32[:], int64, int64, int64, int64[:, ::1], int32[::1]")
def sort_into(
    x: np.ndarray,
    y: np.ndarray,
    z: np.ndarray,
    low_x: int,
    low_y: int,
    cell: int,
    place: np.ndarray,
    levels: np.ndarray,
) -> None:
    """Put levels into the share of their cell.

    Args:
        x: Places east in steps of the file, shape (n,), int64.
        y: Places north, shape (n,), int64.
        z: Levels in steps, shape (n,), int32.
        low_x: West edge of the grid. [step]
        low_y: South edge. [step]
        cell: Side of a cell. [step]
        place: Where the next level of each cell goes, shape (columns, rows), int64; moved on.
        levels: Levels cell by cell, shape (all points,), int32; filled.
    """
    for k in range(len(x)):
        i, j = (x[k] - low_x) // cell, (y[k] - low_y) // cell
        levels[place[i, j]] = z[k]
        place[i, j] += 1


@compiled
def _select(levels: np.ndarray, low: int, high: int, wanted: int) -> None:
    """Put the level of one rank where it belongs, none larger before it and none smaller behind it."""
    while low < high:
        pivot = levels[(low + high) // 2]
        a, b = low, high
        while a <= b:
            while levels[a] < pivot:
                a += 1
            while levels[b] > pivot:
                b -= 1
            if a <= b:
                levels[a], levels[b] = levels[b], levels[a]
                a += 1
                b -= 1
        if wanted <= b:
            high = b
        elif wanted >= a:
            low = a
        else:
            return


@called_with("int64[:, ::1], int32[:, ::1], int32[::1], int64, float64[:, ::1]")
def medians_of(ends: np.ndarray, counts: np.ndarray, levels: np.ndarray, least: int, found: np.ndarray) -> int:
    """Write the middle of each cell that holds enough points, and return how many do.

    Args:
        ends: Where the levels of each cell end, shape (columns, rows), int64.
        counts: Points in each cell, shape (columns, rows), int32.
        levels: Levels cell by cell, shape (all points,), int32; each share is put in order as far as
            its middle needs.
        least: Points that a cell must hold.
        found: Column, row, level of each such cell, shape (cells, 3), float64; the level in steps.
    """
    number = 0
    for i in range(counts.shape[0]):
        for j in range(counts.shape[1]):
            n = counts[i, j]
            if n < least:
                continue
            first = ends[i, j] - n
            middle = first + n // 2
            _select(levels, first, first + n - 1, middle)
            lower = levels[middle]
            if n % 2 == 0:
                lower = levels[first]
                for a in range(first + 1, middle):
                    lower = max(lower, levels[a])
            found[number, 0] = i
            found[number, 1] = j
            found[number, 2] = (lower + levels[middle]) / 2.0
            number += 1
    return number
