"""Slab by slab on paper: the level of each corner, room for what is found, and where to tap."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.bedding import LETTERS, figures, read_one_by_one, thinnest_bed_mm, units_to_lay
from pavewright.drawing import tap_picture
from pavewright.papers._words import amount, level, source
from pavewright.papers.look import (
    FormLine,
    SheetOfPaper,
    figure,
    form,
    heading,
    paragraph,
    pencil,
    points,
    right,
    small,
    table,
)
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.bedding import BeddingFigures, UnitToLay
    from pavewright.laying import LaidArea
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_FOUND_MM = 18.0
"""Room to write what was found at a corner. [mm]"""
_MOST_ROWS = 400
"""An area of more pieces shows the first and the last of each course. [-]"""


def slab_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the corners of each unit that is read by itself; nothing where units are pressed in together."""
    read = figures(given.rules)
    areas = [laid for laid in given.plan.laying.areas if read_one_by_one(laid, read.unit_by_unit.value)]
    if not areas:
        return []
    sheet = SheetOfPaper(WORDS.slabs, follows=True)
    sheet.add(paragraph(WORDS.slabs_words), figure(tap_picture(), WORDS.slabs_picture), *_rules(given, read))
    sheet.add(form([FormLine(WORDS.slabs_tool), FormLine(WORDS.looked), FormLine(WORDS.when)], columns=3))
    for laid in areas:
        sheet.add(*_area(given, laid, read))
    return [sheet]


def _rules(given: PaperInput, read: BeddingFigures) -> Iterator[Block]:
    """Give how to tap, when to lift, and from where that is known."""
    step, once, most, proud = (amount(each.value) for each in (read.step, read.at_once, read.most, read.proud))
    yield points(
        [
            WORDS.slabs_once(once=once, share=amount(read.share_percent.value)),
            WORDS.slabs_twist(step=step),
            WORDS.slabs_lift(step=step, most=most, proud=proud),
        ]
    )
    behind = (read.step, read.at_once, read.share_percent, read.most, read.proud)
    yield small(
        "; ".join(f"{each.label}: {amount(each.value)} ({source(each, given.figures)})" for each in behind) + "."
    )


def _area(given: PaperInput, laid: LaidArea, read: BeddingFigures) -> Iterator[Block]:
    plan = given.plan
    surface = plan.levels.area(laid.area).surface
    units = units_to_lay(laid, surface)
    yield heading(WORDS.slabs_area(area=laid.area, many=str(len(units))))
    thinnest = thinnest_bed_mm(plan.build_ups.area(laid.area), read)
    if thinnest:
        yield small(WORDS.slabs_thinnest(thinnest=amount(thinnest)))
    shown = units if len(units) <= _MOST_ROWS else _ends_of_courses(units)
    if len(shown) < len(units):
        yield small(WORDS.slabs_ends)
    heads = (
        right(WORDS.slabs_heads[0]),
        *(right(letter, "level") for letter in LETTERS),
        *(pencil(f"{letter} ±", _FOUND_MM) for letter in LETTERS),
        pencil(WORDS.slabs_heads[1], _FOUND_MM),
    )
    yield table(heads, [_row(unit) for unit in shown], type_size=8.5, pad=2.9, boxed=True)


def _ends_of_courses(units: tuple[UnitToLay, ...]) -> list[UnitToLay]:
    """Return the first and the last unit of each course."""
    first = {unit.course: unit for unit in reversed(units)}
    last = {unit.course: unit for unit in units}
    kept = {unit.piece: unit for unit in (*first.values(), *last.values())}
    return [kept[piece] for piece in sorted(kept)]


def _row(unit: UnitToLay) -> tuple[str, ...]:
    levels = [level(each) for each in unit.wanted_mm]
    levels += [WORDS.slabs_none] * (len(LETTERS) - len(levels))
    return (str(unit.piece), *levels, "", "", "", "", "")
