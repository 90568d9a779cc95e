"""Pairs in a saw plan, shown as the two pieces that they are."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.laying.cutting._pairs import turned_about
from pavewright.laying.cutting._types import PairedPieces, PlacedPart

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.laying.cutting._pairs import Pair
    from pavewright.laying.cutting._types import Outline, Part, Point, SawnUnit

_TURNS = 4


def told_as_pieces(unit: SawnUnit, pairs: Mapping[int, Pair]) -> SawnUnit:
    """Return a unit with each box of a pair replaced by its two pieces.

    Args:
        unit: A sawn unit whose boxes of pairs bear the number of their first piece.
        pairs: Pairs by that number.
    """
    parts: list[PlacedPart] = []
    joined: list[PairedPieces] = []
    for placed in unit.parts:
        pair = pairs.get(placed.piece)
        if pair is None:
            parts.append(placed)
            continue
        first, one = _placed(placed, pair, pair.first, pair.first_at, 0)
        second, other = _placed(placed, pair, pair.second, pair.second_at, pair.turns)
        start, end = (_on_unit(at, placed, pair) for at in pair.line)
        parts.extend((first, second))
        box = placed.x_mm, placed.y_mm, placed.along_mm, placed.across_mm
        joined.append(PairedPieces((first.piece, second.piece), *box, start, end, (one, other)))
    return replace(unit, parts=tuple(parts), pairs=tuple(joined))


def _on_unit(at: Point, placed: PlacedPart, pair: Pair) -> Point:
    x, y = turned_about(at, pair.box.along_mm, pair.box.across_mm, placed.quarter_turns)
    return placed.x_mm + x, placed.y_mm + y


def _placed(placed: PlacedPart, pair: Pair, part: Part, at: Point, turns: int) -> tuple[PlacedPart, Outline]:
    """Return a piece of a pair where it lies on the unit, and its outline there."""
    inside = (turned_about(point, part.along_mm, part.across_mm, turns) for point in part.outline)
    outline = tuple(_on_unit((at[0] + x, at[1] + y), placed, pair) for x, y in inside)
    wide, high = (part.along_mm, part.across_mm) if turns % 2 == 0 else (part.across_mm, part.along_mm)
    corners = [_on_unit(each, placed, pair) for each in (at, (at[0] + wide, at[1] + high))]
    (x1, x2), (y1, y2) = (sorted(each) for each in zip(*corners, strict=True))
    whole = (turns + placed.quarter_turns) % _TURNS
    return PlacedPart(part.piece, x1, y1, x2 - x1, y2 - y1, whole), outline
