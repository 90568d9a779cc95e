"""What is left of a unit when its parts are cut: rectangles that are large enough to keep."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.laying.cutting._types import SawnUnit

_SAME_MM = 1e-3
"""Edges nearer than this are one. [mm]"""

Box = tuple[float, float, float, float]
"""Left, near, right, far. [mm]"""


def left_overs_of(unit: SawnUnit, kerf_mm: float, min_mm: float) -> tuple[Box, ...]:
    """Return what is left of a sawn unit, largest first: the stones without a part once every cut is made.

    Args:
        unit: The unit with its cuts in their order.
        kerf_mm: Width of the saw cut. [mm]
        min_mm: Both sides of what is worth keeping are at least this long. [mm]

    Source: definition, cuts right across followed in their order
    """
    stones: list[Box] = [(0.0, 0.0, unit.length_mm, unit.width_mm)]
    for cut in unit.cuts:
        runs, across = (0, 1) if cut.lengthwise else (1, 0)
        for number, stone in enumerate(stones):
            along = stone[runs] - _SAME_MM <= cut.start_mm and cut.end_mm <= stone[runs + 2] + _SAME_MM
            if along and stone[across] - _SAME_MM <= cut.at_mm <= stone[across + 2] + _SAME_MM:
                stones[number : number + 1] = _cut(stone, across, cut.at_mm, kerf_mm)
                break
    centres = [(part.x_mm + part.along_mm / 2.0, part.y_mm + part.across_mm / 2.0) for part in unit.parts]
    kept = [
        stone
        for stone in stones
        if min(stone[2] - stone[0], stone[3] - stone[1]) >= min_mm
        and not any(stone[0] < x < stone[2] and stone[1] < y < stone[3] for x, y in centres)
    ]
    return tuple(sorted(kept, key=lambda stone: -(stone[2] - stone[0]) * (stone[3] - stone[1])))


def _cut(stone: Box, across: int, at_mm: float, kerf_mm: float) -> list[Box]:
    """Return the two stones that a cut leaves, either side of the blade."""
    before, after = list(stone), list(stone)
    before[across + 2] = min(at_mm, stone[across + 2])
    after[across] = min(at_mm + kerf_mm, stone[across + 2])
    return [(before[0], before[1], before[2], before[3]), (after[0], after[1], after[2], after[3])]
