"""How far a job is, as one expression of the database: its kept state, moved on by links that stand beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.order_book import JobState
from pavewright.store._tables import JOBS, QUOTATION_LINKS
from pavewright.store.orders._tables import ORDER_LINES

if TYPE_CHECKING:
    from collections.abc import Sequence

ROWS: Sequence[sa.ColumnElement[Any]] = (
    *(JOBS.c[name] for name in ("id", "rev", "title", "archived", "changed", "summary", "summary_rev")),
    *(ORDER_LINES.c[name] for name in ("facts", "place", "holds_until", "owing_minor")),
)
"""What a list shows of a job."""
_BEFORE_A_LINK = (JobState.ENQUIRY.value, JobState.VISIT.value)


def linked() -> sa.ColumnElement[bool]:
    """Return whether a link to its quotation was given to the customer and not withdrawn, of a row of jobs."""
    links = QUOTATION_LINKS.c
    found = sa.select(links.id).where(links.job_id == JOBS.c.id, links.withdrawn.is_(None))
    return sa.exists(found.correlate(JOBS))


def effective_state() -> sa.ColumnElement[Any]:
    """Return how far a job is, of a row of jobs with its line; null while that is not worked out."""
    line = ORDER_LINES.c
    moved = (line.by_hand == sa.false()) & line.state.in_(_BEFORE_A_LINK) & linked()
    return sa.case((moved, JobState.QUOTED.value), else_=line.state)
