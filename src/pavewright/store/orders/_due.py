"""What may be due near a day, read from kept lines and from the links of quotations."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.order_book import (
    ACCEPTED_DAYS,
    MONEY_KINDS,
    MOST_AHEAD_DAYS,
    SHOWN,
    SILENT_DAYS,
    DueFact,
    DueKind,
    JobDues,
    JobState,
    due_items,
    place_in_list,
)
from pavewright.store._tables import ACCEPTANCES, JOBS, QUOTATION_LINKS, QUOTATION_QUESTIONS
from pavewright.store.orders._sql import effective_state, open_link, put_away, state_of_a_due, with_the_customer
from pavewright.store.orders._tables import DUE_FACTS, ORDER_LINES
from pavewright.store.orders._types import DueList

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

_DAY = 10
"""Letters of a day at the beginning of a time."""


def dues_in(connection: Connection, today: dt.date, *, customers: bool = False) -> tuple[JobDues, ...]:
    """Return what may be due in every job near a day, by one query for each thing that knows of days.

    Args:
        connection: Over which to read.
        today: The day.
        customers: Whether only jobs are wanted of which links or questions say something.
    """
    only = with_the_customer(today) if customers else None
    facts: dict[str, list[DueFact]] = defaultdict(list)
    for job_id, fact in (*_kept(connection, today, only), *_silent(connection, today), *_answered(connection, today)):
        facts[job_id].append(fact)
    here = JOBS.c.deleted.is_(None) & (JOBS.c.archived == sa.false())
    line = ORDER_LINES.c
    with_something = sa.select(JOBS.c.id, JOBS.c.title, effective_state().label("state"), line.currency, line.place)
    with_something = with_something.select_from(JOBS.outerjoin(ORDER_LINES, ORDER_LINES.c.job_id == JOBS.c.id))
    if only is not None:
        with_something = with_something.where(JOBS.c.id.in_(only))
    rows = connection.execute(with_something.where(here)).all() if facts else []
    return tuple(
        JobDues(row.id, row.title, _state(row.state), row.currency or "", tuple(facts[row.id]), row.place or "")
        for row in rows
        if row.id in facts
    )


def due_list_in(connection: Connection, today: dt.date, limit: int, *, money: bool) -> DueList:
    """Return the first things that are due, and how many there are.

    How many is counted from an index; of the list only its first days are read. Jobs of which links or questions say
    something are looked at one by one.

    Args:
        connection: Over which to read.
        today: The day.
        limit: So many are listed. [-]
        money: Whether who asks may see money.
    """
    shown, due = _shown(today, money=money), DUE_FACTS.c
    with_customers = due_items(dues_in(connection, today, customers=True), today, money=money)
    count = connection.execute(sa.select(sa.func.count()).select_from(DUE_FACTS).where(shown)).scalar_one()
    last = sa.select(due.on).where(shown).order_by(due.on).offset(max(0, limit - 1)).limit(1)
    until = connection.execute(last).scalar_one_or_none()
    first = shown if until is None else shown & (due.on <= until)
    rows = sa.select(DUE_FACTS, state_of_a_due().label("now"), JOBS.c.title, ORDER_LINES.c.currency)
    rows = rows.select_from(
        DUE_FACTS.join(JOBS, JOBS.c.id == due.job_id).join(ORDER_LINES, ORDER_LINES.c.job_id == due.job_id)
    )
    kept = (
        JobDues(row.job_id, row.title, _state(row.now), row.currency, (_fact(row),), row.place)
        for row in connection.execute(rows.where(first)).all()
    )
    items = sorted(
        (*due_items(kept, today, money=money), *with_customers), key=lambda each: place_in_list(each, money=money)
    )
    return DueList(int(count) + len(with_customers), tuple(items[:limit]))


def due_places_in(connection: Connection, today: dt.date, *, money: bool) -> dict[str, int]:
    """Return how many things are due in each place where any is.

    Args:
        connection: Over which to read.
        today: The day.
        money: Whether who asks may see money.
    """
    place = DUE_FACTS.c.place
    query = sa.select(place, sa.func.count()).where(_shown(today, money=money)).group_by(place)
    found = {str(row[0]): int(row[1]) for row in connection.execute(query).all()}
    for item in due_items(dues_in(connection, today, customers=True), today, money=money):
        found[item.place] = found.get(item.place, 0) + 1
    return found


def _shown(today: dt.date, *, money: bool) -> sa.ColumnElement[bool]:
    """Return whether a kept day is told as due, as the order book tells it, of jobs that no customer has to answer."""
    due, state = DUE_FACTS.c, state_of_a_due()
    alike: dict[tuple[int, frozenset[JobState]], list[str]] = defaultdict(list)
    for kind, when in SHOWN.items():
        if money or kind not in MONEY_KINDS:
            alike[when.ahead_days, when.states].append(kind.value)
    kinds = [
        due.kind.in_(names)
        & (due.on <= (today + dt.timedelta(days=ahead)).isoformat())
        & (sa.true() if states == frozenset(JobState) else state.in_(sorted(states)))
        for (ahead, states), names in alike.items()
    ]
    still = due.until.is_(None) | (due.until >= today.isoformat())
    near = due.on <= (today + dt.timedelta(days=MOST_AHEAD_DAYS)).isoformat()
    return sa.and_(
        near, still, sa.or_(*kinds), due.job_id.not_in(with_the_customer(today)), due.job_id.not_in(put_away())
    )


def _state(word: str | None) -> JobState | None:
    return None if word is None else JobState(word)


def _kept(
    connection: Connection, today: dt.date, only: sa.CompoundSelect[Any] | None = None
) -> list[tuple[str, DueFact]]:
    table = DUE_FACTS.c
    near = (today + dt.timedelta(days=MOST_AHEAD_DAYS)).isoformat()
    still = table.until.is_(None) | (table.until >= today.isoformat())
    query = sa.select(DUE_FACTS).where(table.on <= near, still).order_by(table.job_id, table.number)
    rows = connection.execute(query if only is None else query.where(table.job_id.in_(only))).all()
    return [(row.job_id, _fact(row)) for row in rows]


def _fact(row: Any) -> DueFact:  # noqa: ANN401 - a row of what falls due
    until = None if row.until is None else dt.date.fromisoformat(row.until)
    on = dt.date.fromisoformat(row.on)
    count: int = row._mapping["count"]  # noqa: SLF001 - a row has a method of this name
    return DueFact(DueKind(row.kind), row.key, on, until, row.what, row.amount_minor, count)


def _silent(connection: Connection, today: dt.date) -> list[tuple[str, DueFact]]:
    """Give the quotations that a customer has and did not answer: the last open link of each job."""
    table = QUOTATION_LINKS.c
    query = sa.select(table.id, table.job_id, table.made, table.seen, table.expires, table.opens)
    query = query.where(open_link(today))
    found: dict[str, DueFact] = {}
    lapsing = []
    for row in connection.execute(query.order_by(table.made)).all():
        made, expires = dt.date.fromisoformat(row.made[:_DAY]), dt.date.fromisoformat(row.expires)
        seen = None if row.seen is None else dt.date.fromisoformat(row.seen[:_DAY])
        due = made + dt.timedelta(days=SILENT_DAYS)
        found[row.job_id] = DueFact(DueKind.SILENT, "quotation", due, None, count=int(row.opens), seen_on=seen)
        lapsing.append((row.job_id, DueFact(DueKind.PRICE_LAPSING, "price", expires)))
    return [*found.items(), *lapsing]


def _answered(connection: Connection, today: dt.date) -> list[tuple[str, DueFact]]:
    """Give what customers sent by their links: questions, and what they accepted lately."""
    return [*_asked(connection), *_accepted(connection, today)]


def _accepted(connection: Connection, today: dt.date) -> list[tuple[str, DueFact]]:
    """Give what customers accepted in the last days, one line for each job."""
    table = ACCEPTANCES.c
    since = (today - dt.timedelta(days=ACCEPTED_DAYS)).isoformat()
    rows = connection.execute(sa.select(table.job_id, table.at).where(table.at >= since).order_by(table.at)).all()
    found = {row.job_id: dt.date.fromisoformat(row.at[:_DAY]) for row in rows}
    lasting = dt.timedelta(days=ACCEPTED_DAYS)
    return [(job, DueFact(DueKind.ACCEPTED, "accepted", on, on + lasting)) for job, on in found.items()]


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
