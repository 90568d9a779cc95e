"""What is wrong with a bill, held against what was agreed and against the bills before it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.account import _words as words
from pavewright.account._codes import Code
from pavewright.account._tax import charged_percent, gross_of, negated, summed, tax_of, way_of
from pavewright.cost import to_minor
from pavewright.findings import Finding, Severity
from pavewright.job.agreed import BillKind, VariationState

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account._words import Said
    from pavewright.job import Job
    from pavewright.job.agreed import Bill, TaxedSum

_WHOLE = 100


def bill_findings(job: Job, place: int, agreed: tuple[TaxedSum, ...]) -> Iterator[Finding]:
    """Give what is wrong with the bill at a place among all of them.

    Args:
        job: The job.
        place: Which bill, from 0.
        agreed: All that is agreed.
    """
    found = (
        _of_itself(job, place),
        _of_dates(job, place),
        _against_agreed(job, place, agreed),
        _of_credit(job, place),
        _of_what_it_bills(job, place),
        _of_tax(job, place),
    )
    bill = job.bills[place]
    for each in found:
        for code, severity, (said, options) in each:
            yield Finding(code, severity, f"bill {bill.number}", said, options=options)


def _money(job: Job, amount: int) -> str:
    return units.minor_to_text(amount, job.identity.currency if job.accepted is None else job.accepted.currency)


def _of_itself(job: Job, place: int) -> Iterator[tuple[Code, Severity, Said]]:
    bill = job.bills[place]
    if bill.number != place + 1:
        yield Code.NUMBERS, Severity.STOP, words.numbers(bill.number, place + 1)
    if (
        any(part.net_minor < 0 or part.tax_minor < 0 for part in bill.sums)
        or bill.held_minor < 0
        or bill.freed_minor < 0
    ):
        yield Code.NEGATIVE, Severity.STOP, words.negative(bill.number)
    if not gross_of(bill.sums) and not bill.freed_minor:
        yield Code.NOTHING_BILLED, Severity.STOP, words.nothing_billed(bill.number)


def _of_dates(job: Job, place: int) -> Iterator[tuple[Code, Severity, Said]]:
    bill = job.bills[place]
    if place and bill.on < job.bills[place - 1].on:
        yield Code.DATES_TURN_BACK, Severity.CHECK, words.dates_turn_back(bill.number)
    if job.accepted is not None and bill.on < job.accepted.at.date():
        yield Code.BEFORE_ACCEPTED, Severity.CHECK, words.before_accepted(bill.number)


def _against_agreed(job: Job, place: int, agreed: tuple[TaxedSum, ...]) -> Iterator[tuple[Code, Severity, Said]]:
    """Give a bill that asks for more than was agreed, together or under one tax, or for what nobody accepted."""
    bill = job.bills[place]
    if job.accepted is None:
        yield Code.NOT_ACCEPTED, Severity.STOP, words.not_accepted(f"Bill {bill.number} asks for money")
        return
    if bill.kind is BillKind.CREDIT or not bill.sums:
        return
    until = summed(
        part
        for each in job.bills[: place + 1]
        for part in (negated(each.sums) if each.kind is BillKind.CREDIT else each.sums)
    )
    over = gross_of(until) - gross_of(agreed)
    if over > 0:
        said = words.over_billed(bill.number, _money(job, over), _money(job, gross_of(agreed)))
        yield Code.OVER_BILLED, Severity.STOP, said
        return
    allowed = {way_of(part): part for part in agreed}
    mine = {way_of(part) for part in bill.sums}
    for part in until:
        most = allowed.get(way_of(part))
        if way_of(part) in mine and (most is None or part.net_minor > most.net_minor):
            yield Code.WAY_NOT_AGREED, Severity.STOP, words.way_not_agreed(bill.number)
            return


def _of_credit(job: Job, place: int) -> Iterator[tuple[Code, Severity, Said]]:
    bill = job.bills[place]
    if bill.kind is not BillKind.CREDIT:
        if freed_over(job, place) > 0:
            said = words.freed_too_much(bill.number, _money(job, freed_over(job, place)))
            yield Code.FREED_TOO_MUCH, Severity.STOP, said
        return
    credited = credited_bill(job, place)
    if credited is None:
        yield Code.CREDIT_OF_NOTHING, Severity.STOP, words.credit_of_nothing(bill.number)
        return
    until = credits_of(job, credited.number, place + 1)
    left = {way_of(part): part for part in summed((*credited.sums, *negated(until)))}
    more = sum(-part.gross_minor for part in left.values() if part.gross_minor < 0)
    if more > 0:
        said = words.credit_too_large(bill.number, credited.number, _money(job, more))
        yield Code.CREDIT_TOO_LARGE, Severity.STOP, said


def credited_bill(job: Job, place: int) -> Bill | None:
    """Return the bill that a credit note credits; None where it names no earlier bill."""
    number = job.bills[place].credits
    earlier = (each for each in job.bills[:place] if each.kind is not BillKind.CREDIT)
    return next((each for each in earlier if each.number == number), None)


def credits_of(job: Job, number: int, until: int) -> tuple[TaxedSum, ...]:
    """Return what was credited of a bill by the first so many bills and credit notes."""
    notes = (each for each in job.bills[:until] if each.kind is BillKind.CREDIT and each.credits == number)
    return summed(part for note in notes for part in note.sums)


def freed_over(job: Job, place: int) -> int:
    """Return by how much a bill frees more than is held with it; zero or less where it does not. [minor units]."""
    held = 0
    for each in job.bills[: place + 1]:
        held += (-each.held_minor if each.kind is BillKind.CREDIT else each.held_minor) - each.freed_minor
    return -held if job.bills[place].freed_minor else 0


def _of_what_it_bills(job: Job, place: int) -> Iterator[tuple[Code, Severity, Said]]:
    bill, before = job.bills[place], job.bills[:place]
    standing = [each for each in before if not _is_credited(job, each)]
    if bill.stage is not None and bill.kind is not BillKind.CREDIT and any(e.stage == bill.stage for e in standing):
        yield Code.STAGE_TWICE, Severity.CHECK, words.stage_twice(bill.number, bill.stage)
    if bill.variation is None or bill.kind is BillKind.CREDIT:
        return
    state = next((each.state for each in job.variations if each.number == bill.variation), None)
    if state is not VariationState.APPROVED:
        said = words.variation_not_approved(bill.number, bill.variation)
        yield Code.VARIATION_NOT_APPROVED, Severity.STOP, said
    if any(each.variation == bill.variation for each in standing):
        yield Code.VARIATION_TWICE, Severity.STOP, words.variation_twice(bill.number, bill.variation)


def _is_credited(job: Job, bill: Bill) -> bool:
    """Return whether a bill is a credit note, or is credited in full."""
    if bill.kind is BillKind.CREDIT:
        return True
    return gross_of(credits_of(job, bill.number, len(job.bills))) >= gross_of(bill.sums)


def _of_tax(job: Job, place: int) -> Iterator[tuple[Code, Severity, Said]]:
    """Give a bill whose tax is not what its rates give, beyond what rounding of all bills can leave for the last."""
    bill = job.bills[place]
    expected = sum(to_minor(part.net_minor * charged_percent(part) / _WHOLE) for part in bill.sums)
    found = tax_of(bill.sums)
    agreed = 0 if job.accepted is None else len(job.accepted.options) + len(job.settled) + len(job.variations)
    if abs(found - expected) > 2 + place + agreed:
        said = words.tax_differs(bill.number, _money(job, found), _money(job, expected))
        yield Code.TAX_DIFFERS, Severity.CHECK, said
