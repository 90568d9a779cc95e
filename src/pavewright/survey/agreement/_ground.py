"""Spot levels of the ground against their neighbours, and covers, gratings and edges against the ground."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words as words
from pavewright.survey.agreement._neighbours import strangers

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import Survey, SurveyedPoint


def ground_spots(job: Job, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give spot levels that the spots about them do not bear out.

    A spot on a break line is not judged: there the ground is meant to turn. Where there are break lines, the others are
    judged by the spots that they can be joined to without crossing one.

    Args:
        job: The job, for the names of its spots.
        survey: Its points with their levels.
        figures: Figures of the survey.
    """
    points = {point.name: point for point in survey.points}
    names = dict.fromkeys(job.measurements.ground_spots)
    spots = [points[name] for name in names if name in points and points[name].level_mm is not None]
    spots = list({spot.xy: spot for spot in reversed(spots)}.values())[::-1]
    breaks = [
        LineString([points[name].xy for name in line.points if name in points])
        for line in job.measurements.break_lines
        if sum(name in points for name in line.points) > 1
    ]
    on_breaks = {name for line in job.measurements.break_lines for name in line.points}
    reported: set[str] = set()
    for group in _groups(spots, breaks, on_breaks):
        for finding, name in _of_group(group, on_breaks, figures):
            if name not in reported:
                reported.add(name)
                yield finding


def _of_group(
    group: Sequence[SurveyedPoint], on_breaks: set[str], figures: SurveyFigures
) -> Iterator[tuple[Finding, str]]:
    chance, least = figures.spot_chance_percent, figures.spot_min_mm
    stop = figures.spot_stop_mm.value
    places = tuple((*spot.xy, spot.level_mm or 0.0) for spot in group)
    for each in strangers(places, chance.value / 100.0, least.value):
        spot = group[each.number]
        if spot.name in on_breaks or spot.level_mm is None:
            continue
        off = spot.level_mm - each.foretold_mm
        severity = Severity.STOP if abs(off) > stop else Severity.CHECK
        finding = Finding(
            Code.SPOT_AGAINST_NEIGHBOURS,
            severity,
            f"point {spot.name}",
            words.spot_against_neighbours(spot, spot.level_mm, each.foretold_mm, each.sd_mm),
            value=off,
            limit=2.0 * each.sd_mm,
            unit="mm",
            figure=chance,
            at_mm=spot.xy,
        )
        yield finding, spot.name


def _groups(
    spots: Sequence[SurveyedPoint], breaks: Sequence[LineString], on_breaks: set[str]
) -> Iterator[Sequence[SurveyedPoint]]:
    """Give the spots that are judged together: all of them, or those between break lines with the lines about them."""
    if not breaks:
        yield spots
        return
    waiting = [spot for spot in spots if spot.name not in on_breaks]
    turning = [spot for spot in spots if spot.name in on_breaks]
    while waiting:
        group, waiting = [waiting[0]], waiting[1:]
        for spot in group:
            seen = [each for each in waiting if not any(_line(spot, each).intersects(line) for line in breaks)]
            group += seen
            waiting = [each for each in waiting if each not in seen]
        yield [*group, *(spot for spot in turning if any(_is_seen(spot, each, breaks) for each in group))]


def _is_seen(on_break: SurveyedPoint, spot: SurveyedPoint, breaks: Sequence[LineString]) -> bool:
    """Return whether a spot on a break line can be joined to another that meets no break line but there."""
    end = Point(on_break.xy)
    contacts = [_line(spot, on_break).intersection(line) for line in breaks]
    return all(contact.is_empty or (isinstance(contact, Point) and contact.distance(end) < 1.0) for contact in contacts)


def _line(one: SurveyedPoint, other: SurveyedPoint) -> LineString:
    return LineString([one.xy, other.xy])


def things_in_the_ground(survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give covers, gratings and edges of paving that lie far above or below the ground beside them.

    Args:
        survey: The site with its ground.
        figures: Figures of the survey.
    """
    if survey.ground is None:
        return
    figure = figures.thing_from_ground_mm
    for what, at, level in _things(survey):
        ground = survey.ground.level_at(at)
        if level is None or ground is None or abs(level - ground) <= figure.value:
            continue
        yield Finding(
            Code.THING_AGAINST_GROUND,
            Severity.CHECK,
            what,
            words.thing_against_ground(what, level, ground),
            value=level - ground,
            limit=figure.value,
            unit="mm",
            figure=figure,
            at_mm=at,
        )


def _things(survey: Survey) -> Iterator[tuple[str, XY, float | None]]:
    """Give name, place and level of what lies in the ground and shows at its top."""
    for cover in survey.site.covers:
        yield f"cover {cover.cover.name}", cover.at, cover.level_mm
    for gully in survey.site.gullies:
        yield f"the grating of {gully.gully.name}", gully.at, gully.gully.grating_level_mm
    for tie in survey.site.tie_ins:
        yield f"edge {tie.name} at its start", tie.start, tie.start_level_mm
        yield f"edge {tie.name} at its end", tie.end, tie.end_level_mm
