"""The sheets on cancelling: the notice, the form, and the request to begin early."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.papers._words import day
from pavewright.papers.cancelling import SAID, date_words, rule_words
from pavewright.papers.look import (
    CalloutKind,
    FormLine,
    SheetOfPaper,
    callout,
    facts,
    form,
    heading,
    lead,
    paragraph,
    points,
    small,
    table,
)
from pavewright.rules import Status

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.firm import FirmBook
    from pavewright.papers.cancelling import Cancelling
    from pavewright.papers.look import Block
    from pavewright.papers.quotation._types import QuotationFacts
    from pavewright.rules import Rulebook

_DAYS_SHOWN = 7
"""Days of agreeing for which the last day to cancel is shown, where it is not known on which day that is."""


def notice_sheet(told: QuotationFacts, rules: Rulebook, firm: FirmBook | None) -> SheetOfPaper:
    """Return the notice: how long, until when, how, and what then happens to the money."""
    right = told.cancelling
    sheet = _sheet(SAID.title_right, told)
    sheet.add(_confirm(right))
    for number, words in enumerate(rule_words(right)):
        sheet.add(lead(words) if number == 0 else paragraph(words))
    sheet.add(heading(SAID.title_until), *(paragraph(each) for each in date_words(right)), *_days(right))
    sheet.add(heading(SAID.title_how), points((SAID.how, SAID.keep)), facts(_sent_to(told, firm)))
    sheet.add(heading(SAID.title_then), points((SAID.money, SAID.early)))
    if not right.starts_early:
        sheet.add(paragraph(SAID.early_not_needed(start=day(right.starts_on))))
    return sheet.add(small(_source(right, rules)))


def form_sheet(told: QuotationFacts, firm: FirmBook | None) -> SheetOfPaper:
    """Return the form with which the customer cancels, with what is known filled in."""
    sheet = _sheet(SAID.title_form, told).add(lead(SAID.form_lead), _confirm(told.cancelling))
    sheet.add(facts(_sent_to(told, firm)), paragraph(SAID.form_says))
    return sheet.add(form((*_job_lines(told), *_customer_lines(told))))


def early_sheet(told: QuotationFacts, firm: FirmBook | None) -> SheetOfPaper:
    """Return the request to begin before the right to cancel has ended, with its days filled in."""
    right = told.cancelling
    last = right.last_day(right.agreed_on)
    sheet = _sheet(SAID.title_early, told).add(lead(SAID.early_lead), _confirm(right))
    sheet.add(facts(_sent_to(told, firm)))
    if last is not None:
        sheet.add(paragraph(SAID.early_asks(start=day(right.starts_on), last=day(last))))
    sheet.add(points((SAID.early_pays, SAID.early_ends)))
    return sheet.add(form((*_job_lines(told), *_customer_lines(told))))


def _sheet(title: str, told: QuotationFacts) -> SheetOfPaper:
    return SheetOfPaper(title, mark=told.not_ready, measured=False)


def _confirm(right: Cancelling) -> Block:
    """Return in a frame that the words are to be confirmed where those of the law stand."""
    rule = right.rule
    law = "" if rule is None else rule.law
    more = "" if rule is None or rule.law_is_read else f" {SAID.confirm_place}"
    return callout(CalloutKind.CHECK, f"{SAID.confirm(law=law)}{more}", SAID.to_confirm)


def _source(right: Cancelling, rules: Rulebook) -> str:
    """Return where the number of days is from, and how far to trust it."""
    if right.rule is None:
        return ""
    figure = right.rule.days
    title = rules.sources[figure.source].title
    where = title if figure.status is Status.READ else f"{title}, {figure.status.words}"
    return SAID.confirm_days(source=where)


def _days(right: Cancelling) -> Iterator[Block]:
    """Give the last day for other days of agreeing, where it is not known on which day that is."""
    if right.agreed_is_known:
        return
    days = [right.agreed_on + dt.timedelta(days=number) for number in range(_DAYS_SHOWN)]
    rows = [(day(each), day(last)) for each in days if (last := right.last_day(each)) is not None]
    if len({last for _, last in rows}) > 1:
        yield table((SAID.head_agreed, SAID.head_last), rows, type_size=9.0)
    yield form((FormLine(SAID.line_agreed, 45.0), FormLine(SAID.line_last, 45.0)), columns=2)


def _sent_to(told: QuotationFacts, firm: FirmBook | None) -> list[tuple[str, str]]:
    """Return to whom it is sent: the firm as its letterhead has it, else the contractor of the job."""
    name = told.who.contractor if firm is None or not firm.firm.name else firm.firm.name
    lines = () if firm is None else firm.firm.lines
    return [(SAID.send_to, ", ".join((name, *lines)) if name else SAID.address_open)]


def _job_lines(told: QuotationFacts) -> Iterator[FormLine]:
    right, who = told.cancelling, told.who
    yield FormLine(SAID.line_work, value=SAID.the_work(title=who.title, job=who.job, on=day(who.on)))
    yield FormLine(SAID.line_agreed, value=day(right.agreed_on) if right.agreed_is_known else "")


def _customer_lines(told: QuotationFacts) -> Iterator[FormLine]:
    yield FormLine(SAID.line_name, value=told.who.client)
    yield FormLine(SAID.line_address, value=told.who.address)
    yield FormLine(SAID.line_signature, high_mm=14.0)
    yield FormLine(SAID.line_date)
