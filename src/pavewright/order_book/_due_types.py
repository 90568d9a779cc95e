"""What may be due in a job, and money by weeks: what is known of it, whatever the day."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job.standing import JobState
    from pavewright.order_book._states import JobFacts


class DueKind(StrEnum):
    """What is due, the most pressing kind first."""

    QUESTION = "question"
    ACCEPTED = "accepted"
    VISIT = "visit"
    STARTS = "starts"
    HOLD_POINT = "hold_point"
    CURE_ENDED = "cure_ended"
    ORDER_BY = "order_by"
    PRICE_LAPSING = "price_lapsing"
    SILENT = "silent"
    BILL_OWING = "bill_owing"
    PAYMENT_OUT = "payment_out"
    SNAG_LATE = "snag_late"
    LATER_VISIT = "later_visit"


MONEY_KINDS = frozenset({DueKind.BILL_OWING, DueKind.PAYMENT_OUT})
"""Kinds that are about money alone."""


@dataclass(frozen=True, slots=True)
class DueFact:
    """A day of a job on which something falls due.

    Attributes:
        kind: What falls due.
        key: What makes it one among those of its kind in the job.
        on: Its day.
        until: The last day on which it matters; None where it stays until it is done.
        what: What it is about, as entered or as the plan calls it; empty where the kind says all.
        amount_minor: Money of it; None where none is known. [minor units]
        count: How many there are of it.
        seen_on: Of a quotation: the last day on which the customer opened it; None while he did not.
    """

    kind: DueKind
    key: str
    on: dt.date
    until: dt.date | None = None
    what: str = ""
    amount_minor: int | None = None
    count: int = 1
    seen_on: dt.date | None = None


@dataclass(frozen=True, slots=True)
class JobDues:
    """What may be due in one job.

    Attributes:
        job_id: The job.
        title: What it is called.
        state: How far it is; None while that is not known.
        currency: Money of its amounts.
        dues: Days on which something falls due.
        place: Where it is, as jobs are listed by; empty where that is not known.
    """

    job_id: str
    title: str
    state: JobState | None
    currency: str
    dues: tuple[DueFact, ...]
    place: str = ""


class DueWhen(StrEnum):
    """How a due day stands to today."""

    LATE = "late"
    TODAY = "today"
    SOON = "soon"


@dataclass(frozen=True, slots=True)
class DueItem:
    """Something that is due in a job.

    Attributes:
        job_id: The job.
        title: What it is called.
        currency: Money of its amount.
        fact: What falls due, and when.
        when: Whether its day is past, today or near.
        days: Days from today to its day; less than zero where it is past. [days]
        place: Where the job is, as jobs are listed by; empty where that is not known.
    """

    job_id: str
    title: str
    currency: str
    fact: DueFact
    when: DueWhen
    days: int
    place: str = ""


class MoneyGap(StrEnum):
    """Why the money of a job is not known."""

    NO_PRICE = "no_price"
    NO_DATES = "no_dates"
    NO_STAGES = "no_stages"
    PRICE_GAPS = "price_gaps"


@dataclass(frozen=True, slots=True)
class MoneyWeek:
    """Money of a job in one week.

    Attributes:
        week: Its Monday.
        owing_minor: What unpaid bills ask for, by their days. [minor units]
        expected_minor: What is still to be billed and then paid, by the programme. [minor units]
        out_minor: What goes out, by the programme and the terms of suppliers. [minor units]
    """

    week: dt.date
    owing_minor: int = 0
    expected_minor: int = 0
    out_minor: int = 0


@dataclass(frozen=True, slots=True)
class JobBook:
    """What the order book keeps of a job: everything that does not depend on the day on which somebody looks.

    Attributes:
        facts: Facts from which its state follows.
        place: Where it is, as jobs are listed by; empty where the address names no place.
        people: Names of people who have to do with it, as entered.
        holds_until: Last day on which its price holds; None where that is not stated.
        owing_minor: What bills ask for and has not come in. [minor units]
        currency: Money of its amounts.
        dues: Days on which something falls due.
        weeks: Money by weeks.
        gaps: Why money of it is not known; empty where it is.
    """

    facts: JobFacts
    place: str
    people: tuple[str, ...]
    holds_until: dt.date | None
    owing_minor: int
    currency: str
    dues: tuple[DueFact, ...] = ()
    weeks: tuple[MoneyWeek, ...] = ()
    gaps: tuple[MoneyGap, ...] = field(default=())
