"""Dates against each other: a start before the job was written down, readings before the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code

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
    long = figures.start_within_days
    days = (start - written).days
    if days > long.value or days < -long.value:
        words = (
            f"Work starts on {start} and this document is dated {written}, {abs(days)} days "
            f"{'later' if days > 0 else 'earlier'}: check the year of both."
        )
        yield Finding(Code.START_DATE, Severity.STOP, _PLACE, words, float(days), long.value, "days", long)
    elif days < 0 and laid is None:
        words = (
            f"Work starts on {start}, before this document is dated, {written}, and nothing is read as laid yet: check "
            f"both dates."
        )
        yield Finding(Code.START_DATE, Severity.CHECK, _PLACE, words, float(days), 0.0, "days")
    if laid is not None and laid.date < start:
        words = f"The levels as laid are dated {laid.date}, before work starts on {start}: check both dates."
        yield Finding(Code.LAID_BEFORE_START, Severity.CHECK, "readings as laid", words)
