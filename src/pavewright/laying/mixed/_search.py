"""The search for one bay: arrays for the kernel, a fixed number of tries with fixed steps."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

import numpy as np

from pavewright.laying.mixed._check import band_max
from pavewright.laying.mixed._types import MixedUnit

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.laying.mixed._types import MixRules, Pack

_STEPS = 1_000_000
_SHORT_STEPS = 20_000
_PROOF_STEPS = 1_000_000
_PRIME = 2_147_483_647
_NO_LIMIT = 1 << 40
_FREE, _OUTSIDE = -1, -2
_ANY_BAND = 8
_FILLED, _TRIED_ALL = 1, 2


@dataclass(frozen=True)
class Task:
    """What is to be filled, and with what.

    Attributes:
        bay: The bay, shape (rows, columns), bool.
        part: Cells of it that are to be covered, those of units that are down left out; the same shape.
        pack: Sizes of the units.
        rules: Rules to keep to.
        down: Units that are down.
        yard: Units of each size that may be taken.
        had: Units of each size for the bay, those down among them.
        mix: Number of the mix.
    """

    bay: np.ndarray
    part: np.ndarray
    pack: Pack
    rules: MixRules
    down: tuple[MixedUnit, ...]
    yard: tuple[int, ...]
    had: tuple[int, ...]
    mix: int


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found.

    Attributes:
        placed: Units put down by it; none where there is no layout.
        proved: Whether every way was tried.
        steps: Steps taken.
    """

    placed: tuple[MixedUnit, ...] | None
    proved: bool
    steps: int


def search(task: Task, tries: int) -> Found:
    """Return units that fill a task, from the first of several tries that does.

    A short try goes through the ways in turn: it settles small bays for good.
    """
    steps = 0
    for number in range(tries + 1):
        seed = 1 + (task.mix * 7_919 + number * 104_729 + 48_271) % (_PRIME - 1)
        short = number == 0
        ended, units, more = _filled(task, seed, _SHORT_STEPS if short else _STEPS, jumps=not short)
        steps += more
        if units is not None or (short and ended == _TRIED_ALL):
            return Found(units, units is None, steps)
    return Found(None, proved=False, steps=steps)


def every_way(task: Task) -> Found:
    """Return the same with every way tried in turn, as far as the steps go."""
    ended, units, steps = _filled(task, 1, _PROOF_STEPS, jumps=False)
    return Found(units, ended == _TRIED_ALL, steps)


def _filled(task: Task, seed: int, max_steps: int, *, jumps: bool) -> tuple[int, tuple[MixedUnit, ...] | None, int]:
    """Return how one try ended, its units and its steps; rows run across the shorter side of the part."""
    turned = int(task.part.any(axis=0).sum()) > int(task.part.any(axis=1).sum())
    down = tuple(_turned(unit) for unit in task.down) if turned else task.down
    room = _room(task)
    part = task.part.T if turned else task.part
    owner = np.full((part.shape[0] + 2, part.shape[1] + 2), _OUTSIDE, dtype=np.int64)
    owner[1:-1, 1:-1][part] = _FREE
    units = np.zeros((len(down) + int(part.sum()) + 1, 5), dtype=np.int64)
    for number, unit in enumerate(down):
        units[number] = (unit.row + 1, unit.column + 1, unit.size, unit.deep_cells, unit.wide_cells)
        row, column = unit.row + 1, unit.column + 1
        owner[row : row + unit.deep_cells, column : column + unit.wide_cells] = number
    rules = task.rules
    ended, count, steps = _kernel()(
        owner,
        units,
        len(down),
        _ways(task.pack),
        np.array(task.yard, dtype=np.int64),
        np.ascontiguousarray(room[::-1]) if turned else room,
        _smallest(task.pack),
        np.array(
            (
                rules.longest_joint_cells,
                rules.no_four_way,
                rules.smallest_apart,
                rules.oblongs_apart,
                _band_cells(task),
            ),
            dtype=np.int64,
        ),
        seed,
        max_steps,
        jumps,
    )
    if ended != _FILLED:
        return ended, None, steps
    rows = units[len(down) : count].tolist()
    placed = [MixedUnit(row - 1, column - 1, size, deep, wide) for row, column, size, deep, wide in rows]
    return ended, tuple(_turned(unit) for unit in placed) if turned else tuple(placed), steps


def _turned(unit: MixedUnit) -> MixedUnit:
    return MixedUnit(unit.column, unit.row, unit.size, unit.wide_cells, unit.deep_cells)


def _ways(pack: Pack) -> np.ndarray:
    ways = []
    for number, size in enumerate(pack.sizes):
        ways.append((number, size.width_cells, size.length_cells))
        if size.width_cells != size.length_cells:
            ways.append((number, size.length_cells, size.width_cells))
    return np.array(ways, dtype=np.int64)


def _smallest(pack: Pack) -> np.ndarray:
    least = min(size.cells for size in pack.sizes)
    return np.array([size.cells == least for size in pack.sizes])


def _room(task: Task) -> np.ndarray:
    """Return how many units of each size each band of rows and of columns may still take, shape (2, bands, sizes)."""
    spread, band_of = task.rules.even_spread, _band_cells(task)
    bands = -(-max(task.bay.shape) // band_of)
    room = np.full((2, bands, len(task.pack.sizes)), _NO_LIMIT, dtype=np.int64)
    if spread is None:
        return room
    total = sum(count * size.cells for count, size in zip(task.had, task.pack.sizes, strict=True))
    for axis in (0, 1):
        used = Counter(((unit.row, unit.column)[axis] // band_of, unit.size) for unit in task.down)
        cells = task.bay.sum(axis=1 - axis)
        for band in range(bands):
            band_cells = int(cells[band * band_of : (band + 1) * band_of].sum())
            for size, count in enumerate(task.had):
                room[axis, band, size] = band_max(count, band_cells / total, spread) - used[band, size]
    return room


def _band_cells(task: Task) -> int:
    return _ANY_BAND if task.rules.even_spread is None else task.rules.even_spread.band_cells


@cache
def _kernel() -> Callable[..., Any]:
    """Return the kernel, fetched when first wanted: the compiler takes longer to load than a plan."""
    found: Callable[..., Any] = import_module("pavewright.laying.mixed._fill_kernel").fill
    return found
