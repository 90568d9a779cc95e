"""What is due, against a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.standing import JobState
from pavewright.order_book._due_types import MONEY_KINDS, DueItem, DueKind, DueWhen
from pavewright.order_book._states import ENDS, OPEN_STATES, PRICING_STATES

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.order_book._due_types import DueFact, JobDues


@dataclass(frozen=True, slots=True)
class Shown:
    """When a kind of due thing is shown.

    Attributes:
        ahead_days: So many days before its day it is shown. [days]
        states: In which states of a job it matters.
    """

    ahead_days: int
    states: frozenset[JobState]


_ALL = frozenset(JobState) - ENDS
_ON_SITE = frozenset({JobState.ON_SITE})
SHOWN: dict[DueKind, Shown] = {
    DueKind.QUESTION: Shown(0, frozenset(JobState)),
    DueKind.ACCEPTED: Shown(0, _ALL),
    DueKind.VISIT: Shown(1, _ALL),
    DueKind.STARTS: Shown(1, OPEN_STATES - _ON_SITE),
    DueKind.HOLD_POINT: Shown(0, _ON_SITE),
    DueKind.CURE_ENDED: Shown(0, _ON_SITE),
    DueKind.ORDER_BY: Shown(2, OPEN_STATES),
    DueKind.PRICE_LAPSING: Shown(7, PRICING_STATES),
    DueKind.SILENT: Shown(0, frozenset({JobState.QUOTED})),
    DueKind.BILL_OWING: Shown(0, _ALL),
    DueKind.PAYMENT_OUT: Shown(7, OPEN_STATES | {JobState.SNAGGING}),
    DueKind.SNAG_LATE: Shown(0, _ALL),
    DueKind.LATER_VISIT: Shown(7, _ALL),
}
"""When each kind is shown: common practice of an office, not a rule of any standard."""
ACCEPTED_DAYS = 7
"""What a customer accepted is shown for so many days: common practice. [days]"""
SILENT_DAYS = 7
"""A quotation without an answer is due so many days after it was sent: common practice. [days]"""
MOST_AHEAD_DAYS = max(shown.ahead_days for shown in SHOWN.values())
"""Nothing that falls due later than so many days from today is shown. [days]"""


def due_items(jobs: Iterable[JobDues], today: dt.date, *, money: bool = True) -> tuple[DueItem, ...]:
    """Return what is due in all jobs, each thing once: by day, what is past first.

    Of one day the kinds come in their order, the most pressing first; of one kind the largest amount comes first, each
    currency by itself and what has no amount last; then by the name of the job.

    Args:
        jobs: What may be due in each job.
        today: The day against which it is due.
        money: Whether who asks may see money; without it what is about money alone is left out, with every amount.
    """
    found: dict[tuple[str, DueKind, str], DueItem] = {}
    for job in jobs:
        for fact in job.dues:
            if _is_shown(fact, job.state, today) and (money or fact.kind not in MONEY_KINDS):
                found[job.job_id, fact.kind, fact.key] = _item(job, fact, today)
    return tuple(sorted(found.values(), key=lambda each: place_in_list(each, money=money)))


_KINDS = tuple(DueKind)


def place_in_list(item: DueItem, *, money: bool) -> tuple[dt.date, int, bool, str, int, str, str, str]:
    """Return what items are sorted by; who may not see money is told nothing of amounts by their order either.

    Args:
        item: What is due.
        money: Whether who asks may see money.
    """
    amount = item.fact.amount_minor if money else None
    at_stake = (True, "", 0) if amount is None else (False, item.currency, -amount)
    return (item.fact.on, _KINDS.index(item.fact.kind), *at_stake, item.title, item.job_id, item.fact.key)


def _is_shown(fact: DueFact, state: JobState | None, today: dt.date) -> bool:
    shown = SHOWN[fact.kind]
    if state is not None and state not in shown.states:
        return False
    ended = fact.until is not None and fact.until < today
    return not ended and fact.on - dt.timedelta(days=shown.ahead_days) <= today


def _item(job: JobDues, fact: DueFact, today: dt.date) -> DueItem:
    days = (fact.on - today).days
    past = DueWhen.TODAY if fact.kind is DueKind.ACCEPTED else DueWhen.LATE  # news is not late
    when = past if days < 0 else DueWhen.TODAY if days == 0 else DueWhen.SOON
    return DueItem(job.job_id, job.title, job.currency, fact, when, days, job.place)
