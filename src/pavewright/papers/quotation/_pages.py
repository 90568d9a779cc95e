"""The pages between letter and signature: what is built, what is not, the price, the time and the terms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import layer_pictures, levels_plan, step_sections, wall_sections
from pavewright.firm import TextKey
from pavewright.papers.look import (
    PACK_FRAME,
    Block,
    SheetOfPaper,
    SheetSize,
    decimal,
    drawing_sheet,
    figure,
    heading,
    paragraph,
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


def scope_sheet(plan: Plan, told: QuotationFacts) -> SheetOfPaper:
    """Return what is in the price, what is not, what is open because nobody could see it, and what is built."""
    sheet = _sheet(SAID.title_in_price, told)
    sheet.add(points(told.included))
    doors = [(f"{door}, {area.name}", step) for area in told.areas for door, step in area.doors]
    if doors:
        sheet.add(
            together(heading(SAID.at_doors), paragraph(SAID.doors), table((SAID.door, rest(SAID.step_down)), doors))
        )
    sheet.add(heading(SAID.title_not_in_price), points(told.not_included))
    sheet.add(*own_paragraphs(told, TextKey.EXCLUSIONS), heading(SAID.could_not_see), points(told.assumed))
    for number, (scene, areas) in enumerate(layer_pictures(plan)):
        built = figure(scene, SAID.layers_of(areas=", ".join(areas)))
        sheet.add(built if number else together(heading(SAID.title_built), built))
    return sheet


def drawn_sheets(plan: Plan, told: QuotationFacts) -> list[SheetOfPaper]:
    """Return the drawing with the finished heights, then the sections, as many on a page as it holds."""
    levels = drawing_sheet(levels_plan(plan, PACK_FRAME), SAID.title_drawing)
    levels.blocks.insert(0, paragraph(SAID.drawing))
    sheets, room_mm = [levels], 0.0
    for scene in (*wall_sections(plan), *step_sections(plan)):
        high_mm = scene.paper_mm[1] + _CAPTION_MM
        scale = f"Scale 1:{scene.scale} on {SheetSize.A4}"
        if high_mm > room_mm or scale != sheets[-1].scale:
            sheets.append(SheetOfPaper(SAID.title_sections, upright=False, scale=scale, listed=len(sheets) == 1))
            sheets[-1].add(paragraph(SAID.section))
            room_mm = _LIES_MM
        sheets[-1].add(figure(scene, scene.title))
        room_mm -= high_mm
    for sheet in sheets:
        sheet.mark = told.not_ready
    return sheets


_LIES_MM, _CAPTION_MM = 142.0, 9.0
"""Room for figures on a sheet that lies, and what a caption takes. [mm]"""


def price_sheet(told: QuotationFacts) -> SheetOfPaper:
    """Return options, what is settled later, and how it is paid."""
    sheet = _sheet(SAID.title_price, told)
    sheet.add(*_options(told), heading(SAID.title_settled), *_settled(told), heading(SAID.title_paid))
    if told.payments:
        sheet.add(_payments(told))
    own = own_paragraphs(told, TextKey.PAYMENT)
    # where only the firm's own words say how it is paid, nothing here says that it is not stated
    paying = () if own and not told.payments else told.money.paying
    sheet.add(*([points(paying)] if paying else ()), *own)
    return sheet.add(*own_paragraphs(told, TextKey.VALIDITY))


def _payments(told: QuotationFacts) -> Block:
    """Return the payments; what is held back has a column only where something is."""
    heads = (rest(SAID.due_when), SAID.by_programme, decimal(SAID.part), right(SAID.held_freed), decimal(SAID.to_pay))
    if any(each.held_minor or each.freed_minor for each in told.payments):
        return table(heads, told.money.payments, type_size=9.0)
    short = (heads[0], heads[1], heads[4])
    return table(short, [(what, on, due) for what, on, _, _, due in told.money.payments], type_size=9.0)


def _options(told: QuotationFacts) -> Iterator[Block]:
    yield heading(SAID.title_options)
    if not told.options:
        yield paragraph(SAID.no_options)
        return
    yield paragraph(SAID.options_lead)
    heads = (rest(SAID.option), decimal(SAID.more_or_less), SAID.days)
    yield table(heads, told.money.options, type_size=9.0)
    yield points(told.money.choosing)


def _settled(told: QuotationFacts) -> Iterator[Block]:
    written = told.money
    if not (written.goods or written.provisional or written.settling):
        yield paragraph(SAID.nothing_settled)
        return
    yield paragraph(SAID.settled)
    if written.goods:
        goods = (
            rest(SAID.goods_to_choose),
            decimal(SAID.for_supplying),
            decimal(SAID.in_price),
            right(SAID.settled_at),
        )
        yield table(goods, written.goods, type_size=9.0)
    if written.provisional:
        heads = (rest(SAID.provisional_work), right(SAID.in_price), right(SAID.settled_at))
        yield table(heads, written.provisional, type_size=9.0)
    yield points(written.settling)


def terms_sheet(told: QuotationFacts) -> SheetOfPaper:
    """Return when the work is done, what it is held to, and what holds after it."""
    sheet = _sheet(SAID.title_terms, told)
    parts: tuple[tuple[str, Iterable[str], TextKey | None], ...] = (
        (SAID.title_when, told.when, None),
        (SAID.title_cautions, told.cautions, None),
        (SAID.title_exact, told.tolerances, None),
        (SAID.title_warranty, told.warranty, TextKey.GUARANTEE),
        (SAID.title_care, told.care, TextKey.CARE),
        (SAID.title_changes, told.changes, None),
        (SAID.title_complaints, told.complaints, None),
        (SAID.title_cancel, told.right_to_cancel, None),
    )
    for title, sentences, own in parts:
        mine = [] if own is None else own_paragraphs(told, own)
        sheet.add(together(heading(title), points(sentences)), *mine)
    return sheet


def _sheet(title: str, told: QuotationFacts) -> SheetOfPaper:
    return SheetOfPaper(title, mark=told.not_ready, measured=False, follows=True)
