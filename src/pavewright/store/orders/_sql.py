"""How far a job is, as one expression of the database: its kept state, moved on by links that stand beside it."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.order_book import ACCEPTED_DAYS, JobState
from pavewright.store._tables import ACCEPTANCES, JOBS, QUOTATION_LINKS, QUOTATION_QUESTIONS
from pavewright.store.orders._tables import DUE_FACTS, ORDER_LINES

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


def state_of_a_due() -> sa.ColumnElement[Any]:
    """Return how far the job of a due day is, of a row of due days alone."""
    due, links = DUE_FACTS.c, QUOTATION_LINKS.c
    given = sa.exists(sa.select(links.id).where(links.job_id == due.job_id, links.withdrawn.is_(None)))
    moved = due.state.in_(_BEFORE_A_LINK) & (due.by_hand == sa.false()) & given
    return sa.case((moved, JobState.QUOTED.value), else_=due.state)


def put_away() -> sa.CompoundSelect[Any]:
    """Return the jobs that are in the archive or deleted: each part is one stretch of an index."""
    archived = sa.select(JOBS.c.id).where(JOBS.c.deleted.is_(None), JOBS.c.archived == sa.true())
    return sa.union_all(archived, sa.select(JOBS.c.id).where(JOBS.c.deleted.is_not(None)))


def open_link(today: dt.date) -> sa.ColumnElement[bool]:
    """Return whether a link holds on a day and nobody accepted its job, of a row of links."""
    links = QUOTATION_LINKS.c
    answered = sa.exists(sa.select(ACCEPTANCES.c.job_id).where(ACCEPTANCES.c.job_id == links.job_id))
    return links.withdrawn.is_(None) & (links.expires >= today.isoformat()) & ~answered


def with_the_customer(today: dt.date) -> sa.CompoundSelect[Any]:
    """Return the jobs of which links or questions say that something is due, beside what is kept of them."""
    links = sa.select(QUOTATION_LINKS.c.job_id).where(open_link(today))
    since = (today - dt.timedelta(days=ACCEPTED_DAYS)).isoformat()
    accepted = sa.select(ACCEPTANCES.c.job_id).where(ACCEPTANCES.c.at >= since)
    asked = sa.select(QUOTATION_QUESTIONS.c.job_id).where(QUOTATION_QUESTIONS.c.answer.is_(None))
    return sa.union_all(links, accepted, asked)
