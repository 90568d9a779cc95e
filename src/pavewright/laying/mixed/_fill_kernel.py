"""Kernel: fills the cells of a bay with units, row by row, and goes back where a rule stands in the way.

The first free cell takes a unit drawn by lot: a size of which much is left is likelier. Where none may lie there, the
unit before is taken up again, now and then several at once; a cell that is a dead end time and again has all that lies
near it taken up. Nothing but whole numbers and plain fractions is used, so
that the same seed gives the same layout everywhere.
"""

from __future__ import annotations

import numpy as np

from pavewright.compiled import called_with, compiled

OUTSIDE = -2
FREE = -1
FILLED, TRIED_ALL, OUT_OF_STEPS = 1, 2, 3
_JUMP_PART = 0.02
_JUMP_UNITS = 12
_PATIENCE = 3_000
_NEAR_ROWS, _NEAR_COLUMNS = 3, 4


@compiled
def _drawn(state: np.ndarray) -> float:
    """Return a number from zero to one.

    Source: definition, multiplier 48271 over the prime 2^31 - 1
    """
    state[0] = state[0] * 48271 % 2147483647
    return float(state[0] / 2147483647.0)


@compiled
def _parted(owner: np.ndarray, upright: bool, line: int, at: int) -> bool:
    """Return whether a joint runs on one side of a cell: two units there, and not the same one."""
    if upright:
        one, other = owner[at, line - 1], owner[at, line]
    else:
        one, other = owner[line - 1, at], owner[line, at]
    return bool(one >= 0 and other >= 0 and one != other)


@compiled
def _joint_is_short(owner: np.ndarray, upright: bool, line: int, first: int, last: int, most: int) -> bool:
    """Return whether no straight joint along one side of a unit is longer than it may be."""
    at = first
    if _parted(owner, upright, line, at):
        while _parted(owner, upright, line, at - 1):
            at -= 1
    run = 0
    while True:
        if _parted(owner, upright, line, at):
            run += 1
            if run > most:
                return False
        elif at >= last - 1:
            return True
        else:
            run = 0
        at += 1


@compiled
def _four_meet(owner: np.ndarray, row: int, column: int) -> bool:
    """Return whether four units meet at the corner before a cell."""
    a, b = owner[row - 1, column - 1], owner[row - 1, column]
    c, d = owner[row, column - 1], owner[row, column]
    laid = a >= 0 and b >= 0 and c >= 0 and d >= 0
    return bool(laid and a != b and a != c and b != d and c != d)


@compiled
def _touches_smallest(owner: np.ndarray, units: np.ndarray, unit: np.ndarray, smallest: np.ndarray) -> bool:
    """Return whether a unit touches one of the smallest, corners too."""
    row, column, deep, wide = unit[0], unit[1], unit[3], unit[4]
    for y in range(row - 1, row + deep + 1):
        for x in range(column - 1, column + wide + 1):
            within = row <= y < row + deep and column <= x < column + wide
            if not within and owner[y, x] >= 0 and smallest[units[owner[y, x], 2]]:
                return True
    return False


@compiled
def _same(units: np.ndarray, other: int, unit: np.ndarray) -> bool:
    if other < 0:
        return False
    return bool(units[other, 2] == unit[2] and units[other, 3] == unit[3] and units[other, 4] == unit[4])


@compiled
def _beside_its_twin(owner: np.ndarray, units: np.ndarray, unit: np.ndarray) -> bool:
    """Return whether an oblong unit lies with its long side matched against one of the same size."""
    row, column, deep, wide = unit[0], unit[1], unit[3], unit[4]
    if deep == wide:
        return False
    if wide > deep:
        above, below = owner[row - 1, column], owner[row + deep, column]
        return (_same(units, above, unit) and units[above, 1] == column) or (
            _same(units, below, unit) and units[below, 1] == column
        )
    left, right = owner[row, column - 1], owner[row, column + wide]
    return (_same(units, left, unit) and units[left, 0] == row) or (
        _same(units, right, unit) and units[right, 0] == row
    )


@compiled
def _holds(owner: np.ndarray, units: np.ndarray, unit: np.ndarray, smallest: np.ndarray, rules: np.ndarray) -> bool:
    """Return whether a unit that was just put down keeps to the rules: longest joint, four-way, smallest, oblongs."""
    row, column, deep, wide = unit[0], unit[1], unit[3], unit[4]
    end_row, end_column = row + deep, column + wide
    if rules[1] and (
        _four_meet(owner, row, column)
        or _four_meet(owner, row, end_column)
        or _four_meet(owner, end_row, column)
        or _four_meet(owner, end_row, end_column)
    ):
        return False
    if rules[2] and smallest[unit[2]] and _touches_smallest(owner, units, unit, smallest):
        return False
    if rules[3] and _beside_its_twin(owner, units, unit):
        return False
    return rules[0] == 0 or (
        _joint_is_short(owner, False, row, column, end_column, rules[0])
        and _joint_is_short(owner, False, end_row, column, end_column, rules[0])
        and _joint_is_short(owner, True, column, row, end_row, rules[0])
        and _joint_is_short(owner, True, end_column, row, end_row, rules[0])
    )


@compiled
def _fits(owner: np.ndarray, row: int, column: int, deep: int, wide: int) -> bool:
    """Return whether all cells of a unit are free."""
    if row + deep > owner.shape[0] - 1 or column + wide > owner.shape[1] - 1:
        return False
    for y in range(row, row + deep):
        for x in range(column, column + wide):
            if owner[y, x] != FREE:
                return False
    return True


