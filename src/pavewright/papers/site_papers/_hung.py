"""Strings as they hang, and the staff readings of an instrument that is set up."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.papers._words import level, whole
from pavewright.papers.look import CalloutKind, SheetOfPaper, callout, heading, paragraph, right, table
from pavewright.papers.site_papers._order_words import RESTS, WORDS
from pavewright.setting_out import PegRole
from pavewright.setting_out.hanging import staff_reading_mm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block, Head
    from pavewright.setting_out import LayerHeight, Peg, SettingOut
    from pavewright.setting_out.hanging import Crossing


def hung_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return what lies how far below each string as it hangs, and what the staff shows where an instrument stands."""
    setting = given.plan.setting_out
    work = setting.work
    sheet = SheetOfPaper(WORDS.hung, upright=False)
    mass, pull = f"{work.tools.string_kg_per_km:g}", f"{work.tools.string_pull_kg:g}"
    sheet.add(paragraph(WORDS.hung_first(mass=mass, pull=pull)))
    props = [WORDS.prop_item(name=each.name, sag=whole(each.sag_mm)) for each in work.hung if each.prop]
    if props:
        from_mm = whole(given.rules.value("setting_out.sag_shows_mm"))
        sheet.add(callout(CalloutKind.CHECK, WORDS.prop(strings=", ".join(props), from_mm=from_mm)))
    if work.stray:
        sheet.add(callout(CalloutKind.CHECK, WORDS.stray(pegs=", ".join(each.peg for each in work.stray))))
    for line in setting.base_lines:
        crossed = [each for each in work.crossings if each.area == line.area]
        if crossed:
            sheet.add(heading(line.area), _crossed(crossed))
    sheet.add(heading(WORDS.staff), *_staff(given))
    return [sheet]


def _layers(heights: tuple[LayerHeight, ...]) -> list[str]:
    return [f"to {each.layer.value}" for each in heights]


def _crossed(crossed: list[Crossing]) -> Block:
    peg, string, rests, at, sag = WORDS.hung_heads
    heads: list[str | Head] = [right(peg), string, rests, right(at), right(sag, "mm")]
    heads += [right(each, "mm") for each in _layers(crossed[0].heights)]
    rows = [
        (
            *(str(each.number), each.string, RESTS[each.hung_by], level(each.level_mm), whole(each.sag_mm)),
            *(whole(height.down_from_string_mm) for height in each.heights),
        )
        for each in crossed
    ]
    return table(heads, rows, type_size=8.0, pad=2.6)


def _staff(given: PaperInput) -> Iterator[Block]:
    """Give staff readings of each set-up; without one, what is added to a reading on a point of known level."""
    setting = given.plan.setting_out
    percent = whole(given.rules.value("setting_out.check_percent"))
    yield paragraph(WORDS.staff_first(limit=whole(math.ceil(setting.work.height_limit_mm)), percent=percent))
    for sight in setting.work.sights:
        if sight.level_mm is None:
            yield callout(CalloutKind.CHECK, WORDS.staff_unknown(name=sight.name, point=sight.point))
            continue
        yield paragraph(
            WORDS.staff_set(
                name=sight.name, height=level(sight.level_mm), back=whole(sight.backsight_mm), point=sight.point
            )
        )
        yield from _shown(setting, sight.level_mm, added=False)
    if not setting.work.sights:
        known = next(
            (point for point in given.plan.survey.points if point.level_mm is not None and point.levelled_by), None
        )
        if known is None or known.level_mm is None:
            yield paragraph(WORDS.staff_none)
            return
        yield paragraph(WORDS.staff_drop(point=known.name, level=level(known.level_mm)))
        yield from _shown(setting, known.level_mm, added=True)


def _shown(setting: SettingOut, height_mm: float, *, added: bool) -> Iterator[Block]:
    for line in setting.base_lines:
        pegs = [peg for peg in setting.pegs if peg.area == line.area and peg.role is not PegRole.BASE]
        if not pegs:
            continue
        heads = (
            *(right(WORDS.hung_heads[0]), right(WORDS.hung_heads[1], "mm")),
            *(right(each, "mm") for each in _layers(pegs[0].heights)),
        )
        yield heading(line.area)
        yield table(heads, [_row(peg, height_mm, added=added) for peg in pegs], type_size=8.0, pad=2.2)


def _row(peg: Peg, height_mm: float, *, added: bool) -> tuple[str, ...]:
    wanted = (peg.string_level_mm, *(each.level_mm for each in peg.heights))
    return str(peg.number), *(_reading(staff_reading_mm(height_mm, each), added=added) for each in wanted)


def _reading(shows_mm: float, *, added: bool) -> str:
    if added:
        return (WORDS.added if shows_mm >= 0.0 else WORDS.taken)(drop=whole(abs(shows_mm)))
    return whole(shows_mm) if shows_mm >= 0.0 else WORDS.staff_above
