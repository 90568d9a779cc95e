"""Kernel: flooding a grid from its exits, lowest first."""

from __future__ import annotations

import numpy as np

from pavewright.compiled import called_with, compiled

DOWN = np.array([-1, 0, 0, 1, -1, -1, 1, 1])
"""Rows to each neighbour: the four over sides first, then the four over corners."""
ALONG = np.array([0, -1, 1, 0, -1, 1, -1, 1])
"""Columns to each neighbour."""


@compiled
def _push(keys: np.ndarray, ranks: np.ndarray, size: int, key: float, rank: int) -> None:
    """Put a key into a heap of so many; of equal keys the one that came first leaves first."""
    place = size
    while place > 0:
        above = (place - 1) >> 1
        if keys[above] <= key:  # an earlier one of the same key has the lower rank
            break
        keys[place] = keys[above]
        ranks[place] = ranks[above]
        place = above
    keys[place] = key
    ranks[place] = rank


@compiled
def _pop(keys: np.ndarray, ranks: np.ndarray, size: int) -> int:
    """Take the lowest out of a heap of so many and return its rank."""
    lowest = ranks[0]
    last = size - 1
    key, rank = keys[last], ranks[last]
    place = 0
    below = 1
    while below < last:
        right = below + 1
        if right < last and (keys[right] < keys[below] or (keys[right] == keys[below] and ranks[right] < ranks[below])):
            below = right
        if keys[below] > key or (keys[below] == key and ranks[below] > rank):
            break
        keys[place] = keys[below]
        ranks[place] = ranks[below]
        place = below
        below = 2 * place + 1
    keys[place] = key
    ranks[place] = rank
    return int(lowest)


@called_with("float64[::1]", "boolean[::1]", "int32[::1]", "int64", "int64")
def flood(
    levels: np.ndarray, inside: np.ndarray, exits: np.ndarray, columns: int, neighbours: int
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return filled levels, receivers, order of flooding and outlet of each cell of a grid laid out in one row.

    Args:
        levels: Level of each cell, shape (n,), float64. [mm]
        inside: Whether the cell is paving, shape (n,), bool.
        exits: Outlet of the cell or -1, shape (n,), int32.
        columns: Cells in a row of the grid.
        neighbours: 8, or 4 for sides only.

    Valid for: every exit is inside; levels inside are finite.
    Source: barnes_2014, algorithm with a plain queue for cells at or below the flood
    """
    total = levels.size
    filled = np.full(total, np.inf)
    receiver = np.full(total, -1, np.int32)
    label = np.full(total, -1, np.int32)
    order = np.empty(total, np.int32)
    keys = np.empty(total, np.float64)
    ranks = np.empty(total, np.int32)
    cell_of = np.empty(total, np.int32)
    pits = np.empty(total, np.int32)
    rows = total // columns
    size = pushed = head = tail = taken = 0
    for cell in range(total):
        if exits[cell] >= 0:
            filled[cell] = levels[cell]
            label[cell] = exits[cell]
            cell_of[pushed] = cell
            _push(keys, ranks, size, levels[cell], pushed)
            pushed += 1
            size += 1
    while head < tail or size > 0:
        if head < tail:
            cell = pits[head]
            head += 1
        else:
            cell = cell_of[_pop(keys, ranks, size)]
            size -= 1
        order[taken] = cell
        taken += 1
        row, column, here = cell // columns, cell % columns, filled[cell]
        for k in range(neighbours):
            to_row, to_column = row + DOWN[k], column + ALONG[k]
            if to_row < 0 or to_row >= rows or to_column < 0 or to_column >= columns:
                continue
            near = to_row * columns + to_column
            if label[near] >= 0 or not inside[near]:
                continue
            label[near] = label[cell]
            receiver[near] = cell
            if levels[near] <= here:
                filled[near] = here
                pits[tail] = near
                tail += 1
            else:
                filled[near] = levels[near]
                cell_of[pushed] = near
                _push(keys, ranks, size, levels[near], pushed)
                pushed += 1
                size += 1
    return filled, receiver, order[:taken].copy(), label


@called_with("boolean[::1]", "int64", "int64")
def connected(wet: np.ndarray, columns: int, neighbours: int) -> tuple[np.ndarray, int]:
    """Return for each cell the number of the connected patch that it belongs to, or -1, and how many there are.

    Args:
        wet: Whether a cell belongs to any, shape (n,), bool.
        columns: Cells in a row of the grid.
        neighbours: 8, or 4 for sides only.
    """
    total = wet.size
    rows = total // columns
    patch = np.full(total, -1, np.int32)
    waiting = np.empty(total, np.int32)
    count = 0
    for start in range(total):
        if not wet[start] or patch[start] >= 0:
            continue
        patch[start] = count
        waiting[0] = start
        size = 1
        while size > 0:
            size -= 1
            cell = waiting[size]
            row, column = cell // columns, cell % columns
            for k in range(neighbours):
                to_row, to_column = row + DOWN[k], column + ALONG[k]
                if to_row < 0 or to_row >= rows or to_column < 0 or to_column >= columns:
                    continue
                near = to_row * columns + to_column
                if wet[near] and patch[near] < 0:
                    patch[near] = count
                    waiting[size] = near
                    size += 1
        count += 1
    return patch, count
