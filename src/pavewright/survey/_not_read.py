"""Levels that somebody has to read and nobody did: said as not known, with all that hangs on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.findings import Finding, Severity
from pavewright.survey import _words as words
from pavewright.survey._codes import Code
from pavewright.survey._types_known import LevelNotRead, NotRead

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from shapely.geometry.base import BaseGeometry

    from pavewright.geometry import XY
    from pavewright.job import Site
    from pavewright.rules import Figure
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types import PlanArea, PlanWall
    from pavewright.survey.edges import Features

    _Unread = tuple[NotRead, str, Code, str, str, BaseGeometry]


def tell_not_read(features: Features, areas: Sequence[PlanArea], figures: SurveyFigures, remarks: Remarks) -> None:
    """Report every level that was not read: a stop where paving comes near it, else a check.

    Args:
        features: What stands on the site.
        areas: What is paved.
        figures: Figures of the survey.
        remarks: Where it is reported.
    """
    near = figures.matters_within_mm
    for _, _, code, place, message, shape in _not_read(features):
        severity = Severity.STOP if _is_close(shape, areas, figures) else Severity.CHECK
        at = shape.representative_point()
        remarks.finding(_finding(code, severity, place, message, near, (at.x, at.y)))


def levels_not_read(
    site: Site, features: Features, areas: Sequence[PlanArea], figures: SurveyFigures
) -> tuple[LevelNotRead, ...]:
    """Return the levels near the paving that nobody read; all of them while no area is drawn."""
    paths = _paths(site)
    return tuple(
        LevelNotRead(what, name, paths[what, name])
        for what, name, _, _, _, shape in _not_read(features)
        if not areas or _is_close(shape, areas, figures)
    )


def _paths(site: Site) -> dict[tuple[NotRead, str], str]:
    """Return where the level of each thing stands in the document."""
    found = {(NotRead.DPC, wall.name): f"site.walls.{number}.dpc_level_mm" for number, wall in enumerate(site.walls)}
    for number, wall in enumerate(site.walls):
        for place, door in enumerate(wall.openings):
            path = f"site.walls.{number}.openings.{place}.threshold_level_mm"
            found[NotRead.THRESHOLD, door.name] = path
        for place, brick in enumerate(wall.air_bricks):
            path = f"site.walls.{number}.air_bricks.{place}.underside_level_mm"
            found[NotRead.AIR_BRICK, brick.name] = path
    found |= {(NotRead.COVER, each.name): f"site.covers.{number}.level_mm" for number, each in enumerate(site.covers)}
    return found | {(NotRead.EDGE, each.name): f"site.tie_ins.{number}" for number, each in enumerate(site.tie_ins)}


def _is_close(shape: BaseGeometry, areas: Sequence[PlanArea], figures: SurveyFigures) -> bool:
    """Return whether paving comes so near that a level matters."""
    return any(area.gross.polygon.distance(shape) <= figures.matters_within_mm.value for area in areas)


def dpc_not_read(walls: Sequence[PlanWall], areas: Sequence[PlanArea], figures: SurveyFigures) -> tuple[str, ...]:
    """Return the names of the house walls beside the paving whose damp-proof course nobody read."""
    return tuple(
        wall.name
        for wall in walls
        if wall.is_house and wall.dpc_level_mm is None and _is_close(LineString((wall.start, wall.end)), areas, figures)
    )


def _finding(code: Code, severity: Severity, place: str, message: str, near: Figure, at: XY) -> Finding:
    return Finding(code, severity, place, message, figure=near, at_mm=at)


def _not_read(features: Features) -> Iterator[_Unread]:
    """Give kind, name, code, place, sentence and shape of everything whose level was not read."""
    for wall in features.walls:
        yield from _of_wall(wall)
    for cover in features.covers:
        if cover.level_mm is None:
            message = words.cover_not_read(cover.cover.name, fixed=cover.cover.fixed)
            name = cover.cover.name
            yield NotRead.COVER, name, Code.COVER_NOT_READ, f"cover {name}", message, Point(cover.at)
    for tie in features.tie_ins:
        start, end = tie.start_level_mm is None, tie.end_level_mm is None
        if start or end:
            message = words.edge_not_read(tie.name, start=start, end=end)
            line = LineString((tie.start, tie.end))
            yield NotRead.EDGE, tie.name, Code.EDGE_NOT_READ, f"edge {tie.name}", message, line


def _of_wall(wall: PlanWall) -> Iterator[_Unread]:
    line = LineString((wall.start, wall.end))
    if wall.is_house and wall.dpc_level_mm is None:
        message = words.dpc_not_read(wall.name)
        yield NotRead.DPC, wall.name, Code.DPC_NOT_READ, f"wall {wall.name}", message, line
    for door in wall.openings:
        if door.threshold_level_mm is None:
            message = words.threshold_not_read(door.name)
            jambs = LineString((door.start, door.end))
            yield NotRead.THRESHOLD, door.name, Code.THRESHOLD_NOT_READ, door.name, message, jambs
    for brick in wall.air_bricks:
        if brick.underside_level_mm is None:
            message = words.air_brick_not_read(brick.name)
            place = f"air brick {brick.name}"
            yield NotRead.AIR_BRICK, brick.name, Code.AIR_BRICK_NOT_READ, place, message, Point(brick.at)
