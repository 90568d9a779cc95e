"""Which directions, corners and joints the search for the best starts tries."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.job import StartCorner
from pavewright.laying.patterns import Bond, Size

if TYPE_CHECKING:
    from pavewright.job import Border, Job, Laying
    from pavewright.survey import PlanArea

_LONGEST = 3
"""Courses are tried along so many of the longest sides, square to them and diagonally."""
_SAME_DEG = 0.05
"""Directions that differ less are one. [deg]"""
_JOINT_OFF_MM = 3.0
"""Joints are tried that are wider or narrower by so much, within what the unit takes. [mm]"""


def turns_to_try(area: PlanArea, laying: Laying, bearing: float) -> tuple[float, ...]:
    """Return the directions to try: the present one, along the longest sides, square to them and diagonally. [deg].

    Args:
        area: The area.
        laying: How it is laid.
        bearing: The present direction. [deg]
    """
    sides = sorted((side for side in area.sides if math.isinf(side.radius_mm)), key=lambda side: -side.chord_mm)
    found = [bearing]
    for side in sides[:_LONGEST]:
        (x1, y1), (x2, y2) = side.start.xy, side.end.xy
        along = math.degrees(math.atan2(x2 - x1, y2 - y1))
        found += [along, along + 90.0, along + 45.0, along + 135.0]
    half_turn_same = laying.pattern.traits.turned_same_deg
    kept: list[float] = []
    for turn in found:
        apart = [abs((turn - other + half_turn_same / 2.0) % half_turn_same - half_turn_same / 2.0) for other in kept]
        if all(each > _SAME_DEG for each in apart):
            kept.append(turn % 360.0)
    return tuple(kept)


def corners_to_try(laying: Laying) -> tuple[StartCorner, ...]:
    """Return the corners to start from: the present one, and its picture in a mirror where that is another pattern."""
    traits = laying.pattern.traits
    if traits.mirrored_same or (traits.staggered and laying.stagger in {0.0, 0.5}):
        return (laying.start_corner,)
    across, along = laying.start_corner.value.split("_")
    return laying.start_corner, StartCorner(f"{across}_{'left' if along == 'right' else 'right'}")


def joints_to_try(job: Job, laying: Laying) -> tuple[float, ...]:
    """Return the joints to try: the present one first, then whole millimetres near it that every unit takes. [mm]."""
    names = set(laying.laid_units)
    if laying.border is not None and laying.border.unit is not None:
        names.add(laying.border.unit)
    taken = [job.unit(name) for name in sorted(names)]
    least = max(*(unit.joint_min_mm for unit in taken), laying.joint_mm - _JOINT_OFF_MM)
    most = min(*(unit.joint_max_mm for unit in taken), laying.joint_mm + _JOINT_OFF_MM)
    whole = np.arange(math.ceil(least), math.floor(most) + 1).tolist()
    if laying.pattern.traits.woven:
        unit = job.unit(laying.unit)
        size = Size(unit.length_mm, unit.width_mm)
        whole = [joint for joint in whole if Bond((size,), float(joint)).widest_woven_mm <= unit.joint_max_mm]
    return (laying.joint_mm, *(float(joint) for joint in whole if joint != laying.joint_mm))


def borders_to_try(job: Job, laying: Laying) -> tuple[Border, ...]:
    """Return other borders: a course more or less, and joints stretched or not; none where there is no border."""
    border = laying.border
    if border is None:
        return ()
    edge = job.unit(border.unit or laying.unit)
    ways = [(border.courses + more, border.stretch_joints) for more in (-1, 1)]
    if edge.joint_max_mm > edge.joint_min_mm:
        ways.append((border.courses, not border.stretch_joints))
    return tuple(
        border.model_copy(update={"courses": courses, "stretch_joints": stretch})
        for courses, stretch in ways
        if 1 <= courses <= _MAX_BORDER_COURSES
    )


_MAX_BORDER_COURSES = 3
