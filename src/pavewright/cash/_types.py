"""What the cash room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.findings import Finding
    from pavewright.job import PaymentEvent
    from pavewright.sums import Working


class FlowKind(StrEnum):
    """What money is for."""

    PAYMENT = "payment"
    RETENTION = "retention"
    LABOUR = "labour"
    PLANT = "plant"
    MATERIAL = "material"
    DISPOSAL = "disposal"
    PROVISIONAL = "provisional"
    OVERHEAD = "overhead"
    TAX = "tax"
    PURCHASE_TAX = "purchase_tax"


@dataclass(frozen=True, slots=True)
class Payment:
    """A payment of the customer.

    Attributes:
        event: When it falls due: what can be seen then.
        on: Day on which that is so, by the programme; None while there are no dates.
        paid_on: Day on which the money is there, by the days to pay.
        gross_minor: Its part of the price with tax.
        held_minor: What is held back of it.
        freed_minor: What was held back before and is freed with it.
        due_minor: What is paid.
    """

    event: PaymentEvent
    on: dt.date | None
    paid_on: dt.date | None
    gross_minor: int
    held_minor: int
    freed_minor: int
    due_minor: int


@dataclass(frozen=True, slots=True)
class Flow:
    """Money that comes in or goes out.

    Attributes:
        on: Day.
        kind: What for.
        amount_minor: How much; negative where it goes out.
        description: In words.
    """

    on: dt.date
    kind: FlowKind
    amount_minor: int
    description: str


@dataclass(frozen=True, slots=True)
class CashDay:
    """A day on which money moves.

    Attributes:
        on: Day.
        in_minor: What comes in.
        out_minor: What goes out, tax that is set aside with it.
        balance_minor: What there is at its end, from zero before the job.
    """

    on: dt.date
    in_minor: int
    out_minor: int
    balance_minor: int


@dataclass(frozen=True)
class Cash:
    """Payments of the customer and the curve of the cash of a job.

    Attributes:
        payments: Payments, in order.
        flows: Money in and out, by day.
        days: The curve, on each day on which money moves.
        lowest_minor: Its lowest point; zero where it never falls below zero.
        lowest_on: The day of it; None where it never falls below zero.
        findings: What was noticed.
        workings: What it rests on.
    """

    payments: tuple[Payment, ...]
    flows: tuple[Flow, ...]
    days: tuple[CashDay, ...]
    lowest_minor: int
    lowest_on: dt.date | None
    findings: tuple[Finding, ...]
    workings: tuple[Working, ...]
