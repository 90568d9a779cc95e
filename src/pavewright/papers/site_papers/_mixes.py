"""The mix card: what goes into a barrow, a mixer, and what a whole bag makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._words import amount, one, source, two, whole
from pavewright.papers.look import (
    CalloutKind,
    FormLine,
    SheetOfPaper,
    boxes,
    callout,
    form,
    heading,
    paragraph,
    right,
    small,
    table,
)
from pavewright.papers.site_papers._words import WORDS
from pavewright.quantities import BatchOf, MixKind, mix_cards, mix_gear

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block, Head
    from pavewright.quantities import Batch, MixCard, MixGear

_TITLES = {
    MixKind.BED: WORDS.bed_mix,
    MixKind.CONCRETE: WORDS.concrete_mix,
    MixKind.POINTING: WORDS.pointing_mix,
}
_MAX_BOXES = 120


def mix_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return a card for every mix of the job."""
    plan = given.plan
    cards = mix_cards(plan.quantities, plan.job.mixes, given.rules)
    sheet = SheetOfPaper(WORDS.mixes, follows=True)
    if not cards:
        return [sheet.add(paragraph(WORDS.mixes_none))]
    gear = mix_gear(plan.quantities, given.rules)
    sheet.add(callout(CalloutKind.CAUTION, WORDS.cement_burns), *_cold(given), paragraph(WORDS.mixes_words))
    for card in cards:
        sheet.add(*_card(card, gear))
    said = source(gear.bucket, given.figures)
    holds = [amount(each.value) for each in (gear.bucket, gear.shovel, gear.mixer, gear.barrow)]
    bucket, shovel, mixer, barrow = holds
    words = WORDS.gear(bucket=bucket, shovel=shovel, mixer=mixer, barrow=barrow, source=said)
    sheet.add(paragraph(words), form([FormLine(each) for each in WORDS.own_gear], columns=3), *_damp(given))
    figures = {figure.key: figure for card in cards for figure in card.figures}.values()
    behind = [f"{each.label}: {amount(each.value)} ({source(each, given.figures)})" for each in figures]
    return [sheet.add(small("; ".join(behind) + "."))]


def _cold(given: PaperInput) -> list[Block]:
    """Return below which temperature nothing is mixed."""
    coldest = given.rules.figure("programme.min_temperature_c")
    words = WORDS.cold(coldest=amount(coldest.value), source=source(coldest, given.figures))
    return [callout(CalloutKind.CHECK, words)]


def _card(card: MixCard, gear: MixGear) -> list[Block]:
    heads = tuple(right(words) for words in WORDS.mix_heads[1:])
    damp = any(batch.damp_l is not None for batch in card.batches)
    shown = [0, 1, 2, 3, 4, 5, 6, 7, *([8] if damp else []), 9]
    all_heads: tuple[str | Head, ...] = (WORDS.mix_heads[0], *heads)
    rows = [_row(batch, gear) for batch in card.batches]
    total = WORDS.mix_all(m3=two(card.wet_m3), barrows=whole(card.barrows), mixers=whole(card.mixers))
    return [
        heading(_TITLES[card.kind](parts=amount(card.parts))),
        table([all_heads[k] for k in shown], [[row[k] for k in shown] for row in rows], pad=4.0),
        boxes(total, min(card.mixers, _MAX_BOXES)),
    ]


def _row(batch: Batch, gear: MixGear) -> tuple[str, ...]:
    names = {
        BatchOf.BARROW: WORDS.barrow,
        BatchOf.MIXER: WORDS.mixer,
        BatchOf.BAG: WORDS.bag(kg=amount(gear.bag_kg)),
    }
    return (
        names[batch.of],
        whole(batch.wet_l),
        one(batch.cement_kg),
        one(batch.cement_l),
        one(batch.cement_l / gear.bucket.value),
        one(batch.dry_l),
        one(batch.dry_l / gear.bucket.value),
        one(batch.dry_l / gear.shovel.value),
        "" if batch.damp_l is None else one(batch.damp_l),
        one(batch.water_l),
    )


def _damp(given: PaperInput) -> list[Block]:
    bulking = given.plan.job.mixes.sand_bulking_percent
    if bulking is None:
        return [form([FormLine(WORDS.damp_unknown, unit="%")])]
    return [small(WORDS.damp_known(percent=amount(bulking)))]
