"""Kernel: which way water leaves each cell of a filled grid, and where it ends."""

from __future__ import annotations

import math

import numpy as np

from pavewright.compiled import called_with, compiled

SIDE_DOWN = np.array([-1, 0, 0, 1])
"""Rows to the neighbour over each side."""
SIDE_ALONG = np.array([0, -1, 1, 0])
"""Columns to the neighbour over each side."""


@compiled
def _steepest(
    levels: np.ndarray, reached: np.ndarray, cell: int, columns: int, corners: bool
) -> tuple[float, int, int, float]:
    """Return slope for each side of a cell, neighbour over a side, neighbour over a corner and their steepness ratio.

    The ratio is the tangent of the angle between the way over the side and the way of the water, zero to one.

    Source: tarboton_1997, equations 1 to 5
    """
    rows = levels.size // columns
    row, column, here = cell // columns, cell % columns, levels[cell]
    best, side_cell, corner_cell, best_ratio = 0.0, -1, -1, 0.0
    for k in range(4):
        side_row, side_column = row + SIDE_DOWN[k], column + SIDE_ALONG[k]
        if side_row < 0 or side_row >= rows or side_column < 0 or side_column >= columns:
            continue
        side = side_row * columns + side_column
        open_side = reached[side]
        first = here - levels[side] if open_side else 0.0
        if first > best:
            best, side_cell, corner_cell, best_ratio = first, side, side, 0.0
        if not open_side and not corners:
            continue
        for turn in (-1, 1):
            to_row, to_column = side_row + turn * SIDE_ALONG[k], side_column + turn * SIDE_DOWN[k]
            if to_row < 0 or to_row >= rows or to_column < 0 or to_column >= columns:
                continue
            corner = to_row * columns + to_column
            if not reached[corner]:
                continue
            second = levels[side] - levels[corner] if open_side else np.inf
            if 0.0 < second <= first:
                slope = math.sqrt(first * first + second * second)
                if slope > best:
                    best, side_cell, corner_cell, best_ratio = slope, side, corner, second / first
            elif second > first and (corners or first > 0.0):
                slope = (here - levels[corner]) / math.sqrt(2.0)
                if slope > best:
                    best, side_cell, corner_cell, best_ratio = slope, corner, corner, 1.0
    return best, side_cell, corner_cell, best_ratio


@called_with("float64[::1], boolean[::1], int32[::1], int32[::1], int32[::1], int64, boolean, boolean")
def ways(
    levels: np.ndarray,
    reached: np.ndarray,
    exits: np.ndarray,
    order: np.ndarray,
    receivers: np.ndarray,
    columns: int,
    corners: bool,
    by_angle: bool,
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return for each cell the two neighbours to which its water goes and the share of the second.

    Args:
        levels: Filled levels, shape (n,), float64. [mm]
        reached: Whether an exit can be reached, shape (n,), bool.
        exits: Outlet of the cell or -1, shape (n,), int32.
        order: Cells in the order of the flood.
        receivers: Cell from which the flood came; taken where the surface is level, shape (n,), int32.
        columns: Cells in a row of the grid.
        corners: Whether water passes over a corner between two walls.
        by_angle: Shares by angle as in the paper, else by the tangent, which keeps the mean way true.

    Source: tarboton_1997, shares by angle; derived, shares by tangent
    """
    first = np.full(levels.size, -1, np.int32)
    second = np.full(levels.size, -1, np.int32)
    share = np.zeros(levels.size)
    for cell in order:
        if exits[cell] >= 0:
            continue
        slope, side, corner, ratio = _steepest(levels, reached, cell, columns, corners)
        if slope > 0.0:
            first[cell], second[cell] = side, corner
            share[cell] = math.atan(ratio) * 4.0 / math.pi if by_angle else ratio
        else:
            first[cell] = second[cell] = receivers[cell]
    return first, second, share


@called_with("int32[::1], int32[::1], float64[::1], int32[::1], int32[::1], int64")
def shares_of(
    first: np.ndarray, second: np.ndarray, share: np.ndarray, exits: np.ndarray, order: np.ndarray, outlets: int
) -> np.ndarray:
    """Return the share of each cell's rain that ends at each outlet, shape (outlets, n)."""
    ends = np.zeros((outlets, first.size))
    for cell in order:
        if exits[cell] >= 0:
            ends[exits[cell], cell] = 1.0
        elif first[cell] == second[cell]:
            for k in range(outlets):
                ends[k, cell] = ends[k, first[cell]]
        else:
            for k in range(outlets):
                ends[k, cell] = (1.0 - share[cell]) * ends[k, first[cell]] + share[cell] * ends[k, second[cell]]
    return ends


@called_with("int32[::1], int32[::1], float64[::1], int32[::1]")
def passing(first: np.ndarray, second: np.ndarray, share: np.ndarray, order: np.ndarray) -> np.ndarray:
    """Return how many cells' rain passes through each cell, its own included, shape (n,)."""
    through = np.zeros(first.size)
    for place in range(order.size - 1, -1, -1):
        cell = order[place]
        through[cell] += 1.0
        if first[cell] < 0:
            continue
        through[first[cell]] += (1.0 - share[cell]) * through[cell]
        if share[cell] > 0.0:
            through[second[cell]] += share[cell] * through[cell]
    return through
