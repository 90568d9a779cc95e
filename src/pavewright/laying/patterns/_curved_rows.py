"""Joints of a border round a curve: parallel at no unit, narrow on the tight side, wide on the other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._rings import ring_joint_mm

if TYPE_CHECKING:
    from pavewright.laying.patterns._edging import Ring
    from pavewright.laying.patterns._sides import OutlineSide

_STEP_MM = 10.0
"""A radius is reported in steps of this, rounded up. [mm]"""
_LARGEST_MM = 1_000_000.0
"""A curve as flat as this is straight: no unit needs a larger radius. [mm]"""


@dataclass(frozen=True, slots=True)
class CurvedRow:
    """One course of a border along one curved side.

    Attributes:
        course: Number of the course, from 0 at the outline.
        at_mm: Where the side is tightest. [mm]
        radius_mm: Radius of the outline there. [mm]
        narrowest_mm: Narrowest joint, between corners on the tight side. [mm]
        widest_mm: Widest joint, between corners on the other side. [mm]
        bulges: Whether the side bulges out of the area.
        closed: Whether it runs all round.
    """

    course: int
    at_mm: tuple[float, float]
    radius_mm: float
    narrowest_mm: float
    widest_mm: float
    bulges: bool
    closed: bool


def curved_row(side: OutlineSide, ring: Ring, course: int) -> CurvedRow:
    """Return the joints of one course along a curved side, at its tightest place.

    Source: geometry, chords between neighbouring corners of rectangles on a circle
    """
    radius, at = _tightest(side, 2.0 * ring.wide_mm)
    bulges = side.turn_deg > 0.0
    tight = max(_tight_mm(ring, radius, course, bulges=bulges), ring.pitch_mm)
    half = ring.pitch_mm / (2.0 * tight)
    if side.closed:
        off = course * (ring.course_mm + ring.joint_mm) + (ring.course_mm if bulges else 0.0)
        round_mm = side.length_mm - math.copysign(math.tau * off, side.turn_deg)
        half *= max(round_mm / ring.pitch_mm / max(math.floor(round_mm / ring.pitch_mm), 1), 1.0)
    number = math.pi / half
    if ring.tapered:
        return CurvedRow(course, at, radius, ring.joint_mm, ring.joint_mm, bulges, side.closed)
    narrow, wide = (ring_joint_mm(away, ring.wide_mm, number) for away in (tight, tight + ring.course_mm))
    return CurvedRow(course, at, radius, narrow, wide, bulges, side.closed)


def _tightest(side: OutlineSide, apart_mm: float) -> tuple[float, tuple[float, float]]:
    """Return the smallest radius along a side, and where: of the circles through a point and its neighbours. [mm].

    Neighbours are the first points at least so far away, so that a point that was measured a little off is no curve.

    Source: geometry, the circle through three points has the radius a·b·c / (4·area)
    """
    points = side.points
    count = len(points) - 1 if side.closed else len(points)
    along = np.concatenate(((0.0,), np.cumsum(np.hypot(*np.diff(points, axis=0).T))))
    found = []
    for number in range(count) if side.closed else range(1, count - 1):
        if side.closed:
            ahead = (along - along[number]) % along[-1]
            after = min(range(count), key=lambda each: (ahead[each] < apart_mm, ahead[each]))
            before = max(range(count), key=lambda each: (ahead[each] <= along[-1] - apart_mm, ahead[each]))
        else:
            after = min(int(np.searchsorted(along, along[number] + apart_mm)), count - 1)
            before = max(int(np.searchsorted(along, along[number] - apart_mm, side="right")) - 1, 0)
        found.append((_circle_mm(points[before], points[number], points[after]), number))
    radius, number = min(found)
    return radius, (float(points[number, 0]), float(points[number, 1]))


def _circle_mm(first: np.ndarray, middle: np.ndarray, last: np.ndarray) -> float:
    """Return the radius of the circle through three points. [mm]."""
    a, b, c = middle - first, last - middle, last - first
    twice = abs(float(a[0] * b[1] - a[1] * b[0]))
    sides = float(np.hypot(*a) * np.hypot(*b) * np.hypot(*c))
    return min(sides / (2.0 * twice), _LARGEST_MM) if twice > 0.0 else _LARGEST_MM


def _tight_mm(ring: Ring, radius_mm: float, course: int, *, bulges: bool) -> float:
    """Return the radius of the tight side of a course. [mm]."""
    off = course * (ring.course_mm + ring.joint_mm)
    return radius_mm - off - ring.course_mm if bulges else radius_mm + off


def min_radius_mm(ring: Ring, max_mm: float, *, bulges: bool, closed: bool) -> float | None:
    """Return the smallest radius of an outline, in steps, from which on no joint of a border opens too wide. [mm].

    None where no radius will do: the joint asked for is as wide as the unit takes.

    Args:
        ring: The border.
        max_mm: Widest joint that its unit takes. [mm]
        bulges: Whether the curve bulges out of the area.
        closed: Whether it runs all round: units are whole, and what is left is shared by the joints.

    Source: geometry, chords between neighbouring corners of rectangles on a circle
    """
    if ring.joint_mm >= max_mm:
        return None
    low, high = 0.0, _LARGEST_MM
    while high - low > 1.0:
        middle = (low + high) / 2.0
        low, high = (
            (low, middle) if _widest_mm(ring, middle, bulges=bulges, closed=closed) <= max_mm else (middle, high)
        )
    found = math.ceil(high / _STEP_MM) * _STEP_MM
    return found if found < _LARGEST_MM else None


def _widest_mm(ring: Ring, radius_mm: float, *, bulges: bool, closed: bool) -> float:
    """Return the widest joint of all courses round an outline of a radius. [mm]."""
    wide = ring.wide_mm
    found = 0.0
    for course in range(ring.courses):
        tight, pitch = _tight_mm(ring, radius_mm, course, bulges=bulges), ring.pitch_mm
        whole = math.floor(math.tau * tight / pitch) if tight > 0.0 else 0
        if whole < _FEWEST:
            return math.inf
        half = math.pi / whole if closed else pitch / (2.0 * tight)
        if closed:
            # one unit less, so that every larger circle holds too
            half *= 1.0 + 1.0 / whole
        found = max(found, ring_joint_mm(tight + ring.course_mm, wide, math.pi / half))
    return found


_FEWEST = 6
"""Fewer units do not follow a circle."""
