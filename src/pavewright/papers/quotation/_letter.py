"""The letter on the first page of a quotation, and the page that is signed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.firm import TextKey
from pavewright.papers._words import day, money
from pavewright.papers.look import (
    Block,
    CalloutKind,
    SheetOfPaper,
    callout,
    decimal,
    heading,
    lead,
    paragraph,
    points,
    signatures,
    table,
    tick,
    together,
)
from pavewright.papers.quotation._words import SAID

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers.quotation._types import QuotationFacts


def letter_sheet(facts_of: QuotationFacts) -> SheetOfPaper:
    """Return the letter: for whom, what, how much, when, and how it is accepted."""
    sheet = SheetOfPaper(SAID.title_quotation, mark=facts_of.not_ready, measured=False)
    sheet.add(*_opening(facts_of))
    # where only the firm's own words say how long it holds, nothing here says that it is not stated
    open_but_said = facts_of.holds_until is None and bool(own_paragraphs(facts_of, TextKey.VALIDITY))
    holds = () if open_but_said else (facts_of.money.holds,)
    said = (*facts_of.money.statements, *holds)
    priced = table((SAID.title_price, decimal(SAID.amount)), facts_of.money.price, type_size=9.5)
    sheet.add(priced, *([points(said)] if said else ()))
    sheet.add(*(paragraph(each) for each in _what_follows(facts_of)))
    sheet.add(*own_paragraphs(facts_of, TextKey.CLOSING))
    if facts_of.who.contractor:
        sheet.add(paragraph(facts_of.who.contractor))
    return sheet


def _opening(facts_of: QuotationFacts) -> Iterator[Block]:
    who = facts_of.who
    yield paragraph(", ".join(line for line in (who.client, who.address, day(who.on)) if line))
    yield paragraph(SAID.dear(client=who.client) if who.client else SAID.dear_all)
    own = own_paragraphs(facts_of, TextKey.OPENING)
    opening = SAID.opening(title=who.title, address=who.address)
    yield paragraph(opening if who.address else SAID.opening_no_place(title=who.title))
    yield from own
    yield lead(SAID.price(price=facts_of.money.price[-1][1]))
    if who.invented:
        yield paragraph(SAID.invented)


def _what_follows(facts_of: QuotationFacts) -> Iterator[str]:
    share, window = facts_of.provisional, facts_of.window
    if share is not None and share.likely_minor:
        yield SAID.price_part(likely=money(share.likely_minor, facts_of.who.currency))
    yield SAID.begins(start=day(window.start), finish=day(window.finish))
    if facts_of.options:
        many = len(facts_of.options)
        yield SAID.one_option if many == 1 else SAID.options(many=str(many))
    yield SAID.read
    yield SAID.accept


def own_paragraphs(facts_of: QuotationFacts, key: TextKey) -> list[Block]:
    """Return the firm's own words for a part of the quotation, paragraph by paragraph."""
    return [
        paragraph(part.strip())
        for each, words in facts_of.own_words
        if each is key
        for part in words.split("\n\n")
        if part.strip()
    ]


def accepting_blocks(facts_of: QuotationFacts) -> list[Block]:
    """Return what the customer signs: what he confirms, his options, and room for both names, on one page."""
    confirmed: list[Block] = [heading(SAID.title_acceptance)]
    if facts_of.not_ready:
        confirmed.append(callout(CalloutKind.STOP, SAID.not_to_sign))
    confirmed.append(points(facts_of.accepting))
    if facts_of.options:
        confirmed += [paragraph(SAID.options_taken), *(tick(each) for each in option_lines(facts_of))]
    return [together(*confirmed, signatures(SAID.customer, SAID.for_contractor))]


def option_lines(facts_of: QuotationFacts) -> list[str]:
    """Return each option with its difference, as it is written everywhere."""
    return [f"{name}: {extra}, {days}" for name, extra, days in facts_of.money.options]
