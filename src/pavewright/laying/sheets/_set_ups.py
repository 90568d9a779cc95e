"""The cuts of an area by saw set-up: those with one setting of the fence together, in an order that can be sawn."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.laying.sheets._templates import is_skew

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying._types import LaidArea, Piece
    from pavewright.laying.cutting import SawCut, SawnUnit


class SetUpKind(StrEnum):
    """How the stone is led to the blade."""

    FENCE = "fence"
    ANGLE = "angle"
    MARKED = "marked"


@dataclass(frozen=True, slots=True)
class SetUpCut:
    """One cut of a set-up.

    Attributes:
        unit: Number of the unit that is sawn.
        cut: Number of the cut in that unit, as on the saw plan; zero for a sloping cut or one by marks.
        lengthwise: Whether the saw runs along the unit's length.
        pieces: Pieces that the stone against the fence becomes, or those that the cut parts or shapes.
    """

    unit: int
    cut: int
    lengthwise: bool
    pieces: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SawSetUp:
    """Cuts that are made without touching the saw.

    Attributes:
        number: Place in the order of set-ups of the area, from 1.
        kind: Against the fence, at an angle, or by marks and a template.
        fence_mm: From the fence to the nearer face of the blade, to the millimetre; None without a fence. [mm]
        angle_deg: Angle between the cut and the length of the unit; None where none is set. [deg]
        cuts: Its cuts in order.
    """

    number: int
    kind: SetUpKind
    fence_mm: float | None
    angle_deg: float | None
    cuts: tuple[SetUpCut, ...]


@dataclass(frozen=True, slots=True)
class _Led:
    """A straight cut with the setting it takes and the cut that has to be made before it."""

    fence_mm: float
    before: int
    cut: SetUpCut


@dataclass(slots=True)
class _Stone:
    """A piece of stone between cuts.

    Attributes:
        box: Its edges on the unit: left, near, right, far. [mm]
        made_by: The cut that made it; zero for the unit itself.
        pieces: The pieces in it.
    """

    box: tuple[float, float, float, float]
    made_by: int
    pieces: tuple[int, ...]


_SLACK_MM = 1e-3


def saw_set_ups(laid: LaidArea) -> tuple[SawSetUp, ...]:
    """Return the cuts of an area by set-up: square ones against the fence, sloping ones, then those by marks.

    A cut waits only for the one that made its stone. Of the settings whose cuts could be made now the one with most of
    them comes first, the wider one where several have as many.

    Valid for: saw plans of straight cuts, each right across the stone that it parts.
    Source: definition
    """
    found = _against_the_fence(laid)
    found += _sloping(laid, len(found))
    marked = tuple(_by_marks(laid))
    if marked:
        found.append(SawSetUp(len(found) + 1, SetUpKind.MARKED, None, None, marked))
    return tuple(found)


def settings_unit_by_unit(laid: LaidArea) -> int:
    """Return how often the fence would be set if every unit were sawn to its end before the next."""
    row = [led.fence_mm for unit in laid.sawn for led in _led(unit, laid.kerf_mm)]
    return sum(here != there for here, there in zip([None, *row], row, strict=False))


def _against_the_fence(laid: LaidArea) -> list[SawSetUp]:
    waiting = [(unit.number, led) for unit in laid.sawn for led in _led(unit, laid.kerf_mm)]
    made: set[tuple[int, int]] = {(unit.number, 0) for unit in laid.sawn}
    found: list[SawSetUp] = []
    while waiting:
        ready = Counter(led.fence_mm for unit, led in waiting if (unit, led.before) in made)
        fence = max(ready, key=lambda each: (ready[each], each))
        cuts: list[SetUpCut] = []
        for unit, led in waiting:  # a cut follows the one that made its stone, so one run through them takes all
            if led.fence_mm == fence and (unit, led.before) in made:
                made.add((unit, led.cut.cut))
                cuts.append(led.cut)
        waiting = [(unit, led) for unit, led in waiting if (unit, led.cut.cut) not in made]
        found.append(SawSetUp(len(found) + 1, SetUpKind.FENCE, fence, None, tuple(cuts)))
    return found


def _led(unit: SawnUnit, kerf_mm: float) -> list[_Led]:
    """Return the straight cuts of a unit with the setting of the fence for each: what is wanted lies against it."""
    boxes = {part.piece: (part.x_mm, part.y_mm, part.along_mm, part.across_mm) for part in unit.parts}
    for pair in unit.pairs:
        boxes |= dict.fromkeys(pair.pieces, (pair.x_mm, pair.y_mm, pair.along_mm, pair.across_mm))
    stones = [_Stone((0.0, 0.0, unit.length_mm, unit.width_mm), 0, tuple(boxes))]
    found = []
    for cut in unit.cuts:
        axis = 1 if cut.lengthwise else 0
        stone = _cut_stone(stones, cut, axis, kerf_mm)
        low, high = stone.box[axis], stone.box[axis + 2]
        near = tuple(piece for piece in stone.pieces if boxes[piece][axis] < cut.at_mm - _SLACK_MM)
        far = tuple(piece for piece in stone.pieces if piece not in near)
        stones.remove(stone)
        for pieces, side in ((near, (low, cut.at_mm)), (far, (cut.at_mm + kerf_mm, high))):
            box = list(stone.box)
            box[axis], box[axis + 2] = side
            stones.append(_Stone((box[0], box[1], box[2], box[3]), cut.number, pieces))
        fence = cut.at_mm - low if near else high - cut.at_mm - kerf_mm
        led = SetUpCut(unit.number, cut.number, cut.lengthwise, near or far)
        found.append(_Led(float(round(fence)), stone.made_by, led))
    return found


def _cut_stone(stones: list[_Stone], cut: SawCut, axis: int, kerf_mm: float) -> _Stone:
    """Return the piece of stone that a cut goes right across."""

    def off_mm(stone: _Stone) -> float:
        ends = abs(stone.box[1 - axis] - cut.start_mm) + abs(stone.box[3 - axis] - cut.end_mm)
        outside = max(stone.box[axis] - kerf_mm - cut.at_mm, cut.at_mm - stone.box[axis + 2], 0.0)
        return ends + outside

    return min((stone for stone in stones if stone.pieces), key=off_mm)


def _sloping(laid: LaidArea, before: int) -> list[SawSetUp]:
    """Return the sloping cuts between pieces that lie head to tail, those at one angle together."""
    by_angle: dict[float, list[SetUpCut]] = {}
    for unit in laid.sawn:
        for pair in unit.pairs:
            turn = math.degrees(math.atan2(pair.end[1] - pair.start[1], pair.end[0] - pair.start[0])) % 180.0
            by_angle.setdefault(round(turn, 1), []).append(
                SetUpCut(unit.number, 0, lengthwise=False, pieces=pair.pieces)
            )
    return [
        SawSetUp(before + number, SetUpKind.ANGLE, None, angle, tuple(cuts))
        for number, (angle, cuts) in enumerate(sorted(by_angle.items()), start=1)
    ]


def _by_marks(laid: LaidArea) -> Iterator[SetUpCut]:
    """Give the pieces that straight cuts alone do not make: notches, curves and skew sides of their own."""
    paired = {piece for unit in laid.sawn for pair in unit.pairs for piece in pair.pieces}
    home = {part.piece: unit.number for unit in laid.sawn for part in unit.parts}
    for piece in laid.pieces:
        if piece.number in home and _marked(piece, paired=piece.number in paired):
            yield SetUpCut(home[piece.number], 0, lengthwise=False, pieces=(piece.number,))


def _marked(piece: Piece, *, paired: bool) -> bool:
    return piece.notched or piece.curved or (is_skew(piece) and not paired)
