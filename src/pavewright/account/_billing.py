"""The next bill: a stage, a part, a variation, the rest, what was held back, or a credit note."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright.account._account import account, since
from pavewright.account._bill_findings import credits_of
from pavewright.account._refusals import NotBilled, NotBilledError
from pavewright.account._tax import charged_percent, gross_of, negated, summed, tax_within, way_of
from pavewright.account._types import AgreedKind
from pavewright.cash import stage_amounts
from pavewright.cost import exact, shared_out, to_minor
from pavewright.job import PaymentEvent
from pavewright.job.agreed import Bill, BillKind, TaxedSum, VariationState

if TYPE_CHECKING:
    from pavewright.account._types import Account
    from pavewright.job import Job, TaxRounding
    from pavewright.job.agreed import Accepted

_WHOLE = 100


def stage_bill(job: Job, stage: int, on: dt.date, words: str = "") -> Bill:
    """Return the bill of a payment that was agreed: its part of what was accepted, with options.

    Args:
        job: The job.
        stage: Which of the payments, from 1.
        on: Date of the bill.
        words: What it is for.

    Raises:
        NotBilledError: there is no such payment, it was billed, or nothing is left.
    """
    given, found = _accepted(job), account(job)
    if not 1 <= stage <= len(given.stages):
        raise NotBilledError(NotBilled.NO_SUCH_STAGE)
    if any(each.stage == stage and _stands(job, each) for each in job.bills):
        raise NotBilledError(NotBilled.STAGE_BILLED)
    total = found.of_kind(AgreedKind.QUOTATION) + found.of_kind(AgreedKind.OPTION)
    gross = stage_amounts(total, given.stages)[stage - 1]
    event = given.stages[stage - 1].event
    return _made(job, found, BillKind.STAGE, _part_of(found, gross, given.tax_rounding), on, event, words, stage=stage)


def part_bill(job: Job, gross_minor: int, on: dt.date, words: str = "") -> Bill:
    """Return a bill of a sum with tax, whatever stage it is.

    Raises:
        NotBilledError: nothing was accepted, or it is more than is left.
    """
    given, found = _accepted(job), account(job)
    sums = _part_of(found, gross_minor, given.tax_rounding)
    return _made(job, found, BillKind.STAGE, sums, on, PaymentEvent.LAID, words)


def variation_bill(job: Job, number: int, on: dt.date, words: str = "") -> Bill:
    """Return the bill of an approved variation by itself.

    Raises:
        NotBilledError: it is not in the register, not approved, billed before, or it saves money.
    """
    _accepted(job)
    found = account(job)
    variation = next((each for each in job.variations if each.number == number), None)
    if variation is None:
        raise NotBilledError(NotBilled.NO_SUCH_VARIATION)
    if variation.state is not VariationState.APPROVED:
        raise NotBilledError(NotBilled.NOT_APPROVED)
    if (variation.decided_on or variation.on) > on:
        raise NotBilledError(NotBilled.DATED_BEFORE)
    if any(each.variation == number and _stands(job, each) for each in job.bills):
        raise NotBilledError(NotBilled.VARIATION_BILLED)
    if any(part.net_minor < 0 for part in variation.sums) or gross_of(variation.sums) <= 0:
        raise NotBilledError(NotBilled.SAVES)
    left = {way_of(part): part for part in found.to_bill}
    if any(part.gross_minor > left[way_of(part)].gross_minor for part in variation.sums):
        raise NotBilledError(NotBilled.MORE_THAN_LEFT)
    sums = tuple(_within(left[way_of(part)], part.gross_minor, part.tax_minor) for part in variation.sums)
    made = _made(job, found, BillKind.VARIATION, sums, on, PaymentEvent.LAID, words)
    return made.model_copy(update={"variation": number})


def final_bill(job: Job, on: dt.date, words: str = "") -> Bill:
    """Return the bill of all that is left, to the penny, with the part of the retention that completion frees.

    Raises:
        NotBilledError: nothing was accepted, something is not decided or settled, or was later, or nothing is left.
    """
    _accepted(job)
    found = account(job)
    if found.proposed or found.unsettled:
        raise NotBilledError(NotBilled.STILL_OPEN)
    if any(since(job, line) > on for line in found.agreed):
        raise NotBilledError(NotBilled.DATED_BEFORE)
    left = tuple(part for part in found.to_bill if part.net_minor or part.tax_minor)
    if any(part.net_minor < 0 or part.tax_minor < 0 for part in left):
        raise NotBilledError(NotBilled.CREDIT_FIRST)
    if gross_of(left) <= 0:
        raise NotBilledError(NotBilled.NOTHING_LEFT)
    return _made(job, found, BillKind.FINAL, left, on, PaymentEvent.COMPLETE, words)


def retention_bill(job: Job, on: dt.date, words: str = "") -> Bill:
    """Return the bill of all that is still held back.

    Raises:
        NotBilledError: nothing was accepted, or nothing is held.
    """
    given, found = _accepted(job), account(job)
    if found.held_minor <= 0:
        raise NotBilledError(NotBilled.NOTHING_HELD)
    return Bill(
        number=len(job.bills) + 1,
        kind=BillKind.RETENTION,
        on=on,
        due_on=_due(on, given),
        words=words,
        freed_minor=found.held_minor,
    )


def credit_note(job: Job, number: int, on: dt.date, words: str, gross_minor: int | None = None) -> Bill:
    """Return a credit note for a bill, or for a part of it.

    Args:
        job: The job.
        number: Number of the bill.
        on: Date of the credit note.
        words: Why it is credited.
        gross_minor: How much of it, with tax; all that is left of it where none is given. [minor units]

    Raises:
        NotBilledError: there is no such bill, or it is more than is left of it.
    """
    given = _accepted(job)
    bill = next((each for each in job.bills if each.number == number and each.kind is not BillKind.CREDIT), None)
    if bill is None or not bill.sums:
        raise NotBilledError(NotBilled.NO_SUCH_BILL)
    left = summed((*bill.sums, *negated(credits_of(job, number, len(job.bills)))))
    whole = gross_of(left)
    gross = whole if gross_minor is None else gross_minor
    if not 0 < gross <= whole:
        raise NotBilledError(NotBilled.MORE_THAN_BILLED)
    notes = [each for each in job.bills if each.kind is BillKind.CREDIT and each.credits == number]
    held = bill.held_minor - sum(each.held_minor for each in notes)
    return Bill(
        number=len(job.bills) + 1,
        kind=BillKind.CREDIT,
        on=on,
        credits=number,
        words=words,
        sums=_split(left, gross, given.tax_rounding),
        held_minor=held if gross == whole else to_minor(Fraction(held * gross, whole)),
    )


def _accepted(job: Job) -> Accepted:
    if job.accepted is None:
        raise NotBilledError(NotBilled.NOT_ACCEPTED)
    return job.accepted


def _stands(job: Job, bill: Bill) -> bool:
    """Return whether a bill is none that was credited in full."""
    if bill.kind is BillKind.CREDIT:
        return False
    return gross_of(credits_of(job, bill.number, len(job.bills))) < gross_of(bill.sums)


def _due(on: dt.date, given: Accepted) -> dt.date:
    return on + dt.timedelta(days=given.days_to_pay or 0)


def _part_of(found: Account, gross: int, way: TaxRounding) -> tuple[TaxedSum, ...]:
    """Return a sum with tax, shared out over what is left to bill."""
    left = gross_of(part for part in found.to_bill if part.gross_minor > 0)
    if left <= 0 or found.to_bill_minor <= 0:
        raise NotBilledError(NotBilled.NOTHING_LEFT)
    if not 0 < gross <= min(left, found.to_bill_minor):
        raise NotBilledError(NotBilled.MORE_THAN_LEFT)
    return _split(tuple(part for part in found.to_bill if part.gross_minor > 0), gross, way)


def _split(left: tuple[TaxedSum, ...], gross: int, way: TaxRounding) -> tuple[TaxedSum, ...]:
    """Return a sum with tax by the ways in which what is left is taxed, in proportion; what is left of one in whole."""
    shares = shared_out(gross, [max(part.gross_minor, 0) for part in left])
    return tuple(
        _share(part, share, way) for part, share in zip(left, shares, strict=True) if share or part.gross_minor == share
    )


def _share(part: TaxedSum, gross: int, way: TaxRounding) -> TaxedSum:
    return part if gross == part.gross_minor else _within(part, gross, tax_within(gross, charged_percent(part), way))


def _within(left: TaxedSum, gross: int, tax: int) -> TaxedSum:
    """Return a sum with its tax, neither more than is left of it: pennies of rounding go the other way."""
    mine = min(max(tax, gross - left.net_minor), left.tax_minor)
    return left.model_copy(update={"net_minor": gross - mine, "tax_minor": mine})


def _made(
    job: Job,
    found: Account,
    kind: BillKind,
    sums: tuple[TaxedSum, ...],
    on: dt.date,
    event: PaymentEvent,
    words: str,
    stage: int | None = None,
) -> Bill:
    given = _accepted(job)
    held, freed = _retention(job, found, given, gross_of(sums), event)
    return Bill(
        number=len(job.bills) + 1,
        kind=kind,
        on=on,
        due_on=_due(on, given),
        stage=stage,
        words=words,
        sums=sums,
        held_minor=held,
        freed_minor=freed,
    )


def _retention(job: Job, found: Account, given: Accepted, gross: int, event: PaymentEvent) -> tuple[int, int]:
    """Return what is held back of a bill, and what is freed with it: nothing is held once completion freed a part."""
    done = any(each.freed_minor for each in job.bills)
    if not given.retention_percent or done or event is PaymentEvent.SNAG_FREE:
        return 0, 0
    rate = exact(given.retention_percent) / _WHOLE
    held = to_minor((found.billed_minor + gross) * rate) - found.held_minor
    if event is not PaymentEvent.COMPLETE:
        return held, 0
    return held, to_minor((found.held_minor + held) * exact(given.retention_freed_percent) / _WHOLE)
