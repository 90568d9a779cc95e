"""The median level in every cell of a fine grid, from a cloud of points: count, sort in, choose."""

from __future__ import annotations

import numpy as np

from pavewright.compiled import called_with

_FEW = 48
"""Levels that are put in order one by one; more are sorted as a whole."""


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


@called_with("int64[:, ::1], int32[:, ::1], int32[::1], int64, float64[:, ::1]")
def medians_of(ends: np.ndarray, counts: np.ndarray, levels: np.ndarray, least: int, found: np.ndarray) -> int:
    """Write the middle of each cell that holds enough points, and return how many do.

    Args:
        ends: Where the levels of each cell end, shape (columns, rows), int64.
        counts: Points in each cell, shape (columns, rows), int32.
        levels: Levels cell by cell, shape (all points,), int32; each share is sorted.
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
            if n > 1:
                # few levels to a cell: put each where it belongs among those before it
                if n <= _FEW:
                    for a in range(first + 1, first + n):
                        held = levels[a]
                        b = a - 1
                        while b >= first and levels[b] > held:
                            levels[b + 1] = levels[b]
                            b -= 1
                        levels[b + 1] = held
                else:
                    levels[first : first + n] = np.sort(levels[first : first + n])
            found[number, 0] = i
            found[number, 1] = j
            found[number, 2] = (levels[first + (n - 1) // 2] + levels[first + n // 2]) / 2.0
            number += 1
    return number
