"""The form as a document: front, sketch, tapes, level book, walk round, adjusted survey."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import sketch_grid
from pavewright.papers._words import day
from pavewright.papers.look import (
    CalloutKind,
    Document,
    FormLine,
    SheetOfPaper,
    callout,
    checklist,
    drawing_sheet,
    form,
    heading,
    paragraph,
    small,
)
from pavewright.papers.survey_form._adjusted import adjusted_sheets
from pavewright.papers.survey_form._books import level_sheet, tape_sheet
from pavewright.papers.survey_form._walk import walk_sheet
from pavewright.papers.survey_form._words import WORDS
from pavewright.pipeline import MissingCode

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_AT_THE_DESK = frozenset(
    {
        *(MissingCode.LAYOUT, MissingCode.LABOUR_PRICE, MissingCode.PRICES, MissingCode.OVERHEAD),
        *(MissingCode.MARGIN, MissingCode.TAX, MissingCode.PEOPLE, MissingCode.START),
    }
)
"""What nobody finds out at the house."""
_MAX_OPEN = 12
"""So many open things stand on the first sheet."""


def document(given: PaperInput) -> Document:
    """Return the survey form, filled in as far as the job knows, with the adjusted survey where there is one."""
    plan = given.plan
    front = SheetOfPaper(WORDS.title).add(
        callout(CalloutKind.NOTE, WORDS.how), heading(WORDS.who), _who(given), *_open(given)
    )
    sketch = drawing_sheet(sketch_grid(plan), WORDS.sketch).add(small(WORDS.sketch_words))
    return Document(
        WORDS.title,
        (front, walk_sheet(plan), sketch, tape_sheet(plan), level_sheet(given), *adjusted_sheets(given)),
    )


def _who(given: PaperInput) -> Block:
    who, taken = given.plan.job.identity, given.plan.job.measurements
    return form(
        [
            FormLine(WORDS.job, value=f"{who.job} {who.title}"),
            FormLine(WORDS.client, value=who.client),
            FormLine(WORDS.address, value=who.address),
            FormLine(WORDS.phone),
            FormLine(WORDS.visited, value=day(who.date) if given.plan.survey.points else ""),
            FormLine(WORDS.surveyor),
            FormLine(WORDS.weather),
            FormLine(WORDS.instrument),
            FormLine(WORDS.datum, value=taken.datum if given.plan.survey.points else ""),
        ]
    )


def _open(given: PaperInput) -> Iterator[Block]:
    """Give what the job does not know or takes as given, each with room to write; nothing left says who looked."""
    missing = [each.words for each in given.missing or () if each.code not in _AT_THE_DESK]
    asked = [*missing, *given.plan.survey.assumptions]
    yield heading(WORDS.next_open)
    if not asked:
        yield paragraph(WORDS.not_looked if given.missing is None else WORDS.none_open)
        return
    yield checklist(asked[:_MAX_OPEN])
    if len(asked) > _MAX_OPEN:
        yield small(WORDS.open_more(count=str(len(asked) - _MAX_OPEN)))
