"""From millimetres to the steps of the saw's grid and back, the saw cut added to parts and units."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.cutting._cut_order import through_cuts
from pavewright.laying.cutting._types import FAR, LEFT, NEAR, RIGHT, Part, PlacedPart, SawnUnit, Stock

if TYPE_CHECKING:
    from collections.abc import Sequence

STEPS_PER_MM = 10_000
"""Steps of the grid in a millimetre: units and saw cuts in sixteenths of an inch are whole steps."""
_TENTH = 1_000
"""Steps in a tenth of a millimetre, to which parts are rounded down: less than that no saw can tell."""
_NOISE = 0.1
"""Part of a step that is rounding of the arithmetic."""
_NOISE_OF_TENTH = 0.01
"""Part of a tenth of a millimetre that is rounding of the arithmetic."""


class PartTooLargeError(ValueError):
    """A part cannot be cut from any unit as its rules are; the message names the piece."""


@dataclass(frozen=True, slots=True)
class SawTask:
    """Parts and units in steps, grown by the saw cut, equal parts of one kind beside each other.

    Attributes:
        parts: The parts in the order of the rows.
        rows: Width, height, allowed turns, factory sides, kind; shape (n, 5), int64.
        stock: Width, height, cost; shape (m, 3), int64.
        sizes: The sizes of unit.
        kerf: Saw cut in steps.
    """

    parts: tuple[Part, ...]
    rows: np.ndarray
    stock: np.ndarray
    sizes: tuple[Stock, ...]
    kerf: int

    @property
    def kinds(self) -> int:
        """Number of kinds of part."""
        return int(self.rows[-1, 4]) + 1


def task_of(parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool) -> SawTask:
    """Return parts and units in steps of the grid.

    Raises:
        PartTooLargeError: a part fits no unit, or not with its factory sides.
    """
    kerf = math.ceil(kerf_mm * STEPS_PER_MM - _NOISE)
    stock = [
        (
            math.floor(size.along_mm * STEPS_PER_MM + _NOISE) + kerf,
            math.floor(size.across_mm * STEPS_PER_MM + _NOISE) + kerf,
            size.cost,
        )
        for size in sizes
    ]
    named = []
    for part in parts:
        wide, high = (_part_steps(size, stock, kerf) + kerf for size in (part.along_mm, part.across_mm))
        turns = allowed_turns(wide, high, part.factory_sides, stock, may_turn=may_turn)
        if turns == 0:
            message = (
                f"Piece {part.piece} cannot be cut from any unit with the factory edges and turns that are asked for."
            )
            raise PartTooLargeError(message)
        named.append(((wide, high, turns, part.factory_sides), part))
    named.sort(key=lambda each: (*each[0], each[1].piece))
    rows, kind = [], -1
    for number, (row, _) in enumerate(named):
        kind += number == 0 or row != named[number - 1][0]
        rows.append((*row, kind))
    return SawTask(
        tuple(part for _, part in named),
        np.array(rows, dtype=np.int64).reshape(-1, 5),
        np.array(stock, dtype=np.int64).reshape(-1, 3),
        tuple(sizes),
        kerf,
    )


def _part_steps(size_mm: float, stock: Sequence[tuple[int, int, int]], kerf: int) -> int:
    """Return a size of a part in steps: rounded down to a tenth of a millimetre, or the side of a unit as near as that.

    Args:
        size_mm: Size as laid. [mm]
        stock: Length, width, cost of the units, the saw cut added. [step]
        kerf: Saw cut. [step]
    """
    steps = size_mm * STEPS_PER_MM
    for side in (side - kerf for unit in stock for side in unit[:2]):
        if abs(steps - side) < _TENTH / 2:
            return side
    return math.floor(steps / _TENTH + _NOISE_OF_TENTH) * _TENTH


def allowed_turns(wide: int, high: int, mask: int, stock: Sequence[tuple[int, int, int]], *, may_turn: bool) -> int:
    """Return the quarter turns in which a part can be cut from some unit, as 4 bits, without those that change nothing.

    Two factory edges opposite each other need the unit's full size between them.
    """
    turns: tuple[int, ...] = (0, 2) if mask else (0,)
    if may_turn and (mask or wide != high):
        turns = (*turns, 1, 3) if mask else (0, 1)
    allowed = 0
    for turn in turns:
        size = (wide, high) if turn % 2 == 0 else (high, wide)
        through = (mask & RIGHT and mask & LEFT, mask & FAR and mask & NEAR)
        full = through if turn % 2 == 0 else through[::-1]
        for unit in stock:
            if all(size[axis] == unit[axis] if full[axis] else size[axis] <= unit[axis] for axis in (0, 1)):
                allowed |= 1 << turn
    return allowed


def units_of(task: SawTask, plan: np.ndarray, slabs: np.ndarray) -> tuple[SawnUnit, ...]:
    """Return a plan in millimetres, units in the order of their lowest piece.

    Args:
        task: What is to be cut.
        plan: Slab, x, y, quarter turns of each part, shape (n, 4), int64. [step]
        slabs: Size of each slab, shape (slabs,), int64.
    """
    on: dict[int, list[PlacedPart]] = {}
    for number, (slab, x, y, turn) in enumerate(plan.tolist()):
        wide, high = (int(side) - task.kerf for side in task.rows[number, :2])
        along, across = (wide, high) if turn % 2 == 0 else (high, wide)
        left_mm, near_mm, along_mm, across_mm = (each / STEPS_PER_MM for each in (x, y, along, across))
        placed = PlacedPart(task.parts[number].piece, left_mm, near_mm, along_mm, across_mm, turn)
        on.setdefault(slab, []).append(placed)
    in_turn = sorted(on, key=lambda slab: min(part.piece for part in on[slab]))
    found = []
    for number, slab in enumerate(in_turn, start=1):
        size = task.sizes[int(slabs[slab])]
        on_it = tuple(sorted(on[slab], key=lambda part: (part.y_mm, part.x_mm)))
        cuts = through_cuts(on_it, size, task.kerf / STEPS_PER_MM)
        found.append(SawnUnit(number, size.along_mm, size.across_mm, on_it, cuts))
    return tuple(found)
