"""Bills and credit notes, each with its tax and the running account."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Severity
from pavewright.firm import TaxStatus
from pavewright.job.agreed import BillKind
from pavewright.papers._customer_money import event_words
from pavewright.papers._words import day
from pavewright.papers.changes._slips import contract_words
from pavewright.papers.changes._sums import statements, tax_table_rows, writer
from pavewright.papers.changes._words import WORDS
from pavewright.papers.look import (
    CalloutKind,
    SheetOfPaper,
    callout,
    decimal,
    facts,
    heading,
    lead,
    paragraph,
    points,
    rest,
    small,
    table,
    together,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account import Account, BillStanding
    from pavewright.firm import FirmBook
    from pavewright.job import Job
    from pavewright.job.agreed import Bill
    from pavewright.papers.look import Block
    from pavewright.rules import Rulebook


def bill_number(job: Job, bill: Bill) -> str:
    """Return the number of a bill as it is printed: that of the job, and its place among the bills of the job."""
    return f"{job.identity.job}-{bill.number:03d}"


def bill_sheet(
    job: Job, standing: BillStanding, found: Account, firm: FirmBook | None, rules: Rulebook
) -> SheetOfPaper:
    """Return a bill or a credit note; what is wrong with it in its place where it is not to be sent."""
    bill = standing.bill
    stops = [each.message for each in standing.findings if each.severity is Severity.STOP]
    if _charges_without(bill, firm):
        stops.append(WORDS.charges_without)
    if stops:
        sheet = SheetOfPaper(WORDS.not_sent(number=bill_number(job, bill)), measured=False)
        return sheet.add(callout(CalloutKind.STOP, stops[0]), points(stops[1:]), paragraph(WORDS.not_sent_why))
    sheet = SheetOfPaper(_title(job, bill, firm), measured=False)
    return sheet.add(
        *_head(job, bill, firm),
        *_sums(bill, standing, found, rules),
        *_running(standing, found),
        *_not_tax(bill, firm),
        small(WORDS.numbered),
    )


def _is_tax_bill(firm: FirmBook | None) -> bool:
    """Return whether a bill of the firm is a tax invoice: it is registered, and its number is entered."""
    return firm is not None and firm.firm.tax_status is TaxStatus.REGISTERED and bool(firm.firm.tax_number)


def _charges_without(bill: Bill, firm: FirmBook | None) -> bool:
    charged = any(part.tax_minor for part in bill.sums)
    return charged and firm is not None and firm.firm.tax_status is TaxStatus.NOT_REGISTERED


def _title(job: Job, bill: Bill, firm: FirmBook | None) -> str:
    number = bill_number(job, bill)
    if bill.kind is BillKind.CREDIT:
        return WORDS.credit(number=number)
    if bill.kind is BillKind.RETENTION:
        return WORDS.held_bill(number=number)
    return WORDS.tax_bill(number=number) if _is_tax_bill(firm) else WORDS.bill(number=number)


def _not_tax(bill: Bill, firm: FirmBook | None) -> Iterator[Block]:
    """Give that a bill is no tax invoice, and why, where that is so."""
    if _is_tax_bill(firm) or not bill.sums:
        return
    status = None if firm is None else firm.firm.tax_status
    words = WORDS.not_tax_number
    if status is None:
        words = WORDS.not_tax_unknown
    elif status is TaxStatus.NOT_REGISTERED:
        words = WORDS.not_tax_firm
    yield callout(CalloutKind.NOTE, words)


def _head(job: Job, bill: Bill, firm: FirmBook | None) -> Iterator[Block]:
    who = job.identity
    to = ", ".join(part for part in (who.client, who.address) if part) or WORDS.unknown
    pairs = [(WORDS.bill_number, bill_number(job, bill)), (WORDS.on, day(bill.on))]
    if bill.due_on is not None:
        pairs.append((WORDS.due, day(bill.due_on)))
    if _is_tax_bill(firm) and firm is not None:
        pairs.append((WORDS.tax_number, firm.firm.tax_number))
    pairs.append((WORDS.to, to))
    if bill.credits is not None:
        credited = next((each for each in job.bills if each.number == bill.credits), bill)
        pairs.append((WORDS.credits, WORDS.credits_bill(number=bill_number(job, credited))))
    pairs.append((WORDS.for_what, for_words(job, bill)))
    pairs.append((WORDS.contract, contract_words(job)))
    yield facts(pairs)


def for_words(job: Job, bill: Bill) -> str:
    """Return what a bill is for: its own words, with the payment or the variation that it asks for."""
    said = []
    if bill.stage is not None and job.accepted is not None and bill.stage <= len(job.accepted.stages):
        said.append(event_words(job.accepted.stages[bill.stage - 1].event))
    if bill.variation is not None:
        name = next((each.name for each in job.variations if each.number == bill.variation), "")
        said.append(WORDS.variation(number=str(bill.variation), name=name))
    if bill.words:
        said.append(bill.words)
    return "; ".join(said) or job.identity.title


def _sums(bill: Bill, standing: BillStanding, found: Account, rules: Rulebook) -> Iterator[Block]:
    """Give what is billed by tax, what is held back and freed, and what is to pay."""
    write, is_credit = writer(found.currency), bill.kind is BillKind.CREDIT
    rows = list(tax_table_rows(bill.sums, found.tax_name, found.currency))
    if len(rows) > 1:
        whole = (abs(standing.net_minor), abs(standing.tax_minor), abs(standing.gross_minor))
        rows.append((WORDS.this_bill, *(write(each) for each in whole)))  # type: ignore[arg-type]
    if rows:
        heads = (rest(WORDS.taxed), decimal(WORDS.net), decimal(found.tax_name), decimal(WORDS.gross))
        yield together(heading(WORDS.credited if is_credit else WORDS.sums), table(heads, rows))
    pairs = []
    if bill.held_minor:
        pairs.append((WORDS.no_longer_held if is_credit else WORDS.less_held, write(bill.held_minor)))
    if bill.freed_minor:
        pairs.append((WORDS.with_freed, write(bill.freed_minor)))
    if pairs:
        yield facts(pairs)
    words = WORDS.comes_off if is_credit else WORDS.to_pay
    yield lead(f"{words}: {write(abs(standing.due_minor))}")
    yield from (paragraph(each) for each in statements(bill.sums, found.tax_name, found.currency, rules))


def _running(standing: BillStanding, found: Account) -> Iterator[Block]:
    """Give the running account with a bill: agreed, billed, held back, received, owing."""
    write = writer(found.currency)
    billed = standing.billed_before_minor + standing.gross_minor
    pairs = [
        (WORDS.agreed_all, write(standing.agreed_minor)),
        (WORDS.billed_before, write(standing.billed_before_minor)),
        (WORDS.this_bill, write(standing.gross_minor)),
        (WORDS.billed_with, write(billed)),
        (WORDS.left, write(standing.agreed_minor - billed)),
        (WORDS.held, write(standing.held_minor)),
        (WORDS.paid(on=day(standing.bill.on)), write(standing.paid_minor)),
        (WORDS.owing, write(standing.owing_minor)),
    ]
    yield together(heading(WORDS.running), table((rest(""), decimal(WORDS.gross)), pairs))
