"""The pages between letter and signature: what is built, what is not, the price, the time and the terms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import layer_pictures, levels_plan, section_at_wall, step_sections
from pavewright.firm import TextKey
from pavewright.papers.look import (
    PACK_FRAME,
    Block,
    SheetOfPaper,
    decimal,
    drawing_sheet,
    figure,
    heading,
    paragraph,
    pencil,
    points,
    rest,
    right,
    table,
    together,
)
from pavewright.papers.quotation._letter import own_paragraphs
from pavewright.papers.quotation._words import SAID

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.papers.quotation._types import QuotationFacts
    from pavewright.pipeline import Plan


def built_sheet(plan: Plan, told: QuotationFacts) -> SheetOfPaper:
    """Return what is done, and a picture of what is built."""
    sheet = _sheet("What is in the price", told)
    sheet.add(points(told.included), heading("What is built"), paragraph(SAID.layers))
    for scene, areas in layer_pictures(plan):
        sheet.add(figure(scene, ", ".join(areas)))
    doors = [(f"{door}, {area.name}", step) for area in told.areas for door, step in area.doors]
    if doors:
        sheet.add(together(heading("At the doors"), paragraph(SAID.doors), table(("door", rest("step down")), doors)))
    return sheet


def not_built_sheet(told: QuotationFacts) -> SheetOfPaper:
    """Return what is not in the price, and what is open because nobody could see it or asked."""
    sheet = _sheet("What is not in the price", told, follows=True)
    sheet.add(points(told.not_included), *own_paragraphs(told, TextKey.EXCLUSIONS))
    return sheet.add(heading("What we could not see"), points(told.assumed))


def drawn_sheets(plan: Plan, told: QuotationFacts) -> list[SheetOfPaper]:
    """Return the drawing with the finished heights, the section at the doors, and those through steps."""
    scenes = [levels_plan(plan, PACK_FRAME), section_at_wall(plan), *step_sections(plan)]
    sheets = [drawing_sheet(scene) for scene in scenes if scene is not None]
    for sheet in sheets:
        sheet.mark = told.not_ready
    return sheets


def price_sheet(told: QuotationFacts) -> SheetOfPaper:
    """Return options, what is settled later, and how it is paid."""
    sheet = _sheet("Price", told)
    sheet.add(*_options(told), heading("What is settled later"), *_settled(told), heading("How it is paid"))
    if told.money.payments:
        heads = (rest("falls due when"), "by the programme", decimal("part"), right("held, freed"), decimal("to pay"))
        sheet.add(table(heads, told.money.payments, type_size=9.0))
    sheet.add(points(told.money.paying), *own_paragraphs(told, TextKey.PAYMENT))
    return sheet.add(*own_paragraphs(told, TextKey.VALIDITY))


def _options(told: QuotationFacts) -> Iterator[Block]:
    yield heading("Options")
    if not told.options:
        yield paragraph(SAID.no_options)
        return
    yield paragraph(SAID.options_lead)
    heads = (rest("option"), decimal("more or less, with tax"), "days", pencil("tick", 12.0))
    yield table(heads, [(*each, "") for each in told.money.options], type_size=9.0, pad=5.0, boxed=True)
    yield points(told.money.choosing)


def _settled(told: QuotationFacts) -> Iterator[Block]:
    written = told.money
    if not (written.goods or written.provisional or written.settling):
        yield paragraph(SAID.nothing_settled)
        return
    yield paragraph(SAID.settled)
    if written.goods:
        heads = (rest("goods to be chosen"), decimal("for supplying"), decimal("in the price"), right("settled at"))
        yield table(heads, written.goods, type_size=9.0)
    if written.provisional:
        heads = (rest("provisional work"), right("in the price"), right("settled at"))
        yield table(heads, written.provisional, type_size=9.0)
    yield points(written.settling)


def terms_sheet(told: QuotationFacts) -> SheetOfPaper:
    """Return when the work is done, what it is held to, and what holds after it."""
    sheet = _sheet("Time and terms", told, follows=True)
    parts: tuple[tuple[str, Iterable[str], TextKey | None], ...] = (
        ("When", told.when, None),
        ("How exact the work is", told.tolerances, None),
        ("Warranty", told.warranty, TextKey.GUARANTEE),
        ("Care", told.care, TextKey.CARE),
        ("If something changes", told.changes, None),
        ("If you are not happy", told.complaints, None),
        ("Your right to cancel", told.right_to_cancel, None),
    )
    for title, sentences, own in parts:
        mine = [] if own is None else own_paragraphs(told, own)
        sheet.add(together(heading(title), points(sentences)), *mine)
    return sheet


def _sheet(title: str, told: QuotationFacts, *, follows: bool = False) -> SheetOfPaper:
    return SheetOfPaper(title, mark=told.not_ready, measured=False, follows=follows)
