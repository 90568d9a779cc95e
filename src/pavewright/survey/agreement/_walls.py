"""Damp-proof courses against sills, air bricks, each other and the ground."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.geometry import distance, point_along
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words as words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import PlanWall, Survey

_STEP_MM = 500.0
"""The ground is looked at along a wall at places no further apart. [mm]"""


def walls(survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give walls whose damp-proof course does not agree with what is built beside it.

    Args:
        survey: The site.
        figures: Figures of the survey.
    """
    read = [(wall, wall.dpc_level_mm) for wall in survey.site.walls if wall.dpc_level_mm is not None]
    for wall, dpc_mm in read:
        yield from _sills(wall, dpc_mm, figures)
        yield from _air_bricks(wall, dpc_mm, figures)
        yield from _over_ground(wall, dpc_mm, survey, figures)
    for (first, first_mm), (second, second_mm) in itertools.combinations(read, 2):
        yield from _between(first, first_mm, second, second_mm, figures)


def _sills(wall: PlanWall, dpc_mm: float, figures: SurveyFigures) -> Iterator[Finding]:
    below, over = figures.sill_below_dpc_mm, figures.sill_over_dpc_mm
    for door in wall.openings:
        if door.threshold_level_mm is None:
            continue
        up = door.threshold_level_mm - dpc_mm
        if -below.value <= up <= over.value:
            continue
        # a damp-proof course far above its sill lets paving rise to the sill: that is the dangerous one
        severity = Severity.STOP if up < -figures.sill_below_dpc_stop_mm.value else Severity.CHECK
        figure = below if up < 0.0 else over
        courses = abs(up) / figures.course_mm.value
        message = words.sill_against_dpc(
            wall.name, door.name, (dpc_mm, door.threshold_level_mm), (below.value, over.value), courses
        )
        yield Finding(
            Code.SILL_AGAINST_DPC,
            severity,
            f"wall {wall.name}, {door.name}",
            message,
            value=up,
            limit=-below.value if up < 0.0 else over.value,
            unit="mm",
            figure=figure,
            at_mm=door.start,
        )


def _air_bricks(wall: PlanWall, dpc_mm: float, figures: SurveyFigures) -> Iterator[Finding]:
    figure = figures.air_brick_from_dpc_mm
    for brick in wall.air_bricks:
        if brick.underside_level_mm is None:
            continue
        off = brick.underside_level_mm - dpc_mm
        if abs(off) <= figure.value:
            continue
        message = words.air_brick_against_dpc(wall.name, dpc_mm, brick.name, brick.underside_level_mm, figure.value)
        yield Finding(
            Code.AIR_BRICK_AGAINST_DPC,
            Severity.STOP if off < 0.0 else Severity.CHECK,
            f"wall {wall.name}, air brick {brick.name}",
            message,
            value=off,
            limit=figure.value,
            unit="mm",
            figure=figure,
            at_mm=brick.at,
        )


def _between(
    first: PlanWall, first_mm: float, second: PlanWall, second_mm: float, figures: SurveyFigures
) -> Iterator[Finding]:
    """Give two walls of one house whose damp-proof courses differ by what is not a course of brick."""
    touching = figures.matters_within_mm.value
    ends = itertools.product((first.start, first.end), (second.start, second.end))
    off = abs(first_mm - second_mm)
    course, slack = figures.course_mm, figures.course_slack_mm.value
    steps = round(off / course.value)
    by_courses = abs(off - steps * course.value) <= slack and steps <= figures.dpc_steps_at_corner.value
    if by_courses or min(distance(one, other) for one, other in ends) > touching:
        return
    message = words.dpc_between_walls((first.name, second.name), (first_mm, second_mm), course.value)
    yield Finding(
        Code.DPC_BETWEEN_WALLS,
        Severity.CHECK,
        f"walls {first.name} and {second.name}",
        message,
        value=off,
        limit=slack,
        unit="mm",
        figure=course,
        at_mm=first.start,
    )


def _over_ground(wall: PlanWall, dpc_mm: float, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give a damp-proof course that lies far above, or far below, the ground all along its wall."""
    confirmed = any(door.threshold_level_mm is not None for door in wall.openings) or any(
        brick.underside_level_mm is not None for brick in wall.air_bricks
    )
    heights = _heights(wall, dpc_mm, survey)
    if not heights:
        if not confirmed and sum(each.dpc_level_mm is not None for each in survey.site.walls) == 1:
            message = words.dpc_alone(wall.name, dpc_mm)
            yield Finding(Code.DPC_ALONE, Severity.NOTE, f"wall {wall.name}", message, at_mm=wall.start)
        return
    high, low = figures.dpc_over_ground_mm, figures.dpc_under_ground_mm
    nearest, furthest = min(heights), max(heights)
    if -low.value <= furthest and nearest <= high.value:
        return
    over = nearest > high.value
    value, figure = (nearest, high) if over else (furthest, low)
    message = words.dpc_against_ground(wall.name, dpc_mm, value, figure.value, over=over)
    severity = Severity.CHECK if confirmed or not over else Severity.STOP
    yield Finding(
        Code.DPC_AGAINST_GROUND,
        severity,
        f"wall {wall.name}",
        message,
        value=value,
        limit=figure.value if over else -figure.value,
        unit="mm",
        figure=figure,
        at_mm=wall.start,
    )


def _heights(wall: PlanWall, dpc_mm: float, survey: Survey) -> list[float]:
    """Return how far the damp-proof course lies above the ground along a wall, where the ground was measured. [mm]."""
    if survey.ground is None:
        return []
    length = distance(wall.start, wall.end)
    count = max(2, int(length / _STEP_MM) + 1)
    places = [point_along(wall.start, wall.end, length * number / (count - 1)) for number in range(count)]
    levels = [survey.ground.level_at(place) for place in places]
    return [dpc_mm - level for level in levels if level is not None]
