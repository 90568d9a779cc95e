"""Starts of one area that are counted: every direction, corner, joint and border, and those worth laying."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.job import StartCorner, Taken
from pavewright.laying.pieces import frame_of
from pavewright.laying.search import (
    NARROW_COST,
    best_shifts,
    borders_to_try,
    corners_to_try,
    field_of,
    joints_to_try,
    turns_to_try,
)
from pavewright.laying.setting import limits_of, region_of, setting_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from shapely.geometry import Polygon

    from pavewright.job import Job, Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.survey import PlanArea, Survey

_MOST = 2_500
"""About so many starts are counted for each direction, corner and joint."""
_TURNS_KEPT = 3
"""Joints are tried in the present direction and in the best others, so many in all."""
_LAID = 10
"""So many starts are really laid and cut."""


@dataclass(frozen=True)
class Way:
    """A laying that was counted: its score, its fields, and what it was counted for.

    Attributes:
        score: Pieces that count against it, slivers and narrow ones more than once; smallest size of a piece, negative;
            length of all saw cuts: the lowest is best. [-, mm, mm]
        laying: The laying.
    """

    score: tuple[float, float, float]
    laying: Laying


@dataclass(frozen=True)
class CountedWays:
    """What was counted for one area.

    Attributes:
        ways: The best of each direction, corner, joint and border.
        starts: How many starts were counted.
        turns: How many directions of the courses.
        joints: How many widths of joint.
    """

    ways: list[Way]
    starts: int
    turns: int
    joints: int


def counted_ways(
    job: Job, area: PlanArea, survey: Survey, known: LayingFigures, tell: Callable[[str], None]
) -> CountedWays:
    """Return the best starts of an area by the count of the kernel, in every direction, joint and border tried."""
    laying = area.area.laying
    bearing = frame_of(area, survey).bearing_deg
    turns = turns_to_try(area, laying, bearing)
    tried = 0
    ways: list[Way] = []
    by_turn: list[tuple[tuple[float, float, float], float]] = []
    for turn in turns:
        tell(f"{area.name}: courses at {turn:.1f}°")
        for corner in corners_to_try(laying):
            found, count = _counted(job, area, _turned(laying, turn, bearing, corner), survey, known)
            tried += count
            ways += found
            by_turn.append((min(way.score for way in found), turn))
    others = [turn for _, turn in sorted(by_turn) if turn != bearing]
    joints = joints_to_try(job, laying)
    for turn in dict.fromkeys([bearing, *others][: _TURNS_KEPT + 1]):
        for joint in joints[1:]:
            tell(f"{area.name}: courses at {turn:.1f}°, joints of {joint:g} mm")
            changed = _turned(laying, turn, bearing, laying.start_corner).model_copy(update={"joint_mm": joint})
            found, count = _counted(job, area, changed, survey, known)
            tried += count
            ways += found
    for border in borders_to_try(job, laying):
        changed = laying.model_copy(update={"border": border})
        if not setting_of(job, laid_as(area, changed), frame_of(area, survey), region_in(area, survey)).field:
            continue
        tell(f"{area.name}: {border.courses} courses of border")
        found, count = _counted(job, area, changed, survey, known)
        tried += count
        ways += found
    return CountedWays(ways, tried, len(turns), len(joints))


def ways_of_one_direction(
    job: Job, area: PlanArea, direction: tuple[float, float, StartCorner], survey: Survey, known: LayingFigures
) -> list[Way]:
    """Return the best starts of an area with its courses in one direction, from one corner.

    Args:
        job: The job.
        area: The area.
        direction: Direction to count, direction as drawn, and the corner. [deg, deg, -]
        survey: What was measured, adjusted.
        known: Figures of this room.
    """
    turn, bearing, corner = direction
    return _counted(job, area, _turned(area.area.laying, turn, bearing, corner), survey, known)[0]


def _counted(job: Job, area: PlanArea, laying: Laying, survey: Survey, known: LayingFigures) -> tuple[list[Way], int]:
    """Return the best starts of one direction, corner and joint by the count of the kernel, and how many were tried."""
    changed = laid_as(area, laying)
    frame = frame_of(changed, survey)
    setting = setting_of(job, changed, frame, region_in(changed, survey))
    limits, layout = limits_of(setting, known), setting.layout
    found = best_shifts(field_of(setting.field, layout, limits), layout.period_mm, limits, _MOST, _LAID)
    wide, deep = layout.period_mm
    ways = []
    for (along, across), count in zip(found.shifts.tolist(), found.counts.tolist(), strict=True):
        x = laying.shift_along_mm + (-along if layout.from_right else along)
        y = laying.shift_across_mm + (-across if layout.from_far else across)
        if laying.pattern.traits.taken is not Taken.SEVERAL:
            x, y = x % wide, y % deep
        moved = laying.model_copy(update={"shift_along_mm": round(x, 2), "shift_across_mm": round(y, 2)})
        score = count[1] + 5.0 * count[2] + count[3] + NARROW_COST * count[6]
        ways.append(Way((score, -min(count[4], wide), count[5]), moved))
    return ways, found.tried


def _turned(laying: Laying, turn: float, bearing: float, corner: StartCorner) -> Laying:
    """Return a laying with its courses in another direction; the line that they follow is kept, a turn added."""
    changed: dict[str, object] = {"start_corner": corner}
    if turn != bearing:
        turned = (laying.turn_deg + turn - bearing + 180.0) % 360.0 - 180.0
        changed["turn_deg"] = round(turned, 4)
    return laying.model_copy(update=changed)


def region_in(area: PlanArea, survey: Survey) -> Polygon:
    region = region_of(area, frame_of(area, survey))
    assert region is not None  # noqa: S101 - the gap at the edge is not changed by the search
    return region


def laid_as(area: PlanArea, laying: Laying) -> PlanArea:
    return replace(area, area=area.area.model_copy(update={"laying": laying}))


def finalists_of(ways: list[Way]) -> list[Way]:
    """Return the ways worth laying: the best of all, and the best of each direction and joint among them."""
    in_turn = sorted(ways, key=lambda way: way.score)
    best: dict[tuple[float, float, str], Way] = {}
    for way in in_turn:
        best.setdefault((way.laying.turn_deg, way.laying.joint_mm, repr(way.laying.border)), way)
    return each_once([*in_turn[: _LAID // 2], *best.values(), *in_turn])[:_LAID]


def each_once(ways: list[Way]) -> list[Way]:
    """Return the ways, each laying once."""
    return list({way.laying.model_dump_json(): way for way in ways}.values())
