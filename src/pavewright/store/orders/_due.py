"""What may be due near a day, read from kept lines and from the links of quotations."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.order_book import MOST_AHEAD_DAYS, SILENT_DAYS, DueFact, DueKind, JobDues, JobState
from pavewright.store._tables import ACCEPTANCES, JOBS, QUOTATION_LINKS, QUOTATION_QUESTIONS
from pavewright.store.orders._sql import effective_state
from pavewright.store.orders._tables import DUE_FACTS, ORDER_LINES

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

_DAY = 10
"""Letters of a day at the beginning of a time."""


def dues_in(connection: Connection, today: dt.date) -> tuple[JobDues, ...]:
    """Return what may be due in every job near a day, by one query for each thing that knows of days.

    Args:
        connection: Over which to read.
        today: The day.
    """
    facts: dict[str, list[DueFact]] = defaultdict(list)
    for job_id, fact in (*_kept(connection, today), *_silent(connection, today), *_asked(connection)):
        facts[job_id].append(fact)
    here = JOBS.c.deleted.is_(None) & (JOBS.c.archived == sa.false())
    line = ORDER_LINES.c
    with_something = sa.select(JOBS.c.id, JOBS.c.title, effective_state().label("state"), line.currency, line.place)
    with_something = with_something.select_from(JOBS.outerjoin(ORDER_LINES, ORDER_LINES.c.job_id == JOBS.c.id))
    rows = connection.execute(with_something.where(here)).all() if facts else []
    return tuple(
        JobDues(row.id, row.title, _state(row.state), row.currency or "", tuple(facts[row.id]), row.place or "")
        for row in rows
        if row.id in facts
    )


def _state(word: str | None) -> JobState | None:
    return None if word is None else JobState(word)


def _kept(connection: Connection, today: dt.date) -> list[tuple[str, DueFact]]:
    table = DUE_FACTS.c
    near = (today + dt.timedelta(days=MOST_AHEAD_DAYS)).isoformat()
    still = table.until.is_(None) | (table.until >= today.isoformat())
    rows = connection.execute(sa.select(DUE_FACTS).where(table.on <= near, still)).all()
    return [(row.job_id, _fact(row)) for row in rows]


def _fact(row: Any) -> DueFact:  # noqa: ANN401 - a row of what falls due
    until = None if row.until is None else dt.date.fromisoformat(row.until)
    on = dt.date.fromisoformat(row.on)
    count: int = row._mapping["count"]  # noqa: SLF001 - a row has a method of this name
    return DueFact(DueKind(row.kind), row.key, on, until, row.what, row.amount_minor, count)


def _silent(connection: Connection, today: dt.date) -> list[tuple[str, DueFact]]:
    """Give the quotations that a customer has and did not answer: the last open link of each job."""
    table = QUOTATION_LINKS.c
    answered = sa.exists(sa.select(ACCEPTANCES.c.job_id).where(ACCEPTANCES.c.job_id == table.job_id))
    query = sa.select(table.id, table.job_id, table.made, table.seen, table.expires, table.opens)
    query = query.where(table.withdrawn.is_(None), table.expires >= today.isoformat(), ~answered)
    found: dict[str, DueFact] = {}
    lapsing = []
    for row in connection.execute(query.order_by(table.made)).all():
        made, expires = dt.date.fromisoformat(row.made[:_DAY]), dt.date.fromisoformat(row.expires)
        seen = None if row.seen is None else dt.date.fromisoformat(row.seen[:_DAY])
        due = made + dt.timedelta(days=SILENT_DAYS)
        found[row.job_id] = DueFact(DueKind.SILENT, "quotation", due, None, count=int(row.opens), seen_on=seen)
        lapsing.append((row.job_id, DueFact(DueKind.PRICE_LAPSING, "price", expires)))
    return [*found.items(), *lapsing]


def _asked(connection: Connection) -> list[tuple[str, DueFact]]:
    """Give the questions of customers that nobody answered, one line for each job with the oldest."""
    table = QUOTATION_QUESTIONS.c
    query = sa.select(table.job_id, table.at, table.words).where(table.answer.is_(None)).order_by(table.at, table.id)
    oldest: dict[str, Any] = {}
    counts: dict[str, int] = defaultdict(int)
    for row in connection.execute(query).all():
        oldest.setdefault(row.job_id, row)
        counts[row.job_id] += 1
    return [(job, _question(row.at, row.words, counts[job])) for job, row in oldest.items()]


def _question(at: str, words: str, count: int) -> DueFact:
    return DueFact(DueKind.QUESTION, "question", dt.date.fromisoformat(at[:_DAY]), None, words, None, count)
