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
        if keys[above] < key or (keys[above] == key and ranks[above] < rank):
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


@compiled
def _steps(levels: np.ndarray, inside: np.ndarray) -> tuple[float, float, int]:
    """Return the lowest level, steps for a unit of level, and the number of steps: about two cells to a step.

    Cells wait in a list for their step; only those of the step that the flood has reached are in the heap, which so
    stays small.
    """
    low, high = np.inf, -np.inf
    for cell in range(levels.size):
        if inside[cell]:
            low, high = min(low, levels[cell]), max(high, levels[cell])
    wanted = levels.size // 2 + 1
    if not high > low:
        return low, 0.0, 1
    scale = wanted / (high - low)
    if not scale < np.inf:
        return low, 0.0, 1
    return low, scale, int((high - low) * scale) + 1


@compiled
def _wait(first: np.ndarray, after: np.ndarray, step: int, rank: int) -> None:
    """Put a rank into the list of its step."""
    after[rank] = first[step]
    first[step] = rank


@compiled
def _next_step(
    first: np.ndarray,
    after: np.ndarray,
    step: int,
    filled: np.ndarray,
    cell_of: np.ndarray,
    keys: np.ndarray,
    ranks: np.ndarray,
) -> tuple[int, int]:
    """Put all that waits for the next step into the empty heap; return that step and how many there are."""
    while first[step] < 0:
        step += 1
    size = 0
    rank = first[step]
    while rank >= 0:
        _push(keys, ranks, size, filled[cell_of[rank]], rank)
        size += 1
        rank = after[rank]
    first[step] = -1
    return step, size


@called_with("float64[::1], boolean[::1], int32[::1], int64, int64")
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
    Source: barnes_2014, algorithm with a plain queue for cells at or below the flood; those above it wait by steps
    """
    total = levels.size
    filled = np.full(total, np.inf)
    receiver, label = np.full(total, -1, np.int32), np.full(total, -1, np.int32)
    order, pits = np.empty(total, np.int32), np.empty(total, np.int32)
    cell_of, after = np.empty(total, np.int32), np.empty(total, np.int32)
    keys, ranks = np.empty(total, np.float64), np.empty(total, np.int32)
    low, scale, count = _steps(levels, inside)
    first = np.full(count, -1, np.int32)
    rows = total // columns
    beside = DOWN * columns + ALONG
    size = pushed = waiting = head = tail = taken = step = 0
    for cell in range(total):
        if exits[cell] >= 0:
            filled[cell], label[cell], cell_of[pushed] = levels[cell], exits[cell], cell
            _wait(first, after, int((levels[cell] - low) * scale), pushed)
            pushed += 1
            waiting += 1
    while True:
        if head < tail:
            cell = pits[head]
            head += 1
        elif size > 0:
            cell = cell_of[_pop(keys, ranks, size)]
            size -= 1
        elif waiting > 0:
            step, size = _next_step(first, after, step, filled, cell_of, keys, ranks)
            waiting -= size
            continue
        else:
            break
        order[taken] = cell
        taken += 1
        here, whose = filled[cell], label[cell]
        row, column = cell // columns, cell % columns
        at_rim = row == 0 or row == rows - 1 or column == 0 or column == columns - 1
        for k in range(neighbours):
            if at_rim and not (0 <= row + DOWN[k] < rows and 0 <= column + ALONG[k] < columns):
                continue
            near = cell + beside[k]
            if label[near] >= 0 or not inside[near]:
                continue
            label[near], receiver[near] = whose, cell
            if levels[near] <= here:
                filled[near] = here
                pits[tail] = near
                tail += 1
                continue
            filled[near], cell_of[pushed] = levels[near], near
            each = int((levels[near] - low) * scale)
            if each <= step:
                _push(keys, ranks, size, levels[near], pushed)
                size += 1
            else:
                _wait(first, after, each, pushed)
                waiting += 1
            pushed += 1
    return filled, receiver, order[:taken].copy(), label


@called_with("boolean[::1], int64, int64")
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
