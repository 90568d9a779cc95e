"""The order book of a store: lists of jobs by state, place and person, what may be due, money by weeks.

Everything is asked of kept lines, never of documents: ten thousand jobs are listed by one query.
"""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.order_book import ENDS, OPEN_STATES, JobState, facts_back
from pavewright.store._tables import JOBS
from pavewright.store._types import JobRow
from pavewright.store.orders._due import due_list_in, due_places_in, dues_in
from pavewright.store.orders._sql import ROWS, effective_state, linked, put_away
from pavewright.store.orders._tables import DUE_FACTS, MONEY_WEEKS, OF_A_JOB, ORDER_LINES
from pavewright.store.orders._types import DueList, FirmMoney, FirmWeek, JobsAsked, JobsPage, ListedJob, Shelf, SortedBy

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    from pavewright.order_book import JobDues

    _Opens = Callable[[], AbstractContextManager[Connection]]

_MONEY_STATES = OPEN_STATES | {JobState.SNAGGING}
"""States in which what the programme expects is taken for sure enough to be added up."""
_BY: dict[SortedBy, sa.ColumnElement[Any]] = {
    SortedBy.CHANGED: JOBS.c.changed.desc(),
    SortedBy.TITLE: sa.func.lower(JOBS.c.title),
    SortedBy.STAGE: sa.func.coalesce(ORDER_LINES.c.stage, -1).desc(),
    SortedBy.STOPS: sa.func.coalesce(ORDER_LINES.c.stops, 0).desc(),
    SortedBy.PRICE: sa.func.coalesce(ORDER_LINES.c.total_minor, -1).desc(),
}


def keep_line(connection: Connection, job_id: str, rev: int, book: Mapping[str, Any] | None) -> None:
    """Keep what the order book asks of a job, in place of what was kept.

    Args:
        connection: Over which to write.
        job_id: The job.
        rev: The revision for which it was worked out.
        book: What was worked out; None where it could not be: then nothing is kept.
    """
    for table in OF_A_JOB:
        connection.execute(table.delete().where(table.c.job_id == job_id))
    if book is None:
        return
    line = {"job_id": job_id, "rev": rev, "facts": json.dumps(book["facts"]), "gaps": json.dumps(book["gaps"])}
    names = ("state", "by_hand", "place", "holds_until", "owing_minor", "currency", "stage", "stops", "total_minor")
    line |= {name: book[name] for name in names} | {"people": "\n".join(book["people"]).casefold()}
    connection.execute(ORDER_LINES.insert().values(line))
    # beside each day stands what is asked of it, so that lists are told from an index; of one kind and key the last
    once = {(each["kind"], each["key"]): each for each in book["dues"]}.values()
    told = {name: book[name] for name in ("state", "by_hand", "place")}
    dues = [{"job_id": job_id, "number": number} | told | each for number, each in enumerate(once)]
    of_week = {"job_id": job_id, "currency": book["currency"], "state": book["state"]}
    weeks = [of_week | each for each in book["weeks"]]
    for table, rows in ((DUE_FACTS, dues), (MONEY_WEEKS, weeks)):
        if rows:
            connection.execute(table.insert(), rows)


