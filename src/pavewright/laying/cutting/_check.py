"""A check of saw plans that shares nothing with what makes them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.laying.cutting._types import PlacedPart

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.laying.cutting._types import PairedPieces, Part, SawnUnit, Stock

_SLACK_MM = 1e-3
"""Rounding of the arithmetic. [mm]"""
_TENTH_MM = 0.1
"""A part may be as much shorter than it is laid: no saw can tell. [mm]"""
_SIDES = 4


def check_saw_plan(
    sawn: Sequence[SawnUnit], parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool
) -> tuple[str, ...]:
    """Return what is wrong with a saw plan, each as a sentence; empty when it can be sawn.

    Every part is cut once, in its size, inside a unit of a size that there is; neighbours keep a saw cut between them;
    turns and factory edges are kept; straight cuts right across part all of them, and the cuts listed do so in their
    order.

    Source: definition
    """
    faults: list[str] = []
    wanted = {part.piece: part for part in parts}
    seen = [placed.piece for unit in sawn for placed in unit.parts]
    if sorted(seen) != sorted(part.piece for part in parts):
        faults.append("Not every piece is cut exactly once.")
    for unit in sawn:
        if not any(size.along_mm == unit.length_mm and size.across_mm == unit.width_mm for size in sizes):
            faults.append(f"Unit {unit.number} is of no size that there is.")
        for placed in unit.parts:
            if placed.piece in wanted:
                faults.extend(_part_faults(placed, wanted[placed.piece], unit, may_turn=may_turn))
        boxes = _boxes(unit)
        faults.extend(
            f"Pieces {one.piece} and {other.piece} leave no saw cut between them."
            for number, one in enumerate(boxes)
            for other in boxes[number + 1 :]
            if not _apart(one, other, kerf_mm)
        )
        if not _can_be_sawn(boxes, kerf_mm):
            faults.append(f"Straight cuts do not part the pieces of unit {unit.number}.")
        faults.extend(_cut_faults(unit, boxes, kerf_mm))
        for pair in unit.pairs:
            faults.extend(_pair_faults(pair, unit, wanted, kerf_mm))
    return tuple(faults)


def _boxes(unit: SawnUnit) -> list[PlacedPart]:
    """Return what square cuts have to part: pieces by themselves, and pairs as one box each."""
    joined = {piece for pair in unit.pairs for piece in pair.pieces}
    return [
        *(part for part in unit.parts if part.piece not in joined),
        *(PlacedPart(pair.pieces[0], pair.x_mm, pair.y_mm, pair.along_mm, pair.across_mm, 0) for pair in unit.pairs),
    ]


def _pair_faults(pair: PairedPieces, unit: SawnUnit, wanted: Mapping[int, Part], kerf_mm: float) -> list[str]:
    """Check that two pieces lie in their box, on either side of a cut that runs right across it."""
    (x1, y1), (x2, y2) = pair.start, pair.end
    length = math.hypot(x2 - x1, y2 - y1)
    placed = [next((part for part in unit.parts if part.piece == piece), None) for piece in pair.pieces]
    named = f"Pieces {pair.pieces[0]} and {pair.pieces[1]} of unit {unit.number}"
    if length <= _SLACK_MM or any(part is None or part.piece not in wanted for part in placed):
        return [f"{named} are no pair."]
    right, far = pair.x_mm + pair.along_mm, pair.y_mm + pair.across_mm
    faults = []
    for x, y in (pair.start, pair.end):
        if min(abs(x - pair.x_mm), abs(x - right), abs(y - pair.y_mm), abs(y - far)) > _TENTH_MM + _SLACK_MM:
            faults.append(f"{named}: the sloping cut does not run right across their box.")
    offs = []
    for part in placed:
        if part is None:
            continue
        outline = _lying(wanted[part.piece], part)
        if any(min(x - pair.x_mm, right - x, y - pair.y_mm, far - y) < -_TENTH_MM - _SLACK_MM for x, y in outline):
            faults.append(f"{named} reach out of their box.")
        offs.append([((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / length for x, y in outline])
    side = 1.0 if sum(offs[1]) > 0.0 else -1.0
    clear = min(side * off for off in offs[1]) - max(side * off for off in offs[0])
    if clear < kerf_mm - _SLACK_MM or max(side * off for off in offs[0]) > _SLACK_MM:
        faults.append(f"{named} leave no saw cut between them.")
    return faults


def _lying(part: Part, placed: PlacedPart) -> list[tuple[float, float]]:
    """Return the outline of a piece as it lies on its unit."""
    found = []
    for x, y in part.outline or (
        (0.0, 0.0),
        (part.along_mm, 0.0),
        (part.along_mm, part.across_mm),
        (0.0, part.across_mm),
    ):
        ways = (
            (x, y),
            (part.across_mm - y, x),
            (part.along_mm - x, part.across_mm - y),
            (y, part.along_mm - x),
        )
        found.append((placed.x_mm + ways[placed.quarter_turns][0], placed.y_mm + ways[placed.quarter_turns][1]))
    return found


def _part_faults(placed: PlacedPart, part: Part, unit: SawnUnit, *, may_turn: bool) -> list[str]:
    faults = []
    turns = placed.quarter_turns
    if turns not in range(_SIDES) or (turns % 2 == 1 and not may_turn):
        faults.append(f"Piece {placed.piece} is turned as it may not be.")
    wide, high = (part.along_mm, part.across_mm) if turns % 2 == 0 else (part.across_mm, part.along_mm)
    faults.extend(
        f"Piece {placed.piece} is cut to the wrong size."
        for due, size in ((wide, placed.along_mm), (high, placed.across_mm))
        if not -_TENTH_MM - _SLACK_MM <= size - due <= _TENTH_MM / 2.0 + _SLACK_MM
    )
    gaps = (
        unit.length_mm - placed.x_mm - placed.along_mm,
        unit.width_mm - placed.y_mm - placed.across_mm,
        placed.x_mm,
        placed.y_mm,
    )
    if min(gaps) < -_TENTH_MM - _SLACK_MM:
        faults.append(f"Piece {placed.piece} reaches over the edge of unit {unit.number}.")
    faults.extend(
        f"Piece {placed.piece} loses a factory edge."
        for side in range(_SIDES)
        if part.factory_sides >> side & 1 and abs(gaps[(side + turns) % _SIDES]) > _SLACK_MM
    )
    return faults


def _apart(one: PlacedPart, other: PlacedPart, kerf_mm: float) -> bool:
    room = max(
        other.x_mm - one.x_mm - one.along_mm,
        one.x_mm - other.x_mm - other.along_mm,
        other.y_mm - one.y_mm - one.across_mm,
        one.y_mm - other.y_mm - other.across_mm,
    )
    return room >= kerf_mm - _SLACK_MM


def _can_be_sawn(parts: Sequence[PlacedPart], kerf_mm: float) -> bool:
    """Return whether straight cuts from edge to edge, a saw wide, part all pieces: tried at the edge of every piece."""
    if len(parts) <= 1:
        return True
    for along in (True, False):
        spans = [
            (each.x_mm, each.x_mm + each.along_mm) if along else (each.y_mm, each.y_mm + each.across_mm)
            for each in parts
        ]
        for _, edge in spans:
            before = [each for each, span in zip(parts, spans, strict=True) if span[1] <= edge + _SLACK_MM]
            after = [each for each, span in zip(parts, spans, strict=True) if span[0] >= edge + kerf_mm - _SLACK_MM]
            if after and len(before) + len(after) == len(parts):
                return _can_be_sawn(before, kerf_mm) and _can_be_sawn(after, kerf_mm)
    return False


def _cut_faults(unit: SawnUnit, boxes: Sequence[PlacedPart], kerf_mm: float) -> list[str]:
    """Saw a unit by its list: each cut goes right across one stone, and at the end every piece lies there by itself."""
    stones = [(0.0, 0.0, unit.length_mm, unit.width_mm)]
    for number, cut in enumerate(unit.cuts, start=1):
        axis = 1 if cut.lengthwise else 0
        struck = [
            stone
            for stone in stones
            if abs(stone[1 - axis] - cut.start_mm) <= _SLACK_MM
            and abs(stone[3 - axis] - cut.end_mm) <= _SLACK_MM
            and stone[axis] - kerf_mm - _SLACK_MM <= cut.at_mm <= stone[axis + 2] + _SLACK_MM
        ]
        if cut.number != number or len(struck) != 1:
            return [f"Cut {cut.number} of unit {unit.number} does not run right across one stone."]
        stones.remove(struck[0])
        x1, y1, x2, y2 = struck[0]
        sides = ((struck[0][axis], cut.at_mm), (cut.at_mm + kerf_mm, struck[0][axis + 2]))
        stones.extend(
            (x1, low, x2, high) if cut.lengthwise else (low, y1, high, y2)
            for low, high in sides
            if high - low > _SLACK_MM
        )
    return [
        f"After all cuts piece {part.piece} of unit {unit.number} does not lie there in its size."
        for part in boxes
        if not any(
            abs(part.x_mm - x1) <= _SLACK_MM
            and abs(part.y_mm - y1) <= _SLACK_MM
            and abs(part.x_mm + part.along_mm - x2) <= _SLACK_MM
            and abs(part.y_mm + part.across_mm - y2) <= _SLACK_MM
            for x1, y1, x2, y2 in stones
        )
    ]
