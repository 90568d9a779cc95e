"""What the order book keeps of a job, from its plan as far as that goes."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.account import account
from pavewright.cash import holds_until
from pavewright.job.on_site import SnagState
from pavewright.job.standing import VisitKind
from pavewright.order_book._due_types import DueFact, DueKind, JobBook
from pavewright.order_book._facts import facts_of
from pavewright.order_book._money import money_gaps, money_weeks, owing_bills, payments_out
from pavewright.order_book._places import place_of
from pavewright.pipeline import cash_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook

_CURED_DAYS = 3
"""That a bay has hardened is told for so many days: then it is taken for known. [days]"""


def book_of(made: PlanSoFar, rules: Rulebook) -> JobBook:
    """Return what the order book keeps of a job.

    Args:
        made: Its plan, as far as it goes.
        rules: The rulebook of the plan.
    """
    job, found = made.job, account(made.job)
    cash = cash_of(made, rules)
    return JobBook(
        facts=facts_of(job),
        place=place_of(job.identity.address),
        people=tuple(dict.fromkeys(name for name in _people(job) if name.strip())),
        holds_until=holds_until(job),
        owing_minor=max(0, found.owing_minor),
        currency=found.currency,
        dues=(*_of_job(job), *_of_plan(made), *owing_bills(found), *payments_out(cash)),
        weeks=money_weeks(job, found, cash),
        gaps=money_gaps(made),
    )


def _people(job: Job) -> Iterator[str]:
    yield from (visit.by for visit in job.standing.visits)
    yield from (snag.owner for snag in job.snags)
    for log in job.site_days:
        yield log.written_by
        yield from (person.name for person in log.present)


def _of_job(job: Job) -> Iterator[DueFact]:
    """Give what falls due by the document alone."""
    for visit in job.standing.visits:
        if visit.done_on is None:
            kind = DueKind.LATER_VISIT if visit.kind is VisitKind.LATER else DueKind.VISIT
            yield DueFact(kind, visit.name, visit.on, what=visit.by)
    for snag in job.snags:
        if snag.state is SnagState.OPEN and snag.due is not None:
            yield DueFact(DueKind.SNAG_LATE, snag.name, snag.due + dt.timedelta(days=1), what=snag.what or snag.name)
    until = holds_until(job)
    if until is not None and job.accepted is None and job.quoted is not None:
        yield DueFact(DueKind.PRICE_LAPSING, "price", until)
    starts = job.calendar.start
    if starts is not None:
        yield DueFact(DueKind.STARTS, "start", starts)


def _of_plan(made: PlanSoFar) -> Iterator[DueFact]:
    """Give what falls due by the programme and the hold points."""
    if made.programme is None:
        return
    for delivery in made.programme.deliveries:
        if delivery.order_by is not None and not delivery.begun:
            key = f"{delivery.group.value}.{delivery.number}"
            what = delivery.supplier or ", ".join(line.description for line in delivery.items[:2])
            yield DueFact(DueKind.ORDER_BY, key, delivery.order_by, delivery.on, what, count=len(delivery.items))
    for number, cure in enumerate(made.programme.cures):
        ended = cure.ends.date()
        until = ended + dt.timedelta(days=_CURED_DAYS)
        yield DueFact(DueKind.CURE_ENDED, f"cure.{number}", ended, until, cure.description)
    waiting = [] if made.hold_points is None else [hold for hold in made.hold_points.holds if hold.is_open]
    if waiting:
        first = waiting[0]
        what = first.area or first.drain
        yield DueFact(DueKind.HOLD_POINT, first.key.text, made.programme.start, None, what, count=len(waiting))
