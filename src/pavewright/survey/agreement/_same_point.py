"""Things with a level that was written down and a reading of the staff on the same point."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.job import AssumedLevel
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words as words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job, LevelOrPoint
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import Survey


def read_twice(job: Job, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give covers, gratings and edges whose written level is not the one that was read on their point.

    Args:
        job: The job, as it was written.
        survey: Its points with their levels.
        figures: Figures of the survey.
    """
    figure, stop = figures.same_point_mm, figures.same_point_stop_mm
    points = {point.name: point for point in survey.points}
    for what, name, level in _written(job):
        point = points.get(name)
        written = level.assumed_mm if isinstance(level, AssumedLevel) else level
        if written is None or isinstance(written, str) or point is None or point.level_mm is None:
            continue
        off = written - point.level_mm
        if abs(off) <= figure.value:
            continue
        severity = Severity.STOP if abs(off) > stop.value else Severity.CHECK
        yield Finding(
            Code.LEVEL_AGAINST_READING,
            severity,
            f"{what}, point {name}",
            words.level_against_reading(what, written, point, point.level_mm),
            value=off,
            limit=figure.value,
            unit="mm",
            figure=figure,
            at_mm=point.xy,
        )


def _written(job: Job) -> Iterator[tuple[str, str, LevelOrPoint | None]]:
    """Give owner, point and written level of everything that stands on one point."""
    for cover in job.site.covers:
        yield f"cover {cover.name}", cover.point, cover.level_mm
    for gully in job.site.gullies:
        yield f"the grating of {gully.name}", gully.point, gully.grating_level_mm
    for edge in job.site.tie_ins:
        yield f"edge {edge.name} at its start", edge.start, edge.start_level_mm
        yield f"edge {edge.name} at its end", edge.end, edge.end_level_mm
