"""The order in which a unit is sawn: straight cuts, each right across the piece of stone that it parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.laying.cutting._types import SawCut

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._types import PlacedPart, Stock

_SLACK_MM = 1e-6
Box = tuple[float, float, float, float]
"""x1, y1, x2, y2. [mm]"""


@dataclass(frozen=True, slots=True)
class _Way:
    """A cut that could come next: its axis (0 across the unit, 1 along it), blade, and the stone on both sides.

    Attributes:
        axis: Direction of the cut: 0 across the unit, 1 along it.
        at: Where the blade begins, from the corner of the unit. [mm]
        before: The stone before the blade.
        after: The stone after it.
    """

    axis: int
    at: float
    before: Box
    after: Box


def through_cuts(parts: Sequence[PlacedPart], unit: Stock, kerf_mm: float) -> tuple[SawCut, ...]:
    """Return the cuts of a unit in order.

    What is left over comes off first, in the largest piece, so that it can be used again; then the parts are split by
    the shortest runs.

    Valid for: parts that straight cuts can part.
    Source: definition
    """
    boxes = [(part.x_mm, part.y_mm, part.x_mm + part.along_mm, part.y_mm + part.across_mm) for part in parts]
    cuts: list[SawCut] = []
    waiting: list[tuple[Box, list[Box]]] = [((0.0, 0.0, unit.along_mm, unit.across_mm), boxes)]
    while waiting:
        stone, inside = waiting.pop()
        way = _trimming(stone, inside, kerf_mm) or _parting(stone, inside, kerf_mm)
        if way is None:
            continue
        other = 1 - way.axis
        trim = way.at < stone[way.axis] - _SLACK_MM or way.at + kerf_mm > stone[way.axis + 2] + _SLACK_MM
        cuts.append(SawCut(len(cuts) + 1, way.axis == 1, way.at, stone[other], stone[other + 2], trim))
        for side in (way.after, way.before):
            held = [box for box in inside if _within(box, side)]
            if held:
                waiting.append((side, held))
    return tuple(cuts)


def _within(box: Box, side: Box) -> bool:
    low = box[0] >= side[0] - _SLACK_MM and box[1] >= side[1] - _SLACK_MM
    return low and box[2] <= side[2] + _SLACK_MM and box[3] <= side[3] + _SLACK_MM


def _cut(stone: Box, axis: int, at: float, kerf: float) -> _Way:
    before, after = list(stone), list(stone)
    before[axis + 2], after[axis] = at, at + kerf
    return _Way(axis, at, (before[0], before[1], before[2], before[3]), (after[0], after[1], after[2], after[3]))


def _trimming(stone: Box, inside: Sequence[Box], kerf: float) -> _Way | None:
    """Return the cut that takes the largest piece of waste off, if any side has some."""
    best: tuple[float, _Way] | None = None
    for axis in (0, 1):
        run = stone[3 - axis] - stone[1 - axis]
        low, high = min(box[axis] for box in inside), max(box[axis + 2] for box in inside)
        for waste, at in ((low - stone[axis], low - kerf), (stone[axis + 2] - high, high)):
            if waste > _SLACK_MM and (best is None or waste * run > best[0]):
                best = waste * run, _cut(stone, axis, at, kerf)
    return None if best is None else best[1]


def _parting(stone: Box, inside: Sequence[Box], kerf: float) -> _Way | None:
    """Return the shortest cut that parts the boxes without touching any."""
    for axis in sorted((0, 1), key=lambda each: stone[3 - each] - stone[1 - each]):
        for at in sorted({box[axis + 2] for box in inside}):
            before = sum(box[axis + 2] <= at + _SLACK_MM for box in inside)
            after = sum(box[axis] >= at + kerf - _SLACK_MM for box in inside)
            if after and before + after == len(inside):
                return _cut(stone, axis, at, kerf)
    return None
