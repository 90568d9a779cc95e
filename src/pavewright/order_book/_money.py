"""Money of a job by its days: bills that are owing, payments still to be billed, what goes out."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from typing import TYPE_CHECKING

from pavewright.cash import FlowKind
from pavewright.order_book._due_types import DueFact, DueKind, MoneyGap, MoneyWeek

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account import Account
    from pavewright.cash import Cash
    from pavewright.job import Job
    from pavewright.job.agreed import Bill
    from pavewright.pipeline import PlanSoFar

_BOUGHT = frozenset({FlowKind.MATERIAL, FlowKind.PLANT, FlowKind.DISPOSAL})
"""What is paid to others by their terms."""


def owing_bills(found: Account) -> Iterator[DueFact]:
    """Give the bills that are not paid, with what is owing of each: money that came in pays the oldest first.

    Args:
        found: The account of the job.
    """
    for bill, owing_minor in _owing(found):
        due = (bill.due_on or bill.on) + dt.timedelta(days=1)  # it is owing from the day after
        yield DueFact(DueKind.BILL_OWING, f"bill.{bill.number}", due, what=str(bill.number), amount_minor=owing_minor)


def _owing(found: Account) -> Iterator[tuple[Bill, int]]:
    """Give the bills that are not paid in full and what is owing of each, together what is owing of the account."""
    paid = found.paid_minor - sum(min(0, each.due_minor) for each in found.bills)
    for standing in found.bills:
        asked = max(0, standing.due_minor)
        covered = min(asked, max(0, paid))
        paid -= covered
        if asked > covered:
            yield standing.bill, asked - covered


def payments_out(cash: Cash | None) -> Iterator[DueFact]:
    """Give what goes out to suppliers, hire firms and carriers, one for each day.

    Args:
        cash: The cash of the job; None where it is not known.
    """
    days: dict[dt.date, int] = defaultdict(int)
    for flow in () if cash is None else cash.flows:
        if flow.kind in _BOUGHT and flow.amount_minor < 0:
            days[flow.on] -= flow.amount_minor
    for on, amount_minor in sorted(days.items()):
        yield DueFact(DueKind.PAYMENT_OUT, f"out.{on.isoformat()}", on, on, amount_minor=amount_minor)


def money_weeks(job: Job, found: Account, cash: Cash | None) -> tuple[MoneyWeek, ...]:
    """Return the money of a job by weeks: what bills ask for, what is still to be billed, what goes out.

    Args:
        job: The job.
        found: Its account.
        cash: Its cash; None where it is not known: then bills alone are told.
    """
    owing: dict[dt.date, int] = defaultdict(int)
    expected: dict[dt.date, int] = defaultdict(int)
    out: dict[dt.date, int] = defaultdict(int)
    for bill, amount_minor in _owing(found):
        owing[_monday(bill.due_on or bill.on)] += amount_minor
    if cash is not None:
        billed = {bill.stage for bill in job.bills if bill.stage is not None}
        for number, payment in enumerate(cash.payments, 1):
            if number not in billed and payment.paid_on is not None and not found.is_final:
                expected[_monday(payment.paid_on)] += payment.due_minor
        for flow in cash.flows:
            if flow.amount_minor < 0:
                out[_monday(flow.on)] -= flow.amount_minor
    weeks = sorted({*owing, *expected, *out})
    return tuple(MoneyWeek(week, owing[week], expected[week], out[week]) for week in weeks)


def money_gaps(made: PlanSoFar) -> tuple[MoneyGap, ...]:
    """Return why money of a job is not known, or not all of it.

    Args:
        made: Its plan, as far as it goes.
    """
    found = []
    if made.cost is None or not made.cost.lines:
        found.append(MoneyGap.NO_PRICE)
    elif made.cost.gaps:
        found.append(MoneyGap.PRICE_GAPS)
    if made.programme is None:
        found.append(MoneyGap.NO_DATES)
    if not made.job.terms.stages:
        found.append(MoneyGap.NO_STAGES)
    return tuple(found)


def _monday(day: dt.date) -> dt.date:
    return day - dt.timedelta(days=day.weekday())
