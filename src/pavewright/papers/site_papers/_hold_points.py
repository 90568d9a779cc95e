"""Where work stops until somebody has looked: planned levels at pegs, limits, and an empty box for each."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from pavewright.job import HoldKind
from pavewright.papers._words import source, whole
from pavewright.papers.look import (
    CalloutKind,
    FormLine,
    SheetOfPaper,
    callout,
    checklist,
    form,
    heading,
    paragraph,
    small,
    together,
)
from pavewright.papers.site_papers._drains import drain_rows
from pavewright.papers.site_papers._finished import bed_blocks, finished_blocks, row_blocks
from pavewright.papers.site_papers._level_rows import rows_at_pegs, under
from pavewright.papers.site_papers._words import WORDS
from pavewright.setting_out import HeightOf, layer_tolerances

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.earthworks import LayerCompaction
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.writing import Sentence

_LAST: tuple[tuple[Sentence, Callable[[PaperInput, str], Iterator[Block]], HoldKind | None], ...] = (
    (WORDS.row, row_blocks, None),
    (WORDS.bed, bed_blocks, None),
    (WORDS.finished, finished_blocks, HoldKind.SNAG),
)
"""What is looked at in an area once its layers lie: title, what is read, and where the job may say who looks."""
_UPWARDS = (HeightOf.CAPPING, HeightOf.SUB_BASE, HeightOf.BASE)
"""Layers over the formation in the order of the work."""
_LAYER_KEYS = {HeightOf.CAPPING: "capping", HeightOf.SUB_BASE: "sub_base"}


def hold_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the hold points in the order of the work, numbered through."""
    plan, number = given.plan, map(str, count(1))
    sheet = SheetOfPaper(WORDS.hold, follows=True)
    sheet.add(callout(CalloutKind.STOP, WORDS.hold_words))
    high = whole(plan.setting_out.string_height_mm)
    sheet.add(small(WORDS.string_hung(high=high) if plan.job.strings_set else WORDS.string(high=high)))
    areas = [area.area for area in plan.levels.areas]
    for area in areas:
        sheet.add(heading(WORDS.formation(number=next(number), area=area)))
        soil = plan.job.site.ground.soil.value.replace("_", " ")
        sheet.add(*_layer(given, area, HeightOf.FORMATION))
        sheet.add(*_signed(given, [checklist([WORDS.soil(soil=soil), *WORDS.visible])], HoldKind.FORMATION))
    sheet.add(heading(WORDS.drains(number=next(number))), *_signed(given, drain_rows(given), HoldKind.DRAINS))
    for area in areas:
        layers = {height.layer for peg in plan.setting_out.pegs if peg.area == area for height in peg.heights}
        for layer in _UPWARDS:
            if layer in layers:
                sheet.add(heading(WORDS.layer(number=next(number), layer=_top(layer), area=area)))
                sheet.add(*_lifts(given, area, layer), *_signed(given, _layer(given, area, layer), HoldKind.LAYER))
    for area in areas:
        for title, blocks, kind in _LAST:
            sheet.add(heading(title(number=next(number), area=area)))
            sheet.add(*_signed(given, list(blocks(given, area)), kind))
    return [sheet]


def _signed(given: PaperInput, blocks: list[Block], kind: HoldKind | None) -> list[Block]:
    """Return blocks with room to sign after them, which never stands on a page by itself."""
    return [*blocks[:-1], together(blocks[-1], signed(given, kind))]


def signed(given: PaperInput, kind: HoldKind | None) -> Block:
    """Return room for who looked, when, and the word to go on; who is to look is printed where the job says it."""
    stated = next((each.by for each in given.plan.job.holds if each.key is kind), "")
    return form([FormLine(WORDS.looked, value=stated), FormLine(WORDS.when), FormLine(WORDS.go_on)], columns=3)


def _top(layer: HeightOf) -> str:
    return layer.value.capitalize()


def _layer(given: PaperInput, area: str, layer: HeightOf) -> list[Block]:
    """Return the limit of a layer and its planned level at every peg inside the dig."""
    held = layer_tolerances(given.rules).get(layer)
    rows = rows_at_pegs(given, area, layer)
    if held is None:
        limit: Block = form([FormLine(WORDS.no_limit)])
    else:
        said = source(held.below, given.figures)
        above, below = whole(held.above.value), whole(held.below.value)
        limit = paragraph(WORDS.within(above=above, below=below, source=said))
    if not rows:
        return [limit, form([FormLine(WORDS.no_pegs)])]
    return under(limit, WORDS.peg_heads, rows)


def _lifts(given: PaperInput, area: str, layer: HeightOf) -> Iterator[Block]:
    """Give the layers in which stone goes in, each to be looked at by itself."""
    for each in given.plan.earthworks.compacted(area):
        if _LAYER_KEYS.get(layer) == each.layer.value:
            yield checklist(_rows_of_lifts(each))


def _rows_of_lifts(each: LayerCompaction) -> list[str]:
    lifts = each.layers
    passes = WORDS.passes_unknown if lifts.passes is None else WORDS.passes(passes=str(lifts.passes))
    return [
        WORDS.lift(
            layer=each.layer.words.capitalize(),
            number=str(number),
            many=str(lifts.layers),
            thick=whole(lifts.layer_mm),
            passes=passes,
        )
        for number in range(1, lifts.layers + 1)
    ]
