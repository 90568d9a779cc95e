"""How a job is written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.writing import Writing

if TYPE_CHECKING:
    from pavewright.job._document import Job


def writing_of(job: Job) -> Writing:
    """Return how numbers, dates and measures of a job are written."""
    who = job.identity
    return Writing.of(who.locality, who.currency, who.region, who.measure)
