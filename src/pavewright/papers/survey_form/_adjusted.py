"""The adjusted survey: points, residuals, closure, and what is rejected or in doubt."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._words import one
from pavewright.papers.look import heading, paragraph, points
from pavewright.papers.survey_form._words import WORDS

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block, SheetOfPaper
    from pavewright.survey import Survey


def adjusted_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the survey as it was adjusted; none while nothing is measured."""
    survey = given.plan.survey
    if not survey.points:
        return []
    drawn, sheet = given.surveyed
    before = [heading(WORDS.rejected), *_doubts(survey)]
    return [drawn, replace(sheet, title=WORDS.adjusted, blocks=[*before, *sheet.blocks])]


def _doubts(survey: Survey) -> list[Block]:
    """Return the readings in doubt; where there are none, whether anything checks the others."""
    said = [*_tapes_in_doubt(survey), *_levels_in_doubt(survey)]
    if said:
        return [paragraph(WORDS.kept_in), points(said)]
    spare = _spare(survey)
    if not spare:
        return [paragraph(WORDS.unchecked)]
    found = [paragraph(WORDS.none_rejected(spare=str(spare)))]
    return found if _all_checked(survey) else [*found, paragraph(WORDS.partly)]


def _tapes_in_doubt(survey: Survey) -> list[str]:
    found = []
    for each in survey.tapes.suspects if survey.tapes is not None else ():
        if each.slip_mm is None:
            names = ", ".join(f"{start}–{end}" for start, end in each.alike)
            found.append(WORDS.tape_alike(names=names))
        else:
            way = "long" if each.slip_mm > 0.0 else "short"
            read = units.metres_text(each.measured_mm)
            off = f"{abs(each.slip_mm):.0f}"
            found.append(WORDS.tape_slip(start=each.start, end=each.end, read=read, off=off, way=way))
    return found


def _levels_in_doubt(survey: Survey) -> list[str]:
    together = survey.levels_together
    found = [
        WORDS.reading_doubt(words=each.words, off=f"{each.residual_mm:+.1f}")
        for each in (together.readings if together is not None else ())
        if each.suspect
    ]
    for book in survey.level_books:
        off, limit = book.misclosure_mm, book.limit_mm
        if off is not None and limit is not None and abs(off) > limit:
            found.append(WORDS.book_open(name=book.name, off=f"{off:+.1f}", limit=one(limit)))
    return found


def _spare(survey: Survey) -> int:
    """Return how many readings there are over what places and levels need."""
    tapes = 0 if survey.tapes is None else survey.tapes.spare
    together = survey.levels_together
    closed = sum(book.misclosure_mm is not None for book in survey.level_books)
    return tapes + (closed if together is None else together.spare)


def _all_checked(survey: Survey) -> bool:
    """Return whether other readings check every tape and every level."""
    tapes = survey.tapes is None or all(each.standardised is not None for each in survey.tapes.residuals)
    together = survey.levels_together
    if together is not None:
        return tapes and all(each.standardised is not None for each in together.readings)
    return tapes and all(book.misclosure_mm is not None for book in survey.level_books)
