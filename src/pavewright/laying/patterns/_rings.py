"""Rings about a centre: rectangular units with joints that taper from the outer to the inner end of each unit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._placing import Placing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.patterns._bond import Size

_FEWEST = 3
"""Fewer units do not close about a centre."""


@dataclass(frozen=True, slots=True)
class RingCourse:
    """One ring of units.

    Attributes:
        inner_mm: From the centre to the middle of the inner side of each unit. [mm]
        size: Size of the units, their length round the ring.
        number: How many units close the ring.
        first_deg: Direction of the first unit from the centre, anticlockwise. [deg]
        inner_joint_mm: Between neighbouring inner corners. [mm]
        outer_joint_mm: Between neighbouring outer corners. [mm]
    """

    inner_mm: float
    size: Size
    number: int
    first_deg: float
    inner_joint_mm: float
    outer_joint_mm: float

    @property
    def reach_mm(self) -> float:
        """Return how far the outer corners lie from the centre. [mm]."""
        return math.hypot(self.inner_mm + self.size.across_mm, self.size.along_mm / 2.0)


def units_in_ring(inner_mm: float, along_mm: float, least_mm: float) -> int:
    """Return the most units whose inner corners stay the narrowest joint apart; nought where three do not go in.

    Source: geometry, corners of equal tangents about a centre
    """
    half = math.atan2(along_mm / 2.0, inner_mm)
    sine = least_mm / 2.0 / math.hypot(inner_mm, along_mm / 2.0)
    if sine >= 1.0:
        return 0
    number = math.floor(math.pi / (half + math.asin(sine)) + 1e-9)
    return number if number >= _FEWEST else 0


def ring_joint_mm(radius_mm: float, along_mm: float, number: int) -> float:
    """Return the joint between neighbouring corners at the middle of a side so far from the centre. [mm].

    Source: geometry, chord between two corners mirrored about the line that halves their joint
    """
    half = math.pi / number
    return 2.0 * radius_mm * math.sin(half) - along_mm * math.cos(half)


def ring_courses(
    centre_mm: float, reach_mm: float, size: Size, least_mm: float, between_mm: float
) -> tuple[RingCourse, ...]:
    """Return rings from a centre of a radius outward until one reaches so far; none where the first does not close.

    Corners of a ring stay the joint between rings clear of the next one. [mm]. Joints of neighbouring rings are turned
    as far from each other as their numbers let them.
    """
    found: list[RingCourse] = []
    inner = centre_mm
    while inner < reach_mm:
        number = units_in_ring(inner, size.along_mm, least_mm)
        if number == 0:
            return ()
        first = 0.0
        if found:
            before = found[-1]
            step = 360.0 / math.lcm(before.number, number)
            first = before.first_deg + 180.0 / before.number - 180.0 / number + step / 2.0
        inner_joint = ring_joint_mm(inner, size.along_mm, number)
        outer_joint = ring_joint_mm(inner + size.across_mm, size.along_mm, number)
        found.append(RingCourse(inner, size, number, first, inner_joint, outer_joint))
        inner = found[-1].reach_mm + between_mm
    return tuple(found)


def ring_placing(courses: Sequence[RingCourse], x_mm: float, y_mm: float) -> Placing:
    """Return the units of rings about a centre: courses from the centre out, places clockwise. [mm]."""
    count = np.array([course.number for course in courses], dtype=np.int64)
    ring = np.repeat(np.arange(len(courses)), count)
    place = np.concatenate([np.arange(number) for number in count] or [np.zeros(0)])

    def of(values: list[float]) -> np.ndarray:
        return np.asarray(values, dtype=float)[ring]

    angle = np.radians(of([course.first_deg for course in courses])) - place * math.tau / count[ring]
    inner = of([course.inner_mm for course in courses])
    along = of([course.size.along_mm for course in courses])
    cos, sin = np.cos(angle), np.sin(angle)
    return Placing(
        x_mm=x_mm + inner * cos - along / 2.0 * sin,
        y_mm=y_mm + inner * sin + along / 2.0 * cos,
        turn_deg=np.degrees(angle) - 90.0,
        along_mm=along,
        across_mm=of([course.size.across_mm for course in courses]),
        course=ring,
        order=place.astype(float),
        size=np.zeros(len(ring), dtype=np.int64),
    )
