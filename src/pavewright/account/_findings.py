"""What is noticed of an account as a whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.account import _words as words
from pavewright.account._codes import Code
from pavewright.account._tax import tax_of
from pavewright.account._types import AgreedKind
from pavewright.findings import Finding, Severity
from pavewright.job.agreed import VariationState

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account._types import Account
    from pavewright.account._words import Said
    from pavewright.job import Job

_PLACE = "account"


def account_findings(found: Account, job: Job) -> Iterator[Finding]:
    """Give what is noticed of an account as a whole, stops first."""
    if job.accepted is None and any(each.state is VariationState.APPROVED for each in job.variations):
        yield _said(Code.NOT_ACCEPTED, Severity.STOP, words.not_accepted("A variation is approved"))
    yield from _of_sums(found, job)
    numbers = {each.number for each in job.bills}
    for number in dict.fromkeys(each.bill for each in job.received if each.bill is not None):
        if number not in numbers:
            yield _said(Code.PAYMENT_OF_NOTHING, Severity.CHECK, words.payment_of_nothing(number))
    if found.owing_minor < 0:
        more = units.minor_to_text(-found.owing_minor, found.currency)
        yield _said(Code.PAID_TOO_MUCH, Severity.CHECK, words.paid_too_much(more))
    if found.held_minor > 0 and tax_of(found.billed_tax):
        tax = units.minor_to_text(tax_of(found.billed_tax), found.currency)
        yield _said(Code.RETENTION_TAX, Severity.NOTE, words.retention_tax(tax))


def _of_sums(found: Account, job: Job) -> Iterator[Finding]:
    for line in found.proposed:
        yield _said(Code.OPEN_VARIATION, Severity.CHECK, words.open_variation(line.number))
    for each in job.variations:
        if each.gaps and each.state is not VariationState.REFUSED:
            yield _said(Code.NOT_PRICED, Severity.CHECK, words.not_priced(each.number, each.gaps))
    taken = {line.number for line in found.agreed if line.kind is AgreedKind.SETTLED}
    for settled in job.settled if job.accepted is not None else ():
        if settled.number not in taken:
            yield _said(Code.SETTLES_NOTHING, Severity.STOP, words.settles_nothing(settled.number))
    for waiting in found.unsettled:
        yield _said(Code.NOT_SETTLED, Severity.NOTE, words.not_settled(waiting.number, waiting.name))


def _said(code: Code, severity: Severity, said: Said) -> Finding:
    return Finding(code, severity, _PLACE, said[0], options=said[1])
