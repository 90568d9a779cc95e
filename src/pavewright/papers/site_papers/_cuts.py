"""The cut list by saw set-up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.laying import SetUpKind, saw_set_ups, settings_unit_by_unit
from pavewright.papers._words import one, source, whole
from pavewright.papers.look import (
    CalloutKind,
    SheetOfPaper,
    callout,
    heading,
    paragraph,
    pencil,
    rest,
    right,
    small,
    table,
)
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from pavewright.laying import LaidArea, SawSetUp, SetUpCut
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_DONE_MM = 14.0
"""Room to tick a set-up. [mm]"""


def cut_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return every cut of the job by set-up, with the caution against dust."""
    figures, laying = given.figures, given.plan.laying
    sheet = SheetOfPaper(WORDS.cuts, follows=True)
    if not any(laid.sawn for laid in laying.areas):
        return [sheet.add(paragraph(WORDS.cuts_none))]
    words = WORDS.dust(
        flow=f"{figures.saw_water_l_per_min.value:g}", mask=f"{figures.mask_factor.value:g}", m=one(laying.saw_m)
    )
    from_where = f"{source(figures.saw_water_l_per_min, figures)}; {source(figures.mask_factor, figures)}."
    sheet.add(callout(CalloutKind.CAUTION, words), small(from_where), paragraph(WORDS.cuts_words))
    for laid in laying.areas:
        if laid.sawn:
            sheet.add(*_area(laid))
    return [sheet]


def _area(laid: LaidArea) -> list[Block]:
    ups = saw_set_ups(laid)
    set_up, setting, cuts, done = WORDS.cuts_heads
    fences = sum(up.kind is SetUpKind.FENCE for up in ups)
    rows = [(str(up.number), _setting(up), "; ".join(_cut(up, cut) for cut in up.cuts), "") for up in ups]
    blocks = [
        heading(WORDS.cuts_area(area=laid.area, many=str(len(ups)))),
        small(WORDS.cuts_saved(here=str(fences), there=str(settings_unit_by_unit(laid)))),
        table((right(set_up), setting, rest(cuts), pencil(done, _DONE_MM)), rows, pad=3.0),
    ]
    if laid.fold_cuts.pieces:
        pieces = ", ".join(str(number) for number in laid.fold_cuts.pieces)
        blocks.append(paragraph(WORDS.folds(pieces=pieces, m=one(laid.fold_cuts.saw_m))))
    return blocks


def _setting(up: SawSetUp) -> str:
    if up.fence_mm is not None:
        return WORDS.fence(mm=whole(up.fence_mm))
    return WORDS.marked if up.angle_deg is None else WORDS.angle(deg=one(up.angle_deg))


def _cut(up: SawSetUp, cut: SetUpCut) -> str:
    unit, pieces = str(cut.unit), ", ".join(str(number) for number in cut.pieces)
    match up.kind:
        case SetUpKind.FENCE:
            return WORDS.along(unit=unit, cut=str(cut.cut), pieces=pieces)
        case SetUpKind.ANGLE:
            return WORDS.sloping(unit=unit, pieces=pieces)
        case SetUpKind.MARKED:
            return WORDS.by_mark(unit=unit, pieces=pieces)
