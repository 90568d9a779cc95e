"""Levels that somebody has to read and nobody did: said as not known, with all that hangs on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.findings import Finding, Severity
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
            hangs = "the paving is not held to it" if cover.cover.fixed else "how far to set its frame is not known"
            words = f"The level of cover {cover.cover.name} was not read: {hangs}. Read the staff on it."
            yield Code.COVER_NOT_READ, f"cover {cover.cover.name}", words, Point(cover.at)
    for tie in features.tie_ins:
        ends = (("start", tie.start_level_mm), ("end", tie.end_level_mm))
        missing = " and ".join(end for end, level in ends if level is None)
        if missing:
            words = (
                f"The level of edge {tie.name} was not read at its {missing}: the paving is not held to it, and how it "
                f"meets what lies beyond was not checked. Read the staff there."
            )
            yield Code.EDGE_NOT_READ, f"edge {tie.name}", words, LineString((tie.start, tie.end))


def _of_wall(wall: PlanWall) -> Iterator[tuple[Code, str, str, BaseGeometry]]:
    line = LineString((wall.start, wall.end))
    if wall.is_house and wall.dpc_level_mm is None:
        words = (
            f"The damp-proof course of wall {wall.name} was not read: how far the paving stays below it was not "
            f"checked. Read the staff on it; if it is a garden wall, write garden as its kind."
        )
        yield Code.DPC_NOT_READ, f"wall {wall.name}", words, line
    for door in wall.openings:
        if door.threshold_level_mm is None:
            words = f"The threshold of {door.name} was not read: the step there was not checked. Read the staff on it."
            yield Code.THRESHOLD_NOT_READ, door.name, words, LineString((door.start, door.end))
    for brick in wall.air_bricks:
        if brick.underside_level_mm is None:
            words = (
                f"The underside of air brick {brick.name} was not read: whether the paving stays below it was not "
                f"checked. Read the staff there."
            )
            yield Code.AIR_BRICK_NOT_READ, f"air brick {brick.name}", words, Point(brick.at)
