"""What is said to hold a side against what stands there: an outline turned round moves every side by one corner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright.findings import Finding, Severity
from pavewright.job import EdgeRestraint
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words_job as words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import EdgeSide
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import PlanArea, Survey

_MOST = 0.5
"""A side stands at a thing where more than this part of it lies beside it. [-]"""
_WORDS = {EdgeRestraint.KERB: "a kerb", EdgeRestraint.EDGING: "an edging", EdgeRestraint.HAUNCH: "a haunch"}
"""What is built to hold a side that no wall holds."""


def restraints(survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give sides held by a wall where none stands, by old paving where none lies, and kerbs along a house wall.

    Args:
        survey: The site.
        figures: Figures of the survey.
    """
    for area in survey.site.areas:
        for edge in area.area.edges:
            yield from _of_side(area, edge, survey, figures)


def _of_side(area: PlanArea, edge: EdgeSide, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    side = area.side_from(edge.corner)
    line = LineString([side.start.xy, side.end.xy])
    if side.start.rise_mm or line.length == 0.0:
        return
    figure = figures.beside_mm
    walls = [LineString([wall.start, wall.end]) for wall in survey.site.walls]
    bounds = [LineString([each.start, each.end]) for each in survey.site.boundaries]
    houses = [LineString([wall.start, wall.end]) for wall in survey.site.walls if wall.is_house]
    name = f"side {side.start.name}–{side.end.name} of {area.name}"
    wrong = ""
    if edge.restraint is EdgeRestraint.WALL and not _beside(line, [*walls, *bounds], figure.value):
        wrong = words.HELD_BY_NO_WALL
    elif edge.restraint is EdgeRestraint.EXISTING and not _beside(
        line, [*walls, *_paved(area, survey), *bounds], figure.value
    ):
        wrong = words.HELD_BY_NOTHING
    elif edge.restraint in _WORDS and _beside(line, houses, figure.value):
        wrong = words.held_along_house(_WORDS[edge.restraint])
    if wrong:
        message = words.side_strange(name, wrong, area.name)
        yield Finding(Code.SIDE_STRANGE, Severity.CHECK, name, message, figure=figure, at_mm=side.start.xy)


def _paved(area: PlanArea, survey: Survey) -> list[LineString]:
    """Return the edges of what is paved beside an area."""
    ties = [LineString([tie.start, tie.end]) for tie in survey.site.tie_ins]
    others = [other.gross.polygon.exterior.coords for other in survey.site.areas if other.name != area.name]
    return [*ties, *(LineString(each) for each in others)]


def _beside(side: LineString, lines: list[LineString], within_mm: float) -> bool:
    """Return whether most of a side lies beside some lines."""
    along = sum(side.intersection(line.buffer(within_mm, cap_style="flat")).length for line in lines)
    return bool(along > _MOST * side.length)
