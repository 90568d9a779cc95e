"""Rings in an area: about which point, with which units, and what is laid straight inside the first."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Point, Polygon

from pavewright import units
from pavewright.geometry import shared
from pavewright.job import Pattern
from pavewright.laying.patterns import RingUnit, first_ring_mm, ring_courses, ring_placing

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Laying, PavingUnit
    from pavewright.laying._types import Piece
    from pavewright.laying.patterns import Placing, RingCourse

_QUARTER = 32
"""Sides of a quarter of the circle inside the first ring."""


@dataclass(frozen=True)
class LaidRings:
    """Rings over an area.

    Attributes:
        courses: The rings that reach the area, from the centre out.
        placed: Their units with their places.
        centre: What lies inside the first ring and is laid straight; empty where nothing of the area does.
    """

    courses: tuple[RingCourse, ...]
    placed: Placing
    centre: Polygon


def rings_of(laying: Laying, sold: tuple[PavingUnit, ...], region: Polygon, centre: XY) -> LaidRings | None:
    """Return the rings of an area; None where it is laid in another pattern."""
    if laying.pattern is not Pattern.RINGS:
        return None
    ways = _ways(laying, sold[: 1 + len(laying.course_units)])
    reach = float(shapely.hausdorff_distance(Point(centre), region))
    first = laying.centre_radius_mm or first_ring_mm(reach, ways)
    near = float(shapely.distance(Point(centre), region))
    courses = ring_courses(first, reach, ways, laying.joint_mm)
    met = tuple(course for course in courses if course.reach_mm > near)
    inside = Point(centre).buffer(max(first - laying.joint_mm, 0.0), quad_segs=_QUARTER)
    left = shared(inside, region)
    core = left if isinstance(left, Polygon) else Polygon()
    return LaidRings(met, ring_placing(met, *centre), core)


def _ways(laying: Laying, sold: tuple[PavingUnit, ...]) -> tuple[RingUnit, ...]:
    """Return each unit with its length round the ring, then each with its length away from the centre."""
    found = [
        RingUnit(
            number,
            unit.width_mm if turned else unit.length_mm,
            unit.length_mm if turned else unit.width_mm,
            turned,
            max(laying.joint_mm, unit.joint_min_mm),
            unit.joint_max_mm,
        )
        for turned in (False, True)
        for number, unit in enumerate(sold)
        if not turned or unit.length_mm != unit.width_mm
    ]
    return tuple(found)


def ring_joints_m(pieces: tuple[Piece, ...], sold: tuple[PavingUnit, ...]) -> float:
    """Return the length of joints of rings: for each piece its part of one side and of one end. [m]."""
    known = {unit.name: unit for unit in sold}
    parts = [
        (piece.area_m2 / units.mm2_to_m2(known[piece.unit].length_mm * known[piece.unit].width_mm), known[piece.unit])
        for piece in pieces
    ]
    return units.mm_to_m(math.fsum(part * (unit.length_mm + unit.width_mm) for part, unit in parts))


def first_radius_mm(
    laying: Laying, sold: tuple[PavingUnit, ...], region: Polygon, centre: XY, above_mm: float
) -> float | None:
    """Return the smallest radius above another from which on every ring over an area keeps its joints. [mm].

    Units are whole, so that a ring may open where one a little nearer does not: every radius is laid out before it is
    said. None where none within reach does.
    """
    ways = _ways(laying, sold[: 1 + len(laying.course_units)])
    reach = float(shapely.hausdorff_distance(Point(centre), region))
    near = float(shapely.distance(Point(centre), region))
    first = math.ceil(above_mm / _STEP_MM) * _STEP_MM
    for step in range(max(math.ceil((reach - first) / _STEP_MM), 0)):
        radius = first + step * _STEP_MM
        met = [each for each in ring_courses(radius, reach, ways, laying.joint_mm) if each.reach_mm > near]
        if met and all(each.beyond_mm <= _ROUNDING_MM for each in met):
            return radius
    return None


_STEP_MM = 10.0
"""Radii are tried, and reported, in steps of this. [mm]"""
_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""
