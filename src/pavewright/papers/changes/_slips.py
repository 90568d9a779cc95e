"""Variation slips, ready to sign, and the register of all of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.account import AgreedKind
from pavewright.drawing import variation_layers, variation_plan
from pavewright.job.agreed import VariationMeasureKind, VariationState
from pavewright.papers._words import counted, day
from pavewright.papers.changes._sums import rate_words, signed, writer
from pavewright.papers.changes._words import CAUSES, MEASURES, STATES, WORDS
from pavewright.papers.look import (
    CalloutKind,
    SheetOfPaper,
    callout,
    decimal,
    facts,
    figure,
    heading,
    paragraph,
    rest,
    right,
    signatures,
    table,
    together,
)
from pavewright.writing import number_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account import Account
    from pavewright.job import Job
    from pavewright.job.agreed import TaxedSum, Variation, VariationMeasure
    from pavewright.papers.look import Block


def contract_words(job: Job) -> str:
    """Return to which acceptance a paper belongs."""
    given = job.accepted
    if given is None:
        return WORDS.nothing_accepted
    return WORDS.accepted(quoted=day(given.quoted_on), on=day(given.at.date()), by=given.by)


def slip(job: Job, variation: Variation, found: Account) -> SheetOfPaper:
    """Return the slip of a variation: why, how much of what, what it costs, and room for two signatures."""
    sheet = SheetOfPaper(WORDS.slip(number=str(variation.number), name=variation.name), measured=False)
    pairs = [
        (WORDS.on, day(variation.on)),
        (WORDS.cause, CAUSES[variation.cause]),
        (WORDS.asked_by, variation.asked_by or WORDS.unknown),
        (WORDS.contract, contract_words(job)),
        (WORDS.state, _state(variation)),
        (WORDS.reason, variation.reason or WORDS.no_reason),
    ]
    sheet.add(facts(pairs))
    sheet.add(*_measures(variation), *_drawn(variation))
    # what is signed stands on one page with its sum
    last = [*_price(variation, found), paragraph(_days(variation))]
    if variation.gaps:
        last.append(callout(CalloutKind.CHECK, WORDS.gaps(count=str(variation.gaps))))
    if variation.state is VariationState.PROPOSED:
        last.append(callout(CalloutKind.NOTE, WORDS.unsigned))
    return sheet.add(together(*last, signatures(WORDS.customer, WORDS.contractor)))


def _state(variation: Variation) -> str:
    state = STATES[variation.state]
    if variation.decided_on is None:
        return state
    return WORDS.decided(state=state, on=day(variation.decided_on), by=variation.decided_by or WORDS.unknown)


def _measures(variation: Variation) -> Iterator[Block]:
    yield heading(WORDS.measures)
    if not variation.measures:
        yield paragraph(WORDS.no_measures)
        return
    heads = (rest(WORDS.measure), WORDS.where, right(WORDS.before), right(WORDS.after), right(WORDS.more))
    yield table(heads, [_measure_row(each) for each in variation.measures])


def _measure_row(measure: VariationMeasure) -> tuple[str, ...]:
    """Return a measure before and after, each with its unit; the difference is that of what stands beside it."""
    kind = measure.kind
    sides = [None if each is None else round(each, kind.decimals) for each in (measure.before, measure.after)]
    more = round((sides[1] or 0.0) - (sides[0] or 0.0), kind.decimals)
    written = f"{'+' if more > 0 else '−'}{_number(abs(more), kind)}"
    both = [WORDS.none if each is None else _number(each, kind) for each in sides]
    return MEASURES[kind], measure.where or WORDS.whole_job, *both, written


def _number(value: float, kind: VariationMeasureKind) -> str:
    """Return a measure with its unit."""
    if kind is VariationMeasureKind.LOADS:
        return counted(value, kind.unit)
    return f"{number_text(value, kind.decimals)} {kind.unit}"


def _drawn(variation: Variation) -> Iterator[Block]:
    drawn = [
        figure(scene, caption)
        for scene, caption in (
            (variation_plan(variation), WORDS.plan_caption),
            (variation_layers(variation), WORDS.layers_caption),
        )
        if scene is not None
    ]
    if drawn:
        yield together(heading(WORDS.drawn), drawn[0])
        yield from drawn[1:]


def _price(variation: Variation, found: Account) -> Iterator[Block]:
    """Give what a variation does to the price, and what was agreed before it and is with it."""
    write, currency = writer(found.currency), found.currency
    rows: list[tuple[str, ...]] = [
        (rate_words(part, found.tax_name), signed(part.net_minor, currency), signed(part.tax_minor, currency),
         signed(part.gross_minor, currency))
        for part in variation.sums
    ]  # fmt: skip
    net, tax, gross = sum_of(variation.sums)
    total = tuple(signed(each, currency) for each in (net, tax, gross))
    rows = rows if len(rows) > 1 else []
    before = sum(
        line.gross_minor
        for line in found.agreed
        if line.kind is not AgreedKind.VARIATION or line.number < variation.number
    )
    rows.append((WORDS.this_variation, *total))
    rows.append((WORDS.agreed_before, "", "", write(before)))
    rows.append((WORDS.agreed_with, "", "", write(before + gross)))
    heads = (rest(""), decimal(WORDS.net), decimal(found.tax_name), decimal(WORDS.gross))
    yield heading(WORDS.price)
    yield table(heads, rows)


def sum_of(sums: tuple[TaxedSum, ...]) -> tuple[int, int, int]:
    """Return sums before tax, their tax and both together. [minor units]."""
    net, tax = sum(part.net_minor for part in sums), sum(part.tax_minor for part in sums)
    return net, tax, net + tax


def _days(variation: Variation) -> str:
    if variation.days is None:
        return WORDS.days_unknown
    if not variation.days:
        return WORDS.no_days
    many = abs(variation.days)
    words = WORDS.one_day if many == 1 else WORDS.many_days(count=str(many))
    return WORDS.later(days=words) if variation.days > 0 else WORDS.sooner(days=words)


def register(job: Job, found: Account) -> SheetOfPaper:
    """Return the register of variations."""
    sheet, currency = SheetOfPaper(WORDS.register, measured=False), found.currency
    rows = []
    for each in job.variations:
        net, tax, gross = sum_of(each.sums)
        days = WORDS.unknown if each.days is None else f"{each.days:+d}" if each.days else "0"
        money = (signed(net, currency), signed(tax, currency), signed(gross, currency))
        rows.append((str(each.number), day(each.on), each.name, STATES[each.state], days, *money))
    proposed = sum(line.gross_minor for line in found.proposed)
    for words, total in (
        (WORDS.approved_sum, found.of_kind(AgreedKind.VARIATION)),
        (WORDS.proposed_sum, proposed),
    ):
        rows.append(("", "", words, "", "", "", "", signed(total, currency)))
    heads = (
        right(WORDS.number), WORDS.on, rest(WORDS.what), WORDS.state, right(WORDS.days),
        decimal(WORDS.net), decimal(found.tax_name), decimal(WORDS.gross),
    )  # fmt: skip
    return sheet.add(facts([(WORDS.contract, contract_words(job))]), table(heads, rows))
