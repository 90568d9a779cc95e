"""Setting out with the services near the pegs, and the laying plan square by square."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.drawing import laying_squares
from pavewright.papers._words import source, whole
from pavewright.papers.look import (
    CalloutKind,
    callout,
    drawing_sheet,
    heading,
    paragraph,
    rest,
    right,
    small,
    table,
)
from pavewright.papers.site_papers._hung import hung_sheets
from pavewright.papers.site_papers._order import order_sheets
from pavewright.papers.site_papers._words import WORDS
from pavewright.setting_out import services_near

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block, SheetOfPaper
    from pavewright.setting_out import ServiceNear


def set_out_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the drawing and the pegs, with the caution and the services near each peg before everything else."""
    drawn, pegs = given.pegged
    before = [callout(CalloutKind.CAUTION, given.plan.setting_out.services_words), *_near(given)]
    whole_sheet = replace(pegs, title=WORDS.set_out, blocks=[*before, *pegs.blocks])
    return [drawn, *order_sheets(given), whole_sheet, *hung_sheets(given)]


def _near(given: PaperInput) -> list[Block]:
    limit = given.rules.figure("setting_out.service_listed_mm")
    found = services_near(given.plan.setting_out, given.rules)
    if not given.plan.setting_out.services:
        return []
    if not found:
        return [paragraph(WORDS.near_none(limit=whole(limit.value)))]
    peg, service, carries, deep, away, last = WORDS.near_heads
    heads = (right(peg), rest(service), carries, right(deep, "mm"), right(away, "mm"), last)
    return [
        heading(WORDS.near),
        table(heads, [_row(each) for each in found], type_size=8.0, pad=2.3),
        small(f"{limit.label}: {whole(limit.value)} mm. {source(limit, given.figures)}."),
    ]


def _row(each: ServiceNear) -> tuple[str, ...]:
    deep = WORDS.unknown if each.depth_mm is None else whole(each.depth_mm)
    said = WORDS.no_pin if each.in_band else ""
    return str(each.peg), each.service, each.kind.value.replace("_", " "), deep, whole(each.away_mm), said


def square_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the laying plan square by square, with numbers that are read at arm's length."""
    sheets = []
    for number, square in enumerate(laying_squares(given.plan)):
        sheet = drawing_sheet(square.scene, listed=number == 0)
        words = [WORDS.numbers_high]
        if square.unnumbered:
            words.append(WORDS.unnumbered(pieces=", ".join(f"{area} {piece}" for area, piece in square.unnumbered)))
        sheets.append(sheet.add(small(" ".join(words))))
    return sheets
