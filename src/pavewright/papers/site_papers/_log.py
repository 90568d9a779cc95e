"""The log of a day, to be filled in by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers.look import FormLine, SheetOfPaper, form, paragraph, pencil, rest, table
from pavewright.papers.site_papers._logged import logged_sheets
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput

_PEOPLE = 6
_LINE_MM = 8.5
"""Height of a line to write on. [mm]"""


def log_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the logs that were written, and the form of one day."""
    programme = given.plan.programme
    planned = given.so_far is None or programme is not None
    days = WORDS.log_days(days=str(programme.site_days)) if planned else WORDS.log_days_unknown
    who, begin, end, hours, what = WORDS.log_people
    heads = (pencil(who, 50.0), pencil(begin, 22.0), pencil(end, 22.0), pencil(hours, 20.0), rest(what))
    return [
        *logged_sheets(given),
        SheetOfPaper(WORDS.log, measured=False).add(
            paragraph(WORDS.log_words(days=days)),
            form([FormLine(WORDS.log_day), FormLine(WORDS.log_weather)], columns=2),
            form([FormLine(WORDS.log_temperature)]),
            table(heads, [("",) * len(heads)] * _PEOPLE, pad=5.5, boxed=True),
            form([line for words in _ASKED for line in _lines(words)]),
        ),
    ]


_ASKED = (
    (WORDS.log_done, 3),
    (WORDS.log_hold, 2),
    (WORDS.log_batches, 2),
    (WORDS.log_saw, 2),
    (WORDS.log_problems, 3),
    (WORDS.log_visitors, 1),
    (WORDS.log_photos, 1),
    (WORDS.log_tomorrow, 1),
)
"""What is asked, with how many lines to write on."""


def _lines(asked: tuple[str, int]) -> list[FormLine]:
    words, many = asked
    return [FormLine(words, high_mm=_LINE_MM), *(FormLine("", high_mm=_LINE_MM) for _ in range(many - 1))]
