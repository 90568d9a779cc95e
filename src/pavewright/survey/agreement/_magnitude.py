"""All levels of one job have one magnitude."""

from __future__ import annotations

import statistics
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words as words
from pavewright.survey.agreement._units_of_length import looks_like

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import Survey

_ENOUGH = 3
"""So many levels tell where the middle is."""


def far_levels(job: Job, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give levels that lie far from all others of the job, whether they were read or written down.

    Args:
        job: The job, for the levels asked for.
        survey: Its points and what stands on the site.
        figures: Figures of the survey.
    """
    figure = figures.levels_reach_mm
    found = [(what, level) for what, level in _levels(job, survey) if level is not None]
    if len(found) < _ENOUGH:
        return
    middle = statistics.median(level for _, level in found)
    for what, level in found:
        if abs(level - middle) <= figure.value:
            continue
        fits = looks_like(level, middle - figure.value, middle + figure.value)
        yield Finding(
            Code.LEVEL_FAR_OFF,
            Severity.STOP,
            what,
            words.level_far_off(what, level, middle, fits),
            value=level - middle,
            limit=figure.value,
            unit="mm",
            figure=figure,
        )


def _levels(job: Job, survey: Survey) -> Iterator[tuple[str, float | None]]:
    for point in survey.points:
        yield f"The level of point {point.name} by {point.levelled_words}", point.level_mm
    for wall in survey.site.walls:
        yield f"The damp-proof course of wall {wall.name}", wall.dpc_level_mm
        for door in wall.openings:
            yield f"The threshold of {door.name}", door.threshold_level_mm
        for brick in wall.air_bricks:
            yield f"The underside of air brick {brick.name}", brick.underside_level_mm
    for cover in survey.site.covers:
        yield f"The level of cover {cover.cover.name}", cover.level_mm
    for gully in survey.site.gullies:
        yield f"The grating of {gully.gully.name}", gully.gully.grating_level_mm
    for tie in survey.site.tie_ins:
        yield f"The start of edge {tie.name}", tie.start_level_mm
        yield f"The end of edge {tie.name}", tie.end_level_mm
    for area in job.areas:
        yield f"The level asked for {area.name}", area.fall.level_mm
    for number, reading in enumerate(job.as_laid.readings if job.as_laid is not None else (), start=1):
        yield f"The reading as laid {reading.label or number}", reading.level_mm
