"""Rings in an area: about which point, with which units, and what is laid straight inside the first."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Point, Polygon

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import shared
from pavewright.job import Pattern
from pavewright.laying.patterns import RingUnit, first_ring_mm, ring_courses, ring_placing

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Laying, PavingUnit
    from pavewright.laying._types import Piece
    from pavewright.laying.patterns import Placing, RingCourse
    from pavewright.survey import PlanArea

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
            max(laying.joint_mm, unit.joint_least_mm),
            unit.joint_most_mm,
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


def ring_findings(area: PlanArea, rings: LaidRings, sold: tuple[PavingUnit, ...]) -> tuple[Finding, ...]:
    """Return a finding where joints of rings open wider than their unit takes."""
    wide = [(number, course) for number, course in enumerate(rings.courses, start=1) if course.beyond_mm > _ROUNDING_MM]
    if not wide:
        return ()
    number, worst = max(wide, key=lambda each: each[1].beyond_mm)
    unit = sold[worst.unit.size]
    which = f"ring {number}" if len(wide) == 1 else f"{len(wide)} rings, worst in ring {number}"
    holds = worst.unit.deep_mm * math.tau / max(worst.unit.most_mm - worst.unit.least_mm, _ROUNDING_MM)
    radius = holds * (worst.unit.round_mm + worst.unit.least_mm) / math.tau
    return (
        Finding(
            "laying.ring_joint",
            Severity.CHECK,
            f"area {area.name}",
            f"Joints of {area.name} open too wide in {which}: from {worst.inner_joint_mm:.1f} mm inside to "
            f"{worst.outer_joint_mm:.1f} mm outside between {worst.number} of {unit.name}; it takes "
            f"{units.millimetres_text(unit.joint_most_mm)}.",
            worst.outer_joint_mm,
            unit.joint_most_mm,
            "mm",
            ways_out=(
                "Name a smaller unit for the inner rings, or one that is made to taper.",
                f"Begin the rings about {radius:.0f} mm from the centre and lay what lies inside straight.",
                "Cut the sides of the inner units to a wedge.",
            ),
        ),
    )


_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""
