"""A box inside a piece that does not fill its own: what must come out whole, however pieces are nested."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.laying.cutting._types import Outline, Point

_STEPS = 12
"""Places tried along a piece, beside its corners."""
_SLACK_MM = 1e-6
_STRAIGHT = 1e-4
"""Sine of the angle of an inner corner that is rounding of the arithmetic."""


def inner_box(outline: Outline) -> Point:
    """Return the sizes of a large upright box inside a convex outline; zero by zero where it is not convex.

    Valid for: the largest of those that begin and end at a corner or at one of some even steps.
    Source: definition

    >>> inner_box(((0.0, 0.0), (8.0, 0.0), (0.0, 8.0)))
    (4.0, 4.0)
    """
    if not _is_convex(outline):
        return 0.0, 0.0
    xs = [x for x, _ in outline]
    low, high = min(xs), max(xs)
    places = sorted({*xs, *(low + (high - low) * step / _STEPS for step in range(_STEPS + 1))})
    spans = [_span(outline, x) for x in places]
    best = 0.0, 0.0
    for number, left in enumerate(places):
        for other in range(number + 1, len(places)):
            along = places[other] - left
            across = min(spans[number][1], spans[other][1]) - max(spans[number][0], spans[other][0])
            if across > 0.0 and along * across > best[0] * best[1] + _SLACK_MM:
                best = along, across
    return best


def _is_convex(outline: Outline) -> bool:
    count = len(outline)
    turns = []
    for k in range(count):
        (ax, ay), (bx, by), (cx, cy) = outline[k - 1], outline[k], outline[(k + 1) % count]
        lengths = math.hypot(bx - ax, by - ay) * math.hypot(cx - bx, cy - by)
        turns.append(((bx - ax) * (cy - by) - (by - ay) * (cx - bx)) / max(lengths, _SLACK_MM))
    return count > 2 and (min(turns) >= -_STRAIGHT or max(turns) <= _STRAIGHT)  # noqa: PLR2004 - a triangle at least


def _span(outline: Outline, x: float) -> Point:
    """Return the lowest and highest point of a convex outline at a place along it."""
    met = []
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if min(ax, bx) - _SLACK_MM <= x <= max(ax, bx) + _SLACK_MM:
            if abs(bx - ax) <= _SLACK_MM:
                met += [ay, by]
            else:
                share = min(max((x - ax) / (bx - ax), 0.0), 1.0)
                met.append(ay + (by - ay) * share)
    return min(met), max(met)
