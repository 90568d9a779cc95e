"""Triangles and trapezia head to tail: two pieces in one box, split by one sloping cut right across it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.laying.cutting._types import Part

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._types import Outline, Point, Stock

_MAX_SIDES = 6
"""A piece with more sides is left to itself."""
_PARALLEL = 1e-3
"""Sine of the angle between two sides that still count as one line."""
_TOGETHER = 150
"""Pieces among which pairs are looked for, so that the work grows with their number and not with its square."""
_MIN_SAVED = 0.02
"""Share of both boxes that a pair must save."""
_SKEW = 1e-3
"""Sine of the angle to the sides of the unit from which a side counts as sloping."""
_STRAIGHT = 1e-4
"""Sine of the angle of an inner corner that is rounding of the arithmetic."""
_SLACK_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Pair:
    """Two pieces in one box, with the near left corner of the box as origin.

    Attributes:
        first: The piece that lies as it is laid.
        second: The piece that is turned against it.
        turns: Quarter turns of the second.
        box: The box, under the number of the first.
        first_at: Near left corner of the first one's box. [mm]
        second_at: Near left corner of the second one's box. [mm]
        line: Where the sloping cut meets the sides of the box, on the face of the blade towards the first. [mm]
    """

    first: Part
    second: Part
    turns: int
    box: Part
    first_at: Point
    second_at: Point
    line: tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class _Side:
    """The longest sloping side of an outline: its outward normal and the farthest that the piece reaches along it.

    Attributes:
        normal: Outward normal, length one.
        off: Farthest reach of the piece along it, from the corner of its box. [mm]
    """

    normal: Point
    off: float


@dataclass(frozen=True, slots=True)
class _Lying:
    """A piece with a slope as it lies after quarter turns."""

    part: Part
    turns: int
    outline: Outline
    side: _Side
    wide_mm: float
    high_mm: float

    @property
    def area_mm2(self) -> float:
        """Area of its box. [mm²]."""
        return self.wide_mm * self.high_mm


def turned_about(at: Point, along: float, across: float, turns: int) -> Point:
    """Return a point of a box after quarter turns against the clock, from the near left corner of the turned box.

    Args:
        at: The point, from the near left corner of the box. [mm]
        along: Length of the box. [mm]
        across: Width of the box. [mm]
        turns: Number of quarter turns.

    >>> turned_about((1.0, 0.0), 4.0, 2.0, 1)
    (2.0, 1.0)
    """
    x, y = at
    for _ in range(turns):
        x, y = across - y, x
        along, across = across, along
    return x, y


def pairs_of(parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool) -> list[Pair]:
    """Return pairs that save most of their boxes, each piece in one pair at most.

    Args:
        parts: Pieces; only convex ones with an outline and without factory sides are paired.
        sizes: Sizes of slab; a pair must fit one.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid.

    Source: common practice, head to tail
    """
    skew = [part for part in parts if _slope(part.outline) and not part.factory_sides]
    turns = (0, 1, 2, 3) if may_turn else (0, 2)
    found: list[tuple[int, int, int, Pair]] = []
    for start in range(0, len(skew), _TOGETHER):
        lying = [[_lying(part, turn) for turn in turns] for part in skew[start : start + _TOGETHER]]
        for number, (first, *_) in enumerate(lying):
            for ways in lying[number + 1 :]:
                for way in ways:
                    pair = _joined(first, way, kerf_mm) if _facing(first.side.normal, way.side.normal) else None
                    if pair is not None and _fits(pair.box, sizes, may_turn=may_turn):
                        saved = first.area_mm2 + way.area_mm2 - pair.box.along_mm * pair.box.across_mm
                        found.append((-round(saved), first.part.piece, way.part.piece, pair))
    chosen: list[Pair] = []
    used: set[int] = set()
    for _, one, other, pair in sorted(found, key=lambda each: each[:3]):
        if not used & {one, other}:
            chosen.append(pair)
            used |= {one, other}
    return chosen


def _fits(box: Part, sizes: Sequence[Stock], *, may_turn: bool) -> bool:
    return any(
        (box.along_mm <= size.along_mm and box.across_mm <= size.across_mm)
        or (may_turn and box.across_mm <= size.along_mm and box.along_mm <= size.across_mm)
        for size in sizes
    )


def _slope(outline: Outline) -> _Side | None:
    """Return the longest sloping side of a convex outline, None where there is none."""
    count = len(outline)
    if not 3 <= count <= _MAX_SIDES:  # noqa: PLR2004 - a triangle at least
        return None
    area = sum(outline[k - 1][0] * outline[k][1] - outline[k][0] * outline[k - 1][1] for k in range(count))
    points = outline if area > 0.0 else outline[::-1]
    best: tuple[float, Point] | None = None
    for k in range(count):
        (ax, ay), (bx, by), (cx, cy) = points[k - 1], points[k], points[(k + 1) % count]
        length, after = math.hypot(bx - ax, by - ay), math.hypot(cx - bx, cy - by)
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < -_STRAIGHT * length * after:
            return None
        if length <= _SLACK_MM:
            continue
        normal = (by - ay) / length, (ax - bx) / length
        if min(abs(normal[0]), abs(normal[1])) > _SKEW and (best is None or length > best[0] + _SLACK_MM):
            best = length, normal
    if best is None:
        return None
    nx, ny = best[1]
    return _Side(best[1], max(nx * x + ny * y for x, y in points))


def _lying(part: Part, turns: int) -> _Lying:
    """Return a piece with a slope as it lies after quarter turns."""
    outline = tuple(turned_about(at, part.along_mm, part.across_mm, turns) for at in part.outline)
    side = _slope(outline)
    if side is None:
        message = f"piece {part.piece} lost its slope"
        raise RuntimeError(message)
    wide, high = (part.along_mm, part.across_mm) if turns % 2 == 0 else (part.across_mm, part.along_mm)
    return _Lying(part, turns, outline, side, wide, high)


def _facing(one: Point, other: Point) -> bool:
    """Return whether two sides face each other and are parallel."""
    return one[0] * other[0] + one[1] * other[1] < 0.0 and abs(one[0] * other[1] - one[1] * other[0]) <= _PARALLEL


def _joined(first: _Lying, second: _Lying, kerf: float) -> Pair | None:
    """Return the smallest box of two pieces with the saw cut between their sloping sides, if it saves something."""
    nx, ny = first.side.normal
    wide, high = second.wide_mm, second.high_mm
    # the second moves so that its nearest point lies a saw cut beyond the line of the first
    need = first.side.off + kerf - min(nx * x + ny * y for x, y in second.outline)
    best: tuple[float, Point] | None = None
    for x in (0.0, first.wide_mm - wide):
        best = _smaller(best, (x, (need - nx * x) / ny), first, wide, high)
    for y in (0.0, first.high_mm - high):
        best = _smaller(best, ((need - ny * y) / nx, y), first, wide, high)
    both = first.area_mm2 + second.area_mm2
    if best is None or best[0] > both * (1.0 - _MIN_SAVED):
        return None
    x, y = best[1]
    left, near = min(0.0, x), min(0.0, y)
    along, across = max(first.wide_mm, x + wide) - left, max(first.high_mm, y + high) - near
    line = _line_across(first.side.normal, first.side.off - nx * left - ny * near, along, across)
    if line is None:
        return None
    box = Part(first.part.piece, along, across)
    return Pair(first.part, second.part, second.turns, box, (-left, -near), (x - left, y - near), line)


def _smaller(
    best: tuple[float, Point] | None, at: Point, first: _Lying, wide: float, high: float
) -> tuple[float, Point] | None:
    along = max(first.wide_mm, at[0] + wide) - min(0.0, at[0])
    across = max(first.high_mm, at[1] + high) - min(0.0, at[1])
    return (along * across, at) if best is None or along * across < best[0] - _SLACK_MM else best


def _line_across(normal: Point, off: float, along: float, across: float) -> tuple[Point, Point] | None:
    """Return where a line crosses a box: its two ends."""
    nx, ny = normal
    ends = [(x, (off - nx * x) / ny) for x in (0.0, along)] + [((off - ny * y) / nx, y) for y in (0.0, across)]
    inside = sorted(
        (x, y) for x, y in ends if -_SLACK_MM <= x <= along + _SLACK_MM and -_SLACK_MM <= y <= across + _SLACK_MM
    )
    return (inside[0], inside[-1]) if inside and inside[0] != inside[-1] else None
