"""Dates against each other: a start before the job was written down, readings before the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words_job as words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.survey._figures import SurveyFigures

_PLACE = "calendar"


def dates(job: Job, figures: SurveyFigures) -> Iterator[Finding]:
    """Give dates that cannot follow each other so.

    Args:
        job: The job with its dates.
        figures: Figures of the survey.
    """
    written, start, laid = job.identity.date, job.calendar.start, job.as_laid
    if start is None:
        return
    long = figures.start_within_days
    days = (start - written).days
    if days > long.value or days < -long.value:
        message = words.start_far_off(start, written)
        yield Finding(Code.START_DATE, Severity.STOP, _PLACE, message, float(days), long.value, "days", long)
    elif days < 0 and laid is None:
        message = words.start_before_document(start, written)
        yield Finding(Code.START_DATE, Severity.CHECK, _PLACE, message, float(days), 0.0, "days")
    if laid is not None and laid.date < start:
        message = words.laid_before_start(laid.date, start)
        yield Finding(Code.LAID_BEFORE_START, Severity.CHECK, "readings as laid", message)
