"""The sheets of tapes and of the level book: what is known is printed, what is open comes first, the rest is empty."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._words import amount, source
from pavewright.papers._words import level as level_text
from pavewright.papers.look import CheckRow, SheetOfPaper, checklist, heading, paragraph, pencil, rest, small, table
from pavewright.papers.survey_form._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.papers._input import PaperInput
    from pavewright.pipeline import Plan

_TAPE_ROWS, _OFFSET_ROWS, _LEVEL_ROWS = 22, 9, 24
"""Rows of a sheet, printed and empty together."""
_MIN_EMPTY = 6
"""So many empty rows are left in any case."""
_PAD = 5.0
"""Room above and below the words of a cell that is written in. [pt]"""


def tape_sheet(plan: Plan) -> SheetOfPaper:
    """Return the sheet of tapes: those to take first, then empty rows."""
    ends, reads, note = WORDS.tapes_heads[:2], WORDS.tapes_heads[2:4], WORDS.tapes_heads[4]
    heads = (*(pencil(words, 24.0) for words in ends), *(pencil(words, 32.0) for words in reads), rest(note))
    plan_of = plan.job.measurements.tape_plan
    taken = 0 if plan_of is None else len(plan_of.tapes)
    offsets = [pencil(words, 22.0) for words in WORDS.offsets_heads[:2]]
    offsets += [pencil(words, 26.0) for words in WORDS.offsets_heads[2:5]]
    return SheetOfPaper(WORDS.tapes).add(
        paragraph(WORDS.tapes_words),
        *([paragraph(WORDS.taken(count=str(taken)))] if taken else []),
        table(heads, _filled_up(_tapes(plan), _TAPE_ROWS), pad=_PAD, boxed=True),
        heading(WORDS.offsets),
        table((*offsets, rest(WORDS.offsets_heads[5])), [("",) * 6] * _OFFSET_ROWS, pad=_PAD, boxed=True),
    )


def _filled_up(rows: Sequence[tuple[str, ...]], many: int, wide: int = 5) -> list[tuple[str, ...]]:
    """Return rows with empty ones after them, so that there is always room to write."""
    empty = max(many - len(rows), _MIN_EMPTY)
    return [*rows, *[("",) * wide] * empty]


def _tapes(plan: Plan) -> list[tuple[str, ...]]:
    """Return the tapes to take: the one that helps most, sides that nobody taped, and those in doubt."""
    adjusted, taken = plan.survey.tapes, plan.job.measurements.tape_plan
    tapes = () if taken is None else taken.tapes
    have = {frozenset((tape.start, tape.end)) for tape in tapes}
    wanted: list[tuple[str, ...]] = []
    if adjusted is not None and adjusted.next_tape is not None:
        more = adjusted.next_tape
        have.add(frozenset((more.start, more.end)))
        about = WORDS.tape_next(length=f"{units.mm_to_m(more.length_mm):.2f}")
        wanted.append((more.start, more.end, "", "", about))
    if tapes:
        wanted += [
            (side.start.name, side.end.name, "", "", "")
            for area in plan.survey.site.areas
            for side in area.sides
            if side.start.rise_mm == 0.0 and frozenset((side.start.name, side.end.name)) not in have
        ]
    doubted = () if adjusted is None else tuple((each.start, each.end) for each in adjusted.suspects)
    return wanted + [(start, end, "", "", WORDS.tape_doubt) for start, end in doubted]


def level_sheet(given: PaperInput) -> SheetOfPaper:
    """Return the level book: points that nobody read first, then empty rows, its sums and its checks."""
    limit = given.rules.figure("survey.misclosure_per_setup_mm")
    point, *readings, level, remark = WORDS.levels_heads
    heads = (pencil(point, 26.0), *(pencil(words, 18.0) for words in readings), pencil(level, 21.0), rest(remark))
    blank = ("",) * (len(heads) - 1)
    known = given.plan.job.measurements.benchmarks[:1]
    rows = [(mark.point, *blank[:-2], level_text(mark.level_mm), WORDS.known_level) for mark in known]
    rows += [(name, *blank[:-1], WORDS.not_read) for name in _not_read(given)]
    rows = [*rows, *[("", *blank)] * max(_LEVEL_ROWS - len(rows), _MIN_EMPTY), (WORDS.sum_row, *blank)]
    return SheetOfPaper(WORDS.levels).add(
        paragraph(WORDS.levels_words),
        table(heads, rows, pad=_PAD, boxed=True),
        heading(WORDS.checks),
        checklist(
            [
                CheckRow(WORDS.check_one),
                CheckRow(WORDS.check_two),
                CheckRow(WORDS.check_three),
                CheckRow(WORDS.check_four, limit=WORDS.check_limit(limit=amount(limit.value))),
            ]
        ),
        small(WORDS.check_limit_from(source=source(limit, given.figures))),
        small(WORDS.collimation),
    )


def _not_read(given: PaperInput) -> list[str]:
    """Return names of what has no level yet and wants one: walls, doors, covers, edges, then corners of the paving."""
    survey = given.plan.survey
    corners = {corner.name for area in survey.site.areas for corner in area.ring.corners}
    names = [each.name for each in survey.not_read]
    names += [point.name for point in survey.points if point.name in corners and point.level_mm is None]
    return list(dict.fromkeys(names))
