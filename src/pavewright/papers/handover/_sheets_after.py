"""Sheets of the handover for later: products with batches, spare units, keys of covers, dates of care."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.firm import TextKey
from pavewright.papers._words import day, source
from pavewright.papers.handover._care import care_of
from pavewright.papers.handover._facts import covers, products, spares
from pavewright.papers.handover._sheets import firm_words
from pavewright.papers.handover._words import WORDS
from pavewright.papers.look import SheetOfPaper, heading, lead, paragraph, pencil, points, rest, right, small, table

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.handover._care import Care, CareDate
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


def goods_sheet(plan: Plan) -> SheetOfPaper:
    """Return products with batches, units left over and keys of covers; what is not known is a line to fill in."""
    rows = [
        (
            each.area,
            each.product,
            " × ".join(f"{side:g}" for side in each.size),
            each.batch,
            "" if each.delivered_on is None else day(each.delivered_on),
            each.ticket,
        )
        for each in products(plan)
    ]
    heads = (
        WORDS.area,
        rest(WORDS.product),
        WORDS.size,
        pencil(WORDS.batch),
        pencil(WORDS.delivered),
        pencil(WORDS.ticket),
    )
    sheet = SheetOfPaper(WORDS.products, measured=False, follows=True)
    sheet.add(paragraph(WORDS.products_why), table(heads, rows, pad=5.0))
    return sheet.add(heading(WORDS.spares), *_spares(plan), heading(WORDS.keys), *_keys(plan))


def _spares(plan: Plan) -> list[Block]:
    found = spares(plan)
    if not found:
        return [paragraph(WORDS.no_spares)]
    rows = [
        (
            each.unit,
            str(each.bought),
            str(each.laid),
            str(each.left_at_most),
            "" if each.counted is None else str(each.counted),
            each.kept_at,
        )
        for each in found
    ]
    heads = (
        rest(WORDS.unit),
        right(WORDS.bought),
        right(WORDS.laid),
        right(WORDS.left_most),
        pencil(WORDS.counted),
        pencil(WORDS.kept_at, 52.0),
    )
    return [paragraph(WORDS.spares_why), table(heads, rows, pad=5.0)]


def _keys(plan: Plan) -> list[Block]:
    found = covers(plan)
    if not found:
        return [paragraph(WORDS.no_covers)]
    rows = [
        (name, "" if keys is None or keys.count is None else str(keys.count), "" if keys is None else keys.kept_at)
        for name, keys in found
    ]
    heads = (rest(WORDS.cover), pencil(WORDS.keys_count), pencil(WORDS.kept_at, 52.0))
    return [paragraph(WORDS.keys_why), table(heads, rows, pad=5.0)]


def care_sheet(plan: Plan, rules: Rulebook, figures: PaperFigures, firm: FirmBook | None) -> SheetOfPaper:
    """Return when the paving may be used, cleaned and sealed, with the figure behind each date."""
    care = care_of(plan, rules)
    sheet = SheetOfPaper(WORDS.care, measured=False)
    counted = (WORDS.care_counted if care.completed else WORDS.care_planned)(day=day(care.counted_from))
    rows = [_care_row(each, figures) for each in care.dates]
    heads = (rest(WORDS.care_what), WORDS.care_from, WORDS.care_safe, rest(WORDS.care_source))
    sheet.add(lead(counted), paragraph(WORDS.care_evening), table(heads, rows, pad=4.0), small(WORDS.care_usual))
    sheet.add(points([*_never(care), *WORDS.care_rest]))
    return sheet.add(*firm_words(firm, TextKey.CARE, WORDS.own_care))


def _care_row(each: CareDate, figures: PaperFigures) -> tuple[str, ...]:
    return (
        each.words,
        WORDS.no_end if each.first is None else day(each.first),
        "" if each.safe is None else day(each.safe),
        "" if each.figure is None else source(each.figure, figures),
    )


def _never(care: Care) -> list[str]:
    return [WORDS.no_drive(area=name) for name in care.on_foot]
