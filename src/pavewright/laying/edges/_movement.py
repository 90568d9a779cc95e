"""Movement joints of paving on mortar: where straight joints can take them, and how much has no joint to lie in."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.job import Bedding, EdgeRestraint, Through
from pavewright.laying._codes import Code
from pavewright.laying._types_parts import NO_MOVEMENT, MovementJoints
from pavewright.laying.edges import _words as words
from pavewright.laying.setting import bay_joints

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.pieces import Frame
    from pavewright.laying.setting import Setting
    from pavewright.survey import PlanArea

_HELD = frozenset({EdgeRestraint.WALL, EdgeRestraint.EXISTING})
"""Sides that do not give way: a movement joint runs along them."""
_SAME_MM = 0.5
"""Joints that lie nearer are one. [mm]"""


def movement_joints(area: PlanArea, frame: Frame, setting: Setting, known: LayingFigures) -> MovementJoints:
    """Return the movement joints that an area needs; none where it lies on sand, or is small enough.

    Between courses, and between the columns of stack bond, they lie in joints. Of any other pattern they would run
    through units: only their length is reported.
    """
    if area.area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
        return NO_MOVEMENT
    limit_mm = known.movement_apart_m.value * units.MM_PER_M
    if setting.mixed is not None and setting.mixed.found.bays > 1:
        lines = bay_joints(setting.layout, setting.mixed, shapely.union_all(setting.field))
        return _joints(frame, setting, lines, 0.0)
    x1, y1, x2, y2 = setting.region.bounds
    through = area.area.laying.pattern.traits.through
    runs = (through is Through.BOTH_WAYS, through is not Through.NONE)
    placed: list[shapely.LineString] = []
    unplaced_mm = 0.0
    for axis, low, high in ((0, x1, x2), (1, y1, y2)):
        if high - low <= limit_mm:
            continue
        straight = _straight(setting, axis) if runs[axis] else []
        at = _spread(low, high, limit_mm, straight)
        wanted = at if at is not None else _evenly(low, high, limit_mm)
        lines = [part for place in wanted for part in _across(setting, axis, place)]
        if at is None:
            unplaced_mm += math.fsum(line.length for line in lines)
        else:
            placed += lines
    if not placed and not unplaced_mm:
        return NO_MOVEMENT
    return _joints(frame, setting, placed, unplaced_mm)


def _joints(frame: Frame, setting: Setting, lines: Sequence[shapely.LineString], unplaced_mm: float) -> MovementJoints:
    ends = [[(float(x), float(y)) for x, y in shapely.get_coordinates(frame.out_of(line))] for line in lines]
    x1, y1, x2, y2 = setting.region.bounds
    return MovementJoints(
        placed=tuple((first, last) for first, *_, last in ends),
        placed_m=units.mm_to_m(math.fsum(line.length for line in lines)),
        unplaced_m=units.mm_to_m(unplaced_mm),
        longest_m=units.mm_to_m(max(x2 - x1, y2 - y1)),
    )


def with_edges(area: PlanArea, joints: MovementJoints) -> MovementJoints:
    """Return the movement joints of a whole area with those along walls and round what is fixed."""
    if not joints.longest_m:
        return joints
    held = [edge.corner for edge in area.area.edges if edge.restraint in _HELD]
    edge_mm = math.fsum(area.side_from(corner).length_mm for corner in held)
    edge_mm += math.fsum(hole.length for hole in area.shape.polygon.interiors)
    return replace(joints, edge_m=units.mm_to_m(edge_mm))


def _straight(setting: Setting, axis: int) -> list[float]:
    """Return where straight joints run right through the field, square to an axis of the frame. [mm]."""
    x1, y1, x2, y2 = setting.region.bounds
    boxes = setting.layout.over((x1, y1, x2, y2)).boxes()
    joints = np.unique(np.round((boxes[:, axis] - setting.layout.bond.joint_mm / 2.0) / _SAME_MM)) * _SAME_MM
    return [float(each) for each in joints]


def _evenly(low: float, high: float, limit_mm: float) -> list[float]:
    bays = math.ceil((high - low) / limit_mm)
    return [low + (high - low) * number / bays for number in range(1, bays)]


def _spread(low: float, high: float, limit_mm: float, joints: Sequence[float]) -> list[float] | None:
    """Return the joints nearest to an even spread whose bays all keep the limit; None where none do. [mm]."""
    inside = [joint for joint in joints if low < joint < high]
    for bays in range(math.ceil((high - low) / limit_mm), len(inside) + 2):
        wanted = [low + (high - low) * number / bays for number in range(1, bays)]
        found = sorted({_nearest(inside, at) for at in wanted}) if inside else []
        ends = [low, *found, high]
        if all(after - before <= limit_mm for before, after in itertools.pairwise(ends)):
            return found
    return None


def _nearest(joints: Sequence[float], at_mm: float) -> float:
    """Return the joint nearest to a place. [mm]."""
    return min(joints, key=lambda joint: abs(joint - at_mm))


def _across(setting: Setting, axis: int, place: float) -> list[shapely.LineString]:
    """Return the parts inside an area of a line square to an axis."""
    x1, y1, x2, y2 = setting.region.bounds
    ends = [(place, y1), (place, y2)] if axis == 0 else [(x1, place), (x2, place)]
    parts = shapely.get_parts(shapely.intersection(shapely.LineString(ends), setting.region))
    return [part for part in parts if isinstance(part, shapely.LineString) and part.length > 0.0]


def movement_findings(area: PlanArea, joints: MovementJoints, known: LayingFigures) -> tuple[Finding, ...]:
    """Return where movement joints lie, or that the plan cannot place them."""
    if not joints.longest_m:
        return ()
    figure = known.movement_apart_m
    return (
        Finding(
            Code.MOVEMENT_JOINTS,
            Severity.CHECK if joints.unplaced_m else Severity.NOTE,
            f"area {area.name}",
            words.movement_joints(area.name, joints, figure.value),
            joints.longest_m,
            figure.value,
            "m",
            figure,
        ),
    )
