"""A check of saw plans that shares nothing with what makes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._types import Part, PlacedPart, SawnUnit, Stock

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
        faults.extend(
            f"Pieces {one.piece} and {other.piece} leave no saw cut between them."
            for number, one in enumerate(unit.parts)
            for other in unit.parts[number + 1 :]
            if not _apart(one, other, kerf_mm)
        )
        if not _can_be_sawn(unit.parts, kerf_mm):
            faults.append(f"Straight cuts do not part the pieces of unit {unit.number}.")
        faults.extend(_cut_faults(unit, kerf_mm))
    return tuple(faults)


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
    if min(gaps) < -_SLACK_MM:
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


def _cut_faults(unit: SawnUnit, kerf_mm: float) -> list[str]:
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
        for part in unit.parts
        if not any(
            abs(part.x_mm - x1) <= _SLACK_MM
            and abs(part.y_mm - y1) <= _SLACK_MM
            and abs(part.x_mm + part.along_mm - x2) <= _SLACK_MM
            and abs(part.y_mm + part.across_mm - y2) <= _SLACK_MM
            for x1, y1, x2, y2 in stones
        )
    ]
