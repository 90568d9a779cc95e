"""The final account: what was agreed, line by line to the penny, what was billed and received, and what is owing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.account import AgreedKind
from pavewright.papers._words import day, sum_behind
from pavewright.papers.changes._bills import bill_number, for_words
from pavewright.papers.changes._slips import sum_of
from pavewright.papers.changes._sums import tax_table_rows, writer
from pavewright.papers.changes._words import BILLS, WORDS
from pavewright.papers.look import (
    CalloutKind,
    SheetOfPaper,
    callout,
    decimal,
    heading,
    lead,
    paragraph,
    points,
    rest,
    signatures,
    small,
    table,
    together,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account import Account, AgreedLine
    from pavewright.job import Job
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block


def account_sheets(job: Job, found: Account, figures: PaperFigures) -> tuple[SheetOfPaper, ...]:
    """Return the final account, or the account so far with what keeps it from being final."""
    title = WORDS.account_title if found.is_final else WORDS.so_far_title
    sheet = SheetOfPaper(title, measured=False)
    sheet.add(*_agreed(job, found), *_open(found))
    sheet.add(*_bills(job, found), *_received(job, found))
    if found.refused:
        said = [WORDS.variation(number=str(each.number), name=each.name) for each in found.refused]
        sheet.add(heading(WORDS.refused), points(said))
    sheet.add(heading(WORDS.workings), *(small(sum_behind(each, figures)) for each in found.workings))
    # what is signed stands on one page with what is owing
    last = list(_balance(found))
    if found.is_final:
        last += [paragraph(WORDS.agreed_by), signatures(WORDS.customer, WORDS.contractor)]
    return (sheet.add(together(*last)),)


def _agreed(job: Job, found: Account) -> Iterator[Block]:
    write = writer(found.currency)
    rows = [(_name(job, line), *(write(each) for each in sum_of(line.sums))) for line in found.agreed]
    total = WORDS.total if found.is_final else WORDS.total_so_far
    rows.append((total, *(write(each) for each in sum_of(found.agreed_tax))))
    heads = (rest(WORDS.what), decimal(WORDS.net), decimal(found.tax_name), decimal(WORDS.gross))
    yield heading(WORDS.sum_of)
    yield table(heads, rows)
    if len(found.agreed_tax) > 1:
        heads = (rest(WORDS.taxed), decimal(WORDS.net), decimal(found.tax_name), decimal(WORDS.gross))
        yield together(
            heading(WORDS.by_tax), table(heads, tax_table_rows(found.agreed_tax, found.tax_name, found.currency))
        )


def _name(job: Job, line: AgreedLine) -> str:
    if line.kind is AgreedKind.OPTION:
        return WORDS.option(name=line.name)
    if line.kind is AgreedKind.SETTLED:
        return WORDS.settled(name=line.name)
    if line.kind is AgreedKind.VARIATION:
        return WORDS.variation(number=str(line.number), name=line.name)
    given = job.accepted
    return "" if given is None else WORDS.quotation(on=day(given.quoted_on), by=given.by)


def _open(found: Account) -> Iterator[Block]:
    """Give what keeps an account from being final."""
    write = writer(found.currency)
    said = [
        WORDS.still_proposed(number=str(line.number), name=line.name, gross=write(line.gross_minor))
        for line in found.proposed
    ]
    said += [WORDS.still_unsettled(name=each.name, net=write(each.net_minor)) for each in found.unsettled]
    if found.to_bill_minor > 0:
        said.append(WORDS.still_to_bill(gross=write(found.to_bill_minor)))
    if found.to_bill_minor < 0:
        said.append(WORDS.over_billed(gross=write(-found.to_bill_minor)))
    if said:
        yield callout(CalloutKind.CHECK, WORDS.not_final)
        yield points(said)


def _bills(job: Job, found: Account) -> Iterator[Block]:
    if not found.bills:
        yield together(heading(WORDS.bills), paragraph(WORDS.no_bills))
        return
    write = writer(found.currency)
    rows = [
        (
            bill_number(job, each.bill),
            day(each.bill.on),
            f"{BILLS[each.bill.kind]}: {for_words(job, each.bill)}",
            write(each.gross_minor),
            write(each.due_minor - each.gross_minor),
            write(each.due_minor),
        )
        for each in found.bills
    ]
    rows.append(("", "", WORDS.billed, write(found.billed_minor), write(-found.held_minor), write(found.due_minor)))
    heads = (
        WORDS.number, WORDS.on, rest(WORDS.kind),
        decimal(WORDS.gross), decimal(WORDS.held_short), decimal(WORDS.due_short),
    )  # fmt: skip
    yield heading(WORDS.bills)
    yield table(heads, rows)


def _received(job: Job, found: Account) -> Iterator[Block]:
    if not job.received:
        yield together(heading(WORDS.received), paragraph(WORDS.no_received))
        return
    write = writer(found.currency)
    ordered = sorted(job.received, key=lambda each: each.on)
    rows = [(day(each.on), each.note, write(each.amount_minor)) for each in ordered]
    rows.append(("", WORDS.received_all, write(found.paid_minor)))
    yield together(heading(WORDS.received), table((WORDS.on, rest(WORDS.note), decimal(WORDS.amount)), rows))


def _balance(found: Account) -> Iterator[Block]:
    write = writer(found.currency)
    pairs = [
        (WORDS.billed, write(found.billed_minor)),
        (WORDS.held_now, write(found.held_minor)),
        (WORDS.asked, write(found.due_minor)),
        (WORDS.received_all, write(found.paid_minor)),
    ]
    last = WORDS.owing_now if found.owing_minor >= 0 else WORDS.credit_now
    block = table((rest(""), decimal(WORDS.amount)), pairs)
    yield heading(WORDS.balance)
    yield block
    yield lead(f"{last}: {write(abs(found.owing_minor))}")
