"""The order of work with its checks, lost pegs and arcs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import distance
from pavewright.papers._words import whole
from pavewright.papers.look import (
    CalloutKind,
    SheetOfPaper,
    callout,
    heading,
    paragraph,
    pencil,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers.site_papers._order_words import FIXED, TOOLS, WAYS, WORDS
from pavewright.setting_out.errors import FixedBy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.setting_out import Work
    from pavewright.setting_out.errors import FixedPlace, WorkStep
    from pavewright.setting_out.shapes import CurveSetOut


def order_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the order of work, each step with its check, and how what is lost comes back."""
    work = given.plan.setting_out.work
    percent = whole(given.rules.value("setting_out.check_percent"))
    assumed = [TOOLS[each.tool] for each in work.tools.assumed]
    sheet = SheetOfPaper(WORDS.title, upright=False)
    sheet.add(paragraph(WORDS.first))
    told = WORDS.assumed(tools=", ".join(assumed)) if assumed else WORDS.entered
    sheet.add(callout(CalloutKind.CHECK if assumed else CalloutKind.NOTE, told))
    number, what, how, within, check, reads, limit, shows, found = WORDS.heads
    heads = (
        *(right(number), what, rest(how), right(within, "mm"), check, right(reads, "m")),
        *(right(limit, "mm"), right(shows, "mm"), pencil(found)),
    )
    sheet.add(table(heads, [row for step in work.steps for row in _rows(step)], type_size=8.0, pad=3.0))
    sheet.add(small(WORDS.within(percent=percent)), paragraph(WORDS.strings(limit=_up(work.height_limit_mm))))
    sheet.add(*_curves(work), *_lost(work))
    return [sheet]


def _up(value_mm: float) -> str:
    """Return millimetres rounded up: what may be off is not made to look nearer."""
    return whole(math.ceil(value_mm - 1e-9))


def _rows(step: WorkStep) -> Iterator[tuple[str, ...]]:
    head = str(step.number), step.place, _how(step), _up(step.error.within_mm)
    shows = WORDS.part if step.finds_mm is None else _up(step.finds_mm)
    if not step.checks:
        yield (*head, WORDS.twice if step.fixed_by is FixedBy.BASE else WORDS.later, "", "", "", "")
    for number, check in enumerate(step.checks):
        first = head if number == 0 else ("", "", "", "")
        reads = WORDS.check(start=check.start, end=check.end), units.metres_text(check.expected_mm)
        yield (*first, *reads, _up(check.limit_mm), shows if number == 0 else "", "")


def _how(step: WorkStep) -> str:
    first, *others = (units.metres_text(abs(each)) for each in step.tapes_mm)
    one, two = step.stations
    if step.fixed_by is FixedBy.BASE:
        return WORDS.base(start=one, length=first, area=step.area)
    if step.fixed_by is FixedBy.SQUARE:
        said = WORDS.left if step.tapes_mm[1] > 0.0 else WORDS.right
        return said(along=first, one=one, off=others[0])
    cut = whole(step.cut_deg or 0.0)
    return WORDS.two_tapes(first=first, one=one, second=others[0], two=two, cut=cut)


def _curves(work: Work) -> list[Block]:
    if not work.curves:
        return []
    said = [line for curve in work.curves for line in _curve(curve)]
    return [heading(WORDS.curves), points(said)]


def _curve(curve: CurveSetOut) -> Iterator[str]:
    radius = units.metres_text(curve.radius_mm)
    if curve.is_swung:
        yield WORDS.swing(
            side=curve.side,
            area=curve.area,
            radius=radius,
            along=units.metres_text(abs(curve.centre_along_mm)),
            way=WORDS.onward if curve.centre_along_mm >= 0.0 else WORDS.back,
            off=units.metres_text(abs(curve.centre_off_mm)),
            hand=WORDS.to_left if curve.centre_off_mm > 0.0 else WORDS.to_right,
        )
    else:
        why = WORDS.short if curve.hindrance is None else WORDS.blocked(what=WAYS[curve.hindrance])
        yield WORDS.no_swing(side=curve.side, area=curve.area, radius=radius, why=why)
    for number, string in enumerate(curve.offsets, start=1):
        pairs = [
            WORDS.pair(along=units.metres_text(along), off=units.metres_text(off))
            for along, off in zip(string.along_mm, string.off_mm, strict=True)
        ]
        length = units.metres_text(distance(string.start_at, string.end_at))
        yield f"{WORDS.offsets(number=number, side=curve.side, length=length)}: {', '.join(pairs)}"


def _lost(work: Work) -> list[Block]:
    if not work.lost and not work.not_back:
        return []
    peg, first, first_m, second, second_m, cross, within = WORDS.lost_heads
    heads = (
        *(peg, rest(first), right(first_m), rest(second), right(second_m)),
        *(right(cross), right(within, "mm")),
    )
    rows = [
        (
            each.peg,
            *(_fixed(each.first), units.metres_text(each.tapes_mm[0])),
            *(_fixed(each.second), units.metres_text(each.tapes_mm[1])),
            (WORDS.steep if each.is_steep else WORDS.flat)(cut=whole(each.cut_deg)),
            _up(2.0 * each.radial_mm),
        )
        for each in work.lost
    ]
    blocks: list[Block] = [heading(WORDS.lost), paragraph(WORDS.lost_first)]
    if rows:
        blocks.append(table(heads, rows, type_size=8.0, pad=2.6))
    if work.not_back:
        blocks.append(paragraph(WORDS.not_back(pegs=", ".join(work.not_back))))
    return blocks


def _fixed(place: FixedPlace) -> str:
    said = FIXED[place.kind]
    return said(name=place.name, number=place.number) if place.number else said(name=place.name)
