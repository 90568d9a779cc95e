"""Flat arcs from their chord."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY


def rise_from_radius_mm(chord_mm: float, radius_mm: float) -> float:
    """Return the rise of an arc over the middle of its chord, the flatter of the two arcs. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        radius_mm: Radius, half the chord or more. [mm]

    Source: definition, V = R − √(R² − c²), written so that a flat arc loses no digits

    >>> round(rise_from_radius_mm(80_000.0, 200_000.0), 3)
    4040.821
    """
    half = chord_mm / 2.0
    return half * half / (radius_mm + math.sqrt((radius_mm - half) * (radius_mm + half)))


def offset_from_chord_mm(radius_mm: float, rise_mm: float, from_middle_mm: float) -> float:
    """Return how far an arc stands off its chord. [mm].

    Args:
        radius_mm: Radius. [mm]
        rise_mm: Rise over the middle of the chord. [mm]
        from_middle_mm: Distance along the chord from its middle, either way. [mm]

    Valid for: from the middle to the ends of the chord, arcs up to a half circle.
    Source: definition, y = √(R² − x²) − (R − V), written so that a flat arc loses no digits

    >>> round(offset_from_chord_mm(162_500.0, 5_000.0, 20_000.0), 0)
    3765.0
    """
    root = math.sqrt(max(0.0, (radius_mm - from_middle_mm) * (radius_mm + from_middle_mm)))
    return rise_mm - from_middle_mm * from_middle_mm / (radius_mm + root)


def rise_through(start: XY, end: XY, third: XY) -> float:
    """Return the rise of the arc from start to end through a third point, positive to the right of the way. [mm].

    Args:
        start: One end. [mm]
        end: The other. [mm]
        third: A point of the arc. [mm]

    Valid for: three points not on one line.
    Source: definition, the circle through three points; arcs of more than half of it too

    Raises:
        ValueError: the three stand on one line.

    >>> round(rise_through((0.0, 0.0), (2000.0, 0.0), (1000.0, -300.0)), 6)
    300.0
    """
    ax, ay = end[0] - start[0], end[1] - start[1]
    bx, by = third[0] - start[0], third[1] - start[1]
    cross = ax * by - ay * bx
    chord = math.hypot(ax, ay)
    if abs(cross) < _FLAT * chord * max(chord, math.hypot(bx, by)):
        message = "the three points stand on one line"
        raise ValueError(message)
    long, short = ax * ax + ay * ay, bx * bx + by * by
    ux, uy = (by * long - ay * short) / (2.0 * cross), (ax * short - bx * long) / (2.0 * cross)
    radius = math.hypot(ux, uy)
    side = -1.0 if cross > 0.0 else 1.0
    # from the middle of the chord to the centre, measured to the side where the third point stands
    towards = ((ux - ax / 2.0) * ay - (uy - ay / 2.0) * ax) / chord * side
    return side * (towards + radius)


def rise_about(start: XY, end: XY, centre: XY) -> float:
    """Return the rise of the shorter arc about a centre, positive to the right of the way. [mm].

    Args:
        start: One end. [mm]
        end: The other, as far from the centre. [mm]
        centre: The centre. [mm]

    Source: definition, V = R − √(R² − c²)

    Raises:
        ValueError: the ends are not equally far from the centre, or it stands on the chord.

    >>> round(rise_about((1000.0, 0.0), (0.0, 1000.0), (0.0, 0.0)), 3)
    292.893
    """
    radii = math.dist(start, centre), math.dist(end, centre)
    if abs(radii[0] - radii[1]) > _UNEQUAL * max(radii):
        message = f"its ends stand {radii[0]:.0f} and {radii[1]:.0f} mm from it"
        raise ValueError(message)
    ax, ay = end[0] - start[0], end[1] - start[1]
    chord = math.hypot(ax, ay)
    off = ((centre[0] - (start[0] + end[0]) / 2.0) * ay - (centre[1] - (start[1] + end[1]) / 2.0) * ax) / chord
    if abs(off) < _FLAT * chord:
        message = "it stands between its ends, and both ways round are as long: name a point of the arc instead"
        raise ValueError(message)
    radius = sum(radii) / 2.0
    return -math.copysign(rise_from_radius_mm(chord, max(radius, chord / 2.0)), off)


_FLAT = 1e-6
"""Of the length of a chord: less is a straight line."""
_UNEQUAL = 0.02
"""Ends of an arc may be so much of the radius nearer to the centre than the other: tapes are no better."""
