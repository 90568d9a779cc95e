"""A free-form edge, measured by offsets off a line, fitted by as few arcs as keep within a tolerance."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY

_NARROWED = 60
"""Halvings of the interval in which the best rise lies."""
_MAX_RISE = 2.0
"""An arc rises by no more than so many half chords: more than a half circle is no edge of paving."""
_RATIO = (math.sqrt(5.0) - 1.0) / 2.0


@dataclass(frozen=True, slots=True)
class EdgeArc:
    """An arc of a fitted edge.

    Attributes:
        first: Number of the point at which it begins.
        last: Number of the point at which it ends.
        rise_mm: Rise over the middle of its chord, positive to the right of the way. [mm]
        off_mm: How far the point farthest from it stands off. [mm]
    """

    first: int
    last: int
    rise_mm: float
    off_mm: float


def edge_by_arcs(points: Sequence[XY], tolerance_mm: float) -> tuple[EdgeArc, ...]:
    """Return arcs through some of the points in turn, every other point no further off than a tolerance.

    Each arc is led as far as it can be; its rise is the one that keeps the farthest point nearest.

    Args:
        points: Points of the edge in turn, two or more, neighbours apart. [mm]
        tolerance_mm: How far a point may stand off its arc. [mm]

    Source: definition; the longest arc from each end of the last, minimax by golden section
    """
    found: list[EdgeArc] = []
    first = 0
    while first < len(points) - 1:
        best = EdgeArc(first, first + 1, 0.0, 0.0)
        reach, step = first + 1, 1
        # how far an arc reaches is looked for in doubled steps, then in halved ones
        while reach + step < len(points):
            tried = _arc(points, first, reach + step, tolerance_mm)
            if tried is None:
                break
            best, reach, step = tried, reach + step, step * 2
        while step > 1:
            step //= 2
            if reach + step < len(points) and (tried := _arc(points, first, reach + step, tolerance_mm)) is not None:
                best, reach = tried, reach + step
        if reach + 1 < len(points) and (tried := _arc(points, first, reach + 1, tolerance_mm)) is not None:
            best, reach = tried, reach + 1
        found.append(best)
        first = reach
    return tuple(found)


def _arc(points: Sequence[XY], first: int, last: int, tolerance_mm: float) -> EdgeArc | None:
    """Return the arc that keeps the points between nearest; None where one stands off too far."""
    (x1, y1), (x2, y2) = points[first], points[last]
    half = math.hypot(x2 - x1, y2 - y1) / 2.0
    if half == 0.0:
        return None
    ux, uy = (x2 - x1) / (2.0 * half), (y2 - y1) / (2.0 * half)
    middle = (x1 + x2) / 2.0, (y1 + y2) / 2.0
    inner = [
        ((x - middle[0]) * ux + (y - middle[1]) * uy, (x - middle[0]) * uy - (y - middle[1]) * ux)
        for x, y in points[first + 1 : last]
    ]
    # the points have to come in turn along the chord, or the edge runs back on itself
    along = [-half, *(a for a, _ in inner), half]
    if any(later <= earlier for earlier, later in itertools.pairwise(along)):
        return None

    def off(rise: float) -> float:
        return max((abs(_away(a, right, rise, half)) for a, right in inner), default=0.0)

    low, high = -_MAX_RISE * half / 2.0, _MAX_RISE * half / 2.0
    for _ in range(_NARROWED):
        one, other = high - _RATIO * (high - low), low + _RATIO * (high - low)
        low, high = (low, other) if off(one) <= off(other) else (one, high)
    rise = (low + high) / 2.0
    worst = off(rise)
    return EdgeArc(first, last, rise, worst) if worst <= tolerance_mm else None


def _away(along: float, right: float, rise: float, half: float) -> float:
    """Return how far a point stands off an arc, along and right measured from the middle of its chord. [mm]."""
    if abs(rise) < 1e-9 * half:
        return right
    radius = (half * half + rise * rise) / (2.0 * rise)
    return math.hypot(along, right - (rise - radius)) - abs(radius)
