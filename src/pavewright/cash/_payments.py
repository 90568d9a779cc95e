"""Payments by stages: what each is, what is held back of it, and when it is there."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright.cash._types import Payment
from pavewright.job import PaymentEvent, StagePayment

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import Job, Terms

_HALF = Fraction(1, 2)
_WHOLE = 100


def stage_amounts(total_minor: int, stages: Sequence[StagePayment]) -> list[int]:
    """Return the parts of a price by stages, whole minor units, so that they add up to the price.

    Args:
        total_minor: Price with tax. [minor units]
        stages: Parts of the price, sums, or the rest of it.

    >>> stage_amounts(10_001, [StagePayment(event=PaymentEvent.DEPOSIT, percent=33.3),
    ...                        StagePayment(event=PaymentEvent.COMPLETE, percent=66.7)])
    [3330, 6671]
    """
    found: list[int] = []
    share, given = Fraction(0), 0
    for stage in stages:
        if stage.percent is not None:
            before = _rounded(share * total_minor / _WHOLE)
            share += Fraction(repr(stage.percent))
            found.append(_rounded(share * total_minor / _WHOLE) - before)
        else:
            found.append(stage.amount_minor or 0)
        given += found[-1]
    resting = [n for n, stage in enumerate(stages) if stage.percent is None and stage.amount_minor is None]
    for number in resting[:1]:
        found[number] = total_minor - given
    return found


def retained(
    gross: Sequence[int], complete: int, retention_percent: float, freed_percent: float
) -> tuple[list[int], list[int], int]:
    """Return what is held back of each payment, what is freed with each, and what is left to the end.

    Args:
        gross: Payments before anything is held back. [minor units]
        complete: Which of them falls due when the work is complete, from 0.
        retention_percent: Part that is held back. [%]
        freed_percent: Part of what is held that is freed at completion. [%]

    Source: surveyors_retention

    >>> retained([450_000, 450_000, 300_000], 2, 5.0, 50.0)
    ([22500, 22500, 15000], [0, 0, 30000], 30000)
    """
    rate = Fraction(repr(retention_percent)) / _WHOLE
    held: list[int] = []
    for number in range(len(gross)):
        until = sum(gross[: number + 1])
        held.append(_rounded(until * rate) - sum(held) if number <= complete else 0)
    freed = [0] * len(gross)
    if gross:
        freed[complete] = _rounded(sum(held) * Fraction(repr(freed_percent)) / _WHOLE)
    return held, freed, sum(held) - sum(freed)


def _rounded(amount: Fraction) -> int:
    return (amount + _HALF).__floor__()


def terms_of(job: Job) -> Terms:
    """Return the terms that hold: once a quotation is accepted, its stages, what is held back and the days to pay."""
    given = job.accepted
    if given is None:
        return job.terms
    names = ("stages", "retention_percent", "retention_freed_percent", "days_to_pay")
    return job.terms.model_copy(update={name: getattr(given, name) for name in names})


def accepted_minor(job: Job) -> int | None:
    """Return what was accepted, with the options taken and with tax; None where nothing was. [minor units]."""
    given = job.accepted
    if given is None:
        return None
    sums = (*given.sums, *(each for option in given.options for each in option.sums))
    return sum(each.gross_minor for each in sums)


def payments(
    total_minor: int, terms: Terms, dates: Mapping[PaymentEvent, dt.date], agreed_minor: int | None = None
) -> tuple[Payment, ...]:
    """Return the payments of a price; all of it on completion where no stages are stated.

    Args:
        total_minor: Price with tax. [minor units]
        terms: Stages, what is held back, and the days to pay.
        dates: When each thing can be seen; empty while there are no dates.
        agreed_minor: What was accepted, of which the stages are parts: what the price has come to since is paid with
            the last of them before the snags. None where nothing was accepted. [minor units]
    """
    stages = terms.stages or (StagePayment(event=PaymentEvent.COMPLETE),)
    gross = stage_amounts(total_minor if agreed_minor is None else agreed_minor, stages)
    before = [n for n, stage in enumerate(stages) if stage.event is not PaymentEvent.SNAG_FREE]
    gross[before[-1] if before else -1] += total_minor - sum(gross) if agreed_minor is not None else 0
    held, freed, left = [0] * len(gross), [0] * len(gross), 0
    if before and terms.retention_percent:
        held, freed, left = retained(gross, before[-1], terms.retention_percent, terms.retention_freed_percent)
    days = dt.timedelta(days=terms.days_to_pay or 0)
    found = []
    for number, stage in enumerate(stages):
        on = dates.get(stage.event)
        due = gross[number] - held[number] + freed[number]
        paid = None if on is None else on + days
        found.append(Payment(stage.event, on, paid, gross[number], held[number], freed[number], due))
    if left:
        on = dates.get(PaymentEvent.SNAG_FREE)
        found.append(Payment(PaymentEvent.SNAG_FREE, on, None if on is None else on + days, 0, 0, left, left))
    return tuple(found)


def holds_until(job: Job) -> dt.date | None:
    """Return the last day on which a price holds, from the day of the quotation or of the job; None where none is."""
    if job.terms.valid_days is None:
        return None
    begins = job.identity.date if job.quoted is None else job.quoted.on
    return begins + dt.timedelta(days=job.terms.valid_days)
