"""The account of a job: one chain from what was accepted to what is owing."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.account._agreed import agreed_lines, proposed_lines, unsettled_sums
from pavewright.account._bill_findings import bill_findings
from pavewright.account._findings import account_findings
from pavewright.account._tax import gross_of, negated, net_of, summed, tax_of
from pavewright.account._types import Account, AgreedKind, BillStanding
from pavewright.account._workings import workings
from pavewright.job.agreed import BillKind, VariationState

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account._types import AgreedLine
    from pavewright.job import Job
    from pavewright.job.agreed import Bill, TaxedSum


def account(job: Job) -> Account:
    """Return the account of a job; everything in it is what the job keeps of papers that were sent and agreed."""
    agreed = tuple(agreed_lines(job))
    agreed_tax = summed(part for line in agreed for part in line.sums)
    bills = tuple(_standings(job, agreed, agreed_tax))
    billed_tax = billed(job.bills)
    given = job.accepted
    found = Account(
        currency=job.identity.currency if given is None else given.currency,
        tax_name=job.rates.tax_name if given is None else given.tax_name,
        agreed=agreed,
        proposed=tuple(proposed_lines(job)),
        unsettled=unsettled_sums(job),
        refused=tuple(each for each in job.variations if each.state is VariationState.REFUSED),
        agreed_tax=agreed_tax,
        bills=bills,
        billed_tax=billed_tax,
        to_bill=summed((*agreed_tax, *negated(billed_tax))),
        held_minor=bills[-1].held_minor if bills else 0,
        due_minor=sum(each.due_minor for each in bills),
        paid_minor=sum(each.amount_minor for each in job.received),
        workings=(),
        findings=(),
    )
    return _with_words(found, job)


def _with_words(found: Account, job: Job) -> Account:
    parts = {name: getattr(found, name) for name in Account.__dataclass_fields__}
    return Account(**parts | {"workings": tuple(workings(found)), "findings": tuple(account_findings(found, job))})


def billed(bills: tuple[Bill, ...]) -> tuple[TaxedSum, ...]:
    """Return what was billed less what was credited, by the way in which it is taxed."""
    return summed(part for bill in bills for part in signed_sums(bill))


def signed_sums(bill: Bill) -> tuple[TaxedSum, ...]:
    """Return the sums of a bill, those of a credit note with the other sign."""
    return negated(bill.sums) if bill.kind is BillKind.CREDIT else bill.sums


def held_with(bill: Bill) -> int:
    """Return what is held back more with a bill; less than zero where it frees more. [minor units]."""
    held = -bill.held_minor if bill.kind is BillKind.CREDIT else bill.held_minor
    return held - bill.freed_minor


def since(job: Job, line: AgreedLine) -> dt.date:
    """Return since when a sum is agreed."""
    if line.kind is AgreedKind.SETTLED:
        return next(each.on for each in job.settled if each.number == line.number)
    if line.kind is AgreedKind.VARIATION:
        mine = next(each for each in job.variations if each.number == line.number)
        return mine.decided_on or mine.on
    return dt.date.min


def _standings(job: Job, lines: tuple[AgreedLine, ...], agreed: tuple[TaxedSum, ...]) -> Iterator[BillStanding]:
    billed_before = due_before = held = 0
    for place, bill in enumerate(job.bills):
        sums = signed_sums(bill)
        gross = gross_of(sums)
        due = gross - held_with(bill)
        held += held_with(bill)
        paid = sum(each.amount_minor for each in job.received if each.on <= bill.on)
        yield BillStanding(
            bill=bill,
            net_minor=net_of(sums),
            tax_minor=tax_of(sums),
            gross_minor=gross,
            due_minor=due,
            billed_before_minor=billed_before,
            due_before_minor=due_before,
            paid_minor=paid,
            owing_minor=due_before + due - paid,
            held_minor=held,
            agreed_minor=sum(line.gross_minor for line in lines if since(job, line) <= bill.on),
            findings=tuple(bill_findings(job, place, agreed)),
        )
        billed_before += gross
        due_before += due