class Orders:
    """The order book of one store."""

    def __init__(self, reading: _Opens) -> None:
        """Keep how the store gives a connection to read by."""
        self._reading = reading

    def page(self, asked: JobsAsked) -> JobsPage:
        """Return a page of the jobs that are wanted, with how many there are in each state."""
        state = effective_state()
        wanted = sa.and_(*_wanted(asked))
        of_state = sa.and_(*_of_state(asked, state))
        lines = JOBS.outerjoin(ORDER_LINES, ORDER_LINES.c.job_id == JOBS.c.id)
        query = sa.select(*ROWS, linked().label("linked")).select_from(lines).where(wanted, of_state)
        query = query.order_by(_BY[asked.sort], JOBS.c.changed.desc(), JOBS.c.id)
        counted = sa.select(state, sa.func.count()).select_from(lines).where(wanted).group_by(state)
        with self._reading() as connection:
            rows = connection.execute(query.offset(asked.start).limit(asked.limit)).all()
            counts = connection.execute(counted).all()
        states = {None if row[0] is None else JobState(row[0]): int(row[1]) for row in counts}
        chosen = asked.state is not None or asked.unsaid
        total = states.get(asked.state, 0) if chosen else sum(states.values())
        return JobsPage(tuple(_listed(row) for row in rows), total, states)

    def places(self) -> dict[str, int]:
        """Return the places of jobs that are neither archived nor deleted, with how many there are in each."""
        line = ORDER_LINES.c
        query = sa.select(line.place, sa.func.count()).where(line.job_id.not_in(put_away()))
        with self._reading() as connection:
            found = connection.execute(query.group_by(ORDER_LINES.c.place).order_by(ORDER_LINES.c.place)).all()
        return {str(row[0]): int(row[1]) for row in found}

    def stale(self, limit: int) -> tuple[tuple[str, int], ...]:
        """Return jobs whose line is not that of their revision, the one changed last first, with their revisions."""
        behind = JOBS.c.summary_rev.is_(None) | (JOBS.c.summary_rev != JOBS.c.rev)
        query = sa.select(JOBS.c.id, JOBS.c.rev).where(behind, *_on(Shelf.JOBS)).order_by(JOBS.c.changed.desc())
        with self._reading() as connection:
            return tuple((str(row.id), int(row.rev)) for row in connection.execute(query.limit(limit)).all())

    def dues(self, today: dt.date) -> tuple[JobDues, ...]:
        """Return what may be due in every job near a day, what the links of quotations say among it."""
        with self._reading() as connection:
            return dues_in(connection, today)

    def due_list(self, today: dt.date, limit: int, *, money: bool) -> DueList:
        """Return the first things that are due in all jobs, and how many there are.

        Args:
            today: The day.
            limit: So many are listed. [-]
            money: Whether who asks may see money.
        """
        with self._reading() as connection:
            return due_list_in(connection, today, limit, money=money)

    def due_places(self, today: dt.date, *, money: bool) -> dict[str, int]:
        """Return how many things are due in each place where any is.

        Args:
            today: The day.
            money: Whether who asks may see money.
        """
        with self._reading() as connection:
            return due_places_in(connection, today, money=money)

    def money(self, since: dt.date) -> FirmMoney:
        """Return the money of all jobs by weeks, each currency by itself, and the jobs of which not all is known.

        What bills ask for is told whatever its week; what the programme expects from a day on, for jobs that are under
        way.

        Args:
            since: The Monday of the first week.
        """
        week, line = MONEY_WEEKS.c, ORDER_LINES.c
        of_work = [each.value for each in _MONEY_STATES]
        sure, later = week.state.in_(of_work), week.week >= since.isoformat()
        sums = (
            sa.func.sum(week.owing_minor),
            sa.func.sum(sa.case((sure & later, week.expected_minor), else_=0)),
            sa.func.sum(sa.case((sure & later, week.out_minor), else_=0)),
        )
        by, lost = (week.week, week.currency), week.state.in_([each.value for each in ENDS])
        query = sa.select(*by, *sums).where(week.job_id.not_in(put_away()), ~lost).group_by(*by).order_by(*by)
        unknown = sa.select(JOBS.c.id, JOBS.c.title, line.gaps).select_from(
            ORDER_LINES.join(JOBS, JOBS.c.id == line.job_id)
        )
        unknown = unknown.where(line.state.in_(of_work), line.gaps != "[]", line.job_id.not_in(put_away()))
        unknown = unknown.order_by(JOBS.c.title, JOBS.c.id)
        with self._reading() as connection:
            weeks = connection.execute(query).all()
            gaps = connection.execute(unknown).all()
        found = (FirmWeek(dt.date.fromisoformat(row[0]), row[1], *map(int, row[2:])) for row in weeks)
        told = tuple(each for each in found if each.owing_minor or each.expected_minor or each.out_minor)
        return FirmMoney(told, tuple((row.id, row.title, tuple(json.loads(row.gaps))) for row in gaps))


def _on(shelf: Shelf) -> tuple[sa.ColumnElement[bool], ...]:
    if shelf is Shelf.DELETED:
        return (JOBS.c.deleted.is_not(None),)
    return (JOBS.c.deleted.is_(None), JOBS.c.archived == (shelf is Shelf.ARCHIVED))


def _wanted(asked: JobsAsked) -> list[sa.ColumnElement[bool]]:
    found = [*_on(asked.shelf)]
    found += [JOBS.c.words.contains(word, autoescape=True) for word in asked.words.casefold().split()]
    if asked.place is not None:
        found.append(ORDER_LINES.c.place == asked.place)
    if asked.person.strip():
        found.append(ORDER_LINES.c.people.contains(asked.person.strip().casefold(), autoescape=True))
    if asked.owing:
        found.append(ORDER_LINES.c.owing_minor > 0)
    if asked.lapsing_until is not None:
        found.append(ORDER_LINES.c.holds_until >= asked.today.isoformat())
        found.append(ORDER_LINES.c.holds_until <= asked.lapsing_until.isoformat())
        found.append(effective_state() == JobState.QUOTED.value)
    return found


def _of_state(asked: JobsAsked, state: sa.ColumnElement[Any]) -> list[sa.ColumnElement[bool]]:
    if asked.unsaid:
        return [state.is_(None)]
    return [sa.true() if asked.state is None else state == asked.state.value]


def _listed(row: Any) -> ListedJob:  # noqa: ANN401 - a row of the columns of a list
    job = JobRow(row.id, row.rev, row.title, row.archived, row.changed, row.summary, row.summary_rev)
    if row.facts is None:
        return ListedJob(job, None, "", None, None)
    facts = facts_back(json.loads(row.facts) | ({"link_out": True} if row.linked else {}))
    until = None if row.holds_until is None else dt.date.fromisoformat(row.holds_until)
    return ListedJob(job, facts, row.place, until, int(row.owing_minor))
