"""The snag list, and the sheet on which the same places are read again later."""

from __future__ import annotations

import calendar
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job.on_site import SnagState
from pavewright.papers._blocks import SheetOfPaper, heading, lines, paragraph, pencil, rest, right, table
from pavewright.papers._laid_words import SNAG_KINDS, SNAG_STATES, WORDS
from pavewright.papers._words import day, level, one

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import AsLaid, Job
    from pavewright.job.on_site import Snag


def snag_sheet(job: Job) -> SheetOfPaper | None:
    """Return the snag list, open ones first; None where there are none."""
    if not job.snags:
        return None
    sheet = SheetOfPaper(WORDS.snags, follows=True)
    still = [each for each in job.snags if each.state is SnagState.OPEN]
    sheet.add(paragraph(WORDS.snags_open(count=str(len(still)), all=str(len(job.snags)))))
    ordered = sorted(job.snags, key=lambda each: each.state is not SnagState.OPEN)
    rows = [
        (
            each.name,
            SNAG_KINDS[each.kind],
            each.what or "–",
            _place(each),
            each.owner or (WORDS.nobody if each.state is SnagState.OPEN else "–"),
            _until(each),
            SNAG_STATES[each.state],
        )
        for each in ordered
    ]
    heads = ("snag", "kind", rest("what"), "where", "who", "until", "state")
    sheet.add(table(heads, rows, type_size=8.0))
    return sheet


def _place(snag: Snag) -> str:
    if snag.x_mm is None or snag.y_mm is None:
        return snag.area or WORDS.place_unknown
    return WORDS.at(area=snag.area or "–", x=one(units.mm_to_m(snag.x_mm)), y=one(units.mm_to_m(snag.y_mm)))


def _until(snag: Snag) -> str:
    if snag.closed_on is not None:
        return day(snag.closed_on)
    return WORDS.no_day if snag.due is None else day(snag.due)


def again_sheet(taken: AsLaid) -> SheetOfPaper:
    """Return a sheet for reading the same places and the same fixed marks again."""
    sheet = SheetOfPaper(WORDS.again, follows=True)
    first, second = months_on(taken.date, 3), months_on(taken.date, 12)
    sheet.add(paragraph(WORDS.again_about(first=day(first), second=day(second))), heading(WORDS.again_marks))
    marks = [(each.name, _level(each.level_mm), "", "") for each in taken.marks]
    if marks:
        sheet.add(
            table((rest("mark"), right(WORDS.as_laid, "level"), pencil("found"), pencil("found")), marks, pad=4.0)
        )
    else:
        sheet.add(paragraph(WORDS.no_marks))
    rows = [
        (each.label or f"R{number}", each.area, _level(each.level_mm), "", "")
        for number, each in enumerate(taken.readings, start=1)
        if each.level_mm is not None
    ]
    heads = ("at", rest("area"), right(WORDS.as_laid, "level"), pencil("found"), pencil("found"))
    sheet.add(table(heads, rows, pad=4.0), lines(("Date", "Read by", "Instrument")))
    return sheet


def _level(value_mm: float | None) -> str:
    return "–" if value_mm is None else level(value_mm)


def months_on(date: dt.date, months: int) -> dt.date:
    """Return the same day so many months later; the last of a month that is shorter.

    Args:
        date: A day.
        months: How many months later. [-]
    """
    years, month = divmod(date.month - 1 + months, 12)
    last = calendar.monthrange(date.year + years, month + 1)[1]
    return date.replace(year=date.year + years, month=month + 1, day=min(date.day, last))
