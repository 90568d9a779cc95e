"""Rings about a centre: rectangular units with joints that taper from the outer to the inner end of each unit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._placing import Placing

if TYPE_CHECKING:
    from collections.abc import Sequence

_FEWEST = 3
"""Fewer units do not close about a centre."""
_STEP_MM = 5.0
"""The first ring is sought in steps of this, from the centre out. [mm]"""


@dataclass(frozen=True, slots=True)
class RingUnit:
    """One way of putting a unit into a ring.

    Attributes:
        size: Number of the unit among those of the area.
        round_mm: Its size round the ring. [mm]
        deep_mm: Its size away from the centre. [mm]
        turned: Whether its length points away from the centre.
        min_mm: Narrowest joint. [mm]
        max_mm: Widest joint. [mm]
    """

    size: int
    round_mm: float
    deep_mm: float
    turned: bool
    min_mm: float
    max_mm: float


@dataclass(frozen=True, slots=True)
class RingCourse:
    """One ring of units.

    Attributes:
        inner_mm: From the centre to the middle of the inner side of each unit. [mm]
        unit: The units, and how they are put.
        number: How many units close the ring.
        first_deg: Direction of the first unit from the centre, anticlockwise. [deg]
        inner_joint_mm: Between neighbouring inner corners. [mm]
        outer_joint_mm: Between neighbouring outer corners. [mm]
    """

    inner_mm: float
    unit: RingUnit
    number: int
    first_deg: float
    inner_joint_mm: float
    outer_joint_mm: float

    @property
    def reach_mm(self) -> float:
        """Return how far the outer corners lie from the centre. [mm]."""
        return math.hypot(self.inner_mm + self.unit.deep_mm, self.unit.round_mm / 2.0)

    @property
    def beyond_mm(self) -> float:
        """Return by how much the outer joint is wider than the unit takes; zero where it is not. [mm]."""
        return max(self.outer_joint_mm - self.unit.max_mm, 0.0)


def units_in_ring(inner_mm: float, round_mm: float, min_mm: float) -> int:
    """Return the most units whose inner corners stay the narrowest joint apart; zero where three do not go in.

    Source: geometry, corners of equal tangents about a centre
    """
    half = math.atan2(round_mm / 2.0, inner_mm)
    sine = min_mm / 2.0 / math.hypot(inner_mm, round_mm / 2.0)
    if sine >= 1.0:
        return 0
    number = math.floor(math.pi / (half + math.asin(sine)) + 1e-9)
    return number if number >= _FEWEST else 0


def ring_joint_mm(radius_mm: float, round_mm: float, number: float) -> float:
    """Return the joint between neighbouring corners at the middle of a side so far from the centre. [mm].

    Args:
        radius_mm: Distance of the corners from the centre. [mm]
        round_mm: Size of a unit round the ring. [mm]
        number: Units in the ring. [-]

    Source: geometry, chord between two corners mirrored about the line that halves their joint
    """
    half = math.pi / number
    return 2.0 * radius_mm * math.sin(half) - round_mm * math.cos(half)


def ring_at(inner_mm: float, units: Sequence[RingUnit]) -> RingCourse | None:
    """Return the ring that begins so far from the centre: the first unit whose joints hold, else the one least beyond.

    None where no unit closes there.
    """
    found = []
    for unit in units:
        number = units_in_ring(inner_mm, unit.round_mm, unit.min_mm)
        if number:
            inner = ring_joint_mm(inner_mm, unit.round_mm, number)
            outer = ring_joint_mm(inner_mm + unit.deep_mm, unit.round_mm, number)
            found.append(RingCourse(inner_mm, unit, number, 0.0, inner, outer))
    return min(found, key=lambda course: course.beyond_mm, default=None)


def first_ring_mm(reach_mm: float, units: Sequence[RingUnit]) -> float:
    """Return the least distance from the centre at which a unit keeps its joints. [mm].

    Where none does within reach: the least distance at which one closes at all.
    """
    least = min(unit.round_mm for unit in units)
    tried = [least / 2.0 + step * _STEP_MM for step in range(max(math.ceil((reach_mm - least / 2.0) / _STEP_MM), 1))]
    closing = [(inner, course) for inner in tried if (course := ring_at(inner, units)) is not None]
    holding = [inner for inner, course in closing if course.beyond_mm == 0.0]
    return holding[0] if holding else closing[0][0] if closing else least


def ring_courses(
    first_mm: float, reach_mm: float, units: Sequence[RingUnit], between_mm: float
) -> tuple[RingCourse, ...]:
    """Return rings from the first outward until one reaches so far; those that do not close are passed over.

    Corners of a ring stay the joint between rings clear of the next one. [mm]. Joints of neighbouring rings are turned
    as far from each other as their numbers let them.
    """
    found: list[RingCourse] = []
    inner = first_mm
    while inner < reach_mm:
        course = ring_at(inner, units)
        if course is None:
            inner += _STEP_MM
            continue
        first = 0.0
        if found:
            before = found[-1]
            step = 360.0 / math.lcm(before.number, course.number)
            first = before.first_deg + 180.0 / before.number - 180.0 / course.number + step / 2.0
        found.append(
            RingCourse(inner, course.unit, course.number, first % 360.0, course.inner_joint_mm, course.outer_joint_mm)
        )
        inner = found[-1].reach_mm + between_mm
    return tuple(found)


def ring_placing(courses: Sequence[RingCourse], x_mm: float, y_mm: float) -> Placing:
    """Return the units of rings about a centre: courses from the centre out, places clockwise. [mm]."""
    count = np.array([course.number for course in courses], dtype=np.int64)
    ring = np.repeat(np.arange(len(courses)), count)
    place = np.concatenate([np.arange(number) for number in count] or [np.zeros(0)])

    def of(values: Sequence[float]) -> np.ndarray:
        return np.asarray(values, dtype=float)[ring]

    angle = np.radians(of([course.first_deg for course in courses])) - place * math.tau / count[ring]
    inner = of([course.inner_mm for course in courses])
    half = of([course.unit.round_mm for course in courses]) / 2.0
    deep = of([course.unit.deep_mm for course in courses])
    turned = np.asarray([course.unit.turned for course in courses], dtype=bool)[ring]
    # a unit lies with its length clockwise round the ring, or away from the centre with its width anticlockwise
    half = np.where(turned, -half, half)
    cos, sin = np.cos(angle), np.sin(angle)
    return Placing(
        x_mm=x_mm + inner * cos - half * sin,
        y_mm=y_mm + inner * sin + half * cos,
        turn_deg=np.degrees(angle) - np.where(turned, 0.0, 90.0),
        along_mm=np.where(turned, deep, 2.0 * half),
        across_mm=np.where(turned, -2.0 * half, deep),
        course=ring + 1,
        order=place.astype(float),
        size=np.asarray([course.unit.size for course in courses], dtype=np.int64)[ring],
    )