@compiled
def _mark(
    owner: np.ndarray, unit: np.ndarray, number: int, left: np.ndarray, room: np.ndarray, band: int, by: int
) -> None:
    """Put a unit down (by = -1: one less in the yard and in its bands) or take it up again (by = 1)."""
    row, column, size = unit[0], unit[1], unit[2]
    owner[row : row + unit[3], column : column + unit[4]] = number
    left[size] += by
    room[0, (row - 1) // band, size] += by
    room[1, (column - 1) // band, size] += by


@compiled
def _choice(
    owner: np.ndarray,
    at: int,
    ways: np.ndarray,
    tried: np.ndarray,
    left: np.ndarray,
    had: np.ndarray,
    room: np.ndarray,
    band: int,
    state: np.ndarray,
) -> int:
    """Return which way to lay the unit at a cell, drawn by lot from those not tried; -1 where there is none."""
    columns = owner.shape[1]
    row, column = at // columns, at % columns
    weights = np.zeros(ways.shape[0])
    for way in range(ways.shape[0]):
        size = ways[way, 0]
        if tried[way] or left[size] <= 0:
            continue
        if room[0, (row - 1) // band, size] <= 0 or room[1, (column - 1) // band, size] <= 0:
            continue
        if _fits(owner, row, column, ways[way, 1], ways[way, 2]):
            part = left[size] / had[size]
            weights[way] = part * part * part * had[size]
            if ways[way, 1] != ways[way, 2]:
                weights[way] /= 2.0
    mark = _drawn(state) * weights.sum()
    last = -1
    for way in range(ways.shape[0]):
        if weights[way] > 0.0:
            last = way
            mark -= weights[way]
            if mark < 0.0:
                break
    return last


@compiled
def _next_free(owner: np.ndarray, at: int) -> int:
    """Return the first free cell from one on, counted row by row; the number of cells where there is none."""
    columns = owner.shape[1]
    while at < owner.size and owner[at // columns, at % columns] != FREE:
        at += 1
    return at


@compiled
def _first_near(units: np.ndarray, down: int, count: int, row: int, column: int) -> int:
    """Return the first unit put down that lies near a cell, so that it can be laid otherwise."""
    for number in range(down, count):
        unit = units[number]
        if unit[0] + unit[3] > row - _NEAR_ROWS and (
            unit[1] - _NEAR_COLUMNS <= column < unit[1] + unit[4] + _NEAR_COLUMNS
        ):
            return number
    return count - 1


@called_with(
    "int64[:, ::1], int64[:, ::1], int64, int64[:, ::1], int64[::1], int64[:, :, ::1], boolean[::1]",
    "int64[::1], int64, int64, boolean",
)
def fill(
    owner: np.ndarray,
    units: np.ndarray,
    down: int,
    ways: np.ndarray,
    left: np.ndarray,
    room: np.ndarray,
    smallest: np.ndarray,
    rules: np.ndarray,
    seed: int,
    max_steps: int,
    jumps: bool,
) -> tuple[int, int, int]:
    """Fill the free cells of a bay; owner, units, left and room change.

    Args:
        owner: Number of the unit on each cell, FREE or OUTSIDE, one cell of OUTSIDE all round; int64.
        units: Row, column, size, rows taken and columns taken of each unit, those down before first; int64 (n, 5).
        down: Number of units down before.
        ways: Size, rows and columns of each way to lay a unit; int64 (w, 3).
        left: Units of each size in the yard; int64.
        room: Units of each size that each band of rows and of columns may still take; int64 (2, bands, sizes).
        smallest: Whether a size is the smallest; bool.
        rules: Longest joint in cells or 0; then whether four-way, smallest and oblong rules hold;
            then the cells that a band is wide; int64 (5,).
        seed: From 1 to 2147483646.
        max_steps: Units put down before the search is given up.
        jumps: Whether several units may be taken up at once; every way is only tried where they may not.

    Returns:
        How it ended, the number of units, the steps taken.
    """
    state = np.array([seed], dtype=np.int64)
    had = left.copy()
    band = rules[4]
    tried = np.zeros((units.shape[0] + 1, ways.shape[0]), dtype=np.bool_)
    at = np.zeros(units.shape[0] + 1, dtype=np.int64)
    dead = np.zeros(owner.size, dtype=np.int64)
    patience = np.full(owner.size, _PATIENCE, dtype=np.int64)
    columns = owner.shape[1]
    count, steps = down, 0
    at[count] = _next_free(owner, 0)
    while at[count] < owner.size:
        way = _choice(owner, at[count], ways, tried[count], left, had, room, band, state)
        if way < 0:
            if count == down:
                if not jumps or steps >= max_steps or not tried[count].any():
                    return TRIED_ALL, count, steps
                tried[count, :] = False
                steps += 1
                continue
            dead[at[count]] += 1
            back = 1
            if jumps and dead[at[count]] > patience[at[count]]:
                dead[at[count]] = 0
                patience[at[count]] *= 2
                back = count - _first_near(units, down, count, at[count] // columns, at[count] % columns)
            elif jumps and _drawn(state) < _JUMP_PART:
                back += int(_drawn(state) * _JUMP_UNITS)
            for _ in range(min(back, count - down)):
                count -= 1
                _mark(owner, units[count], FREE, left, room, band, 1)
            continue
        if steps >= max_steps:
            return OUT_OF_STEPS, count, steps
        steps += 1
        tried[count, way] = True
        unit = units[count]
        unit[0], unit[1] = at[count] // columns, at[count] % columns
        unit[2], unit[3], unit[4] = ways[way, 0], ways[way, 1], ways[way, 2]
        _mark(owner, unit, count, left, room, band, -1)
        if not _holds(owner, units, unit, smallest, rules):
            _mark(owner, unit, FREE, left, room, band, 1)
            continue
        count += 1
        tried[count, :] = False
        at[count] = _next_free(owner, at[count - 1])
    return FILLED, count, steps
