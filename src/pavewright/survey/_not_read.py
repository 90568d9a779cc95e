"""Levels that somebody has to read and nobody did: said as not known, with all that hangs on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.findings import Finding, Severity
from pavewright.survey import _words as words
from pavewright.survey._codes import Code

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from shapely.geometry.base import BaseGeometry

    from pavewright.geometry import XY
    from pavewright.rules import Figure
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types import PlanArea, PlanWall
    from pavewright.survey.edges import Features


def tell_not_read(features: Features, areas: Sequence[PlanArea], figures: SurveyFigures, remarks: Remarks) -> None:
    """Report every level that was not read: a stop where paving comes near it, else a check.

    Args:
        features: What stands on the site.
        areas: What is paved.
        figures: Figures of the survey.
        remarks: Where it is reported.
    """
    near = figures.matters_within_mm
    for code, place, message, shape in _not_read(features):
        close = any(area.gross.polygon.distance(shape) <= near.value for area in areas)
        severity = Severity.STOP if close else Severity.CHECK
        at = shape.representative_point()
        remarks.finding(_finding(code, severity, place, message, near, (at.x, at.y)))


def dpc_not_read(walls: Sequence[PlanWall], areas: Sequence[PlanArea], figures: SurveyFigures) -> tuple[str, ...]:
    """Return the names of the house walls beside the paving whose damp-proof course nobody read."""
    near = figures.matters_within_mm.value
    return tuple(
        wall.name
        for wall in walls
        if wall.is_house
        and wall.dpc_level_mm is None
        and any(area.gross.polygon.distance(LineString((wall.start, wall.end))) <= near for area in areas)
    )


def _finding(code: Code, severity: Severity, place: str, message: str, near: Figure, at: XY) -> Finding:
    return Finding(code, severity, place, message, figure=near, at_mm=at)


def _not_read(features: Features) -> Iterator[tuple[Code, str, str, BaseGeometry]]:
    """Give code, place, sentence and shape of everything whose level was not read."""
    for wall in features.walls:
        yield from _of_wall(wall)
    for cover in features.covers:
        if cover.level_mm is None:
            message = words.cover_not_read(cover.cover.name, fixed=cover.cover.fixed)
            yield Code.COVER_NOT_READ, f"cover {cover.cover.name}", message, Point(cover.at)
    for tie in features.tie_ins:
        start, end = tie.start_level_mm is None, tie.end_level_mm is None
        if start or end:
            message = words.edge_not_read(tie.name, start=start, end=end)
            yield Code.EDGE_NOT_READ, f"edge {tie.name}", message, LineString((tie.start, tie.end))


def _of_wall(wall: PlanWall) -> Iterator[tuple[Code, str, str, BaseGeometry]]:
    line = LineString((wall.start, wall.end))
    if wall.is_house and wall.dpc_level_mm is None:
        message = words.dpc_not_read(wall.name)
        yield Code.DPC_NOT_READ, f"wall {wall.name}", message, line
    for door in wall.openings:
        if door.threshold_level_mm is None:
            message = words.threshold_not_read(door.name)
            yield Code.THRESHOLD_NOT_READ, door.name, message, LineString((door.start, door.end))
    for brick in wall.air_bricks:
        if brick.underside_level_mm is None:
            message = words.air_brick_not_read(brick.name)
            yield Code.AIR_BRICK_NOT_READ, f"air brick {brick.name}", message, Point(brick.at)
