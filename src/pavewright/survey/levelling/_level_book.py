"""Level books of a job: which is reduced from what, how they close, and the level of every point they touch."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity, worded
from pavewright.job import MisclosureRule
from pavewright.sums import Working
from pavewright.survey._codes import Code
from pavewright.survey._remarks import Remarks, metres, millimetres
from pavewright.survey._types_levels import LevelledBy, LevelSource, ReducedLevelBook, ReducedRow
from pavewright.survey.levelling import _words as words
from pavewright.survey.levelling._known_levels import (
    ADJUST,
    NOTICED_MM,
    KnownLevel,
    known_beforehand,
    take_height,
)
from pavewright.survey.levelling._levelling import (
    Sighting,
    arithmetic_checks,
    column_sums,
    greatest_misclosure_mm,
    reduce_rows,
    share_mm,
)
from pavewright.survey.levelling._levels_together import adjust_together

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import LevelBook, Measurements
    from pavewright.rules import Figure
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types_levels import LevelsTogether


@dataclass(frozen=True, slots=True)
class LevelledPoints:
    """All books reduced, and the level of every point known by name."""

    books: tuple[ReducedLevelBook, ...]
    levels: Mapping[str, KnownLevel]
    together: LevelsTogether | None = None


def reduce_level_books(measured: Measurements, figures: SurveyFigures, remarks: Remarks) -> LevelledPoints:
    """Reduce every book, each as soon as the level that it starts from is known.

    Books may stand in any order in the document; what was levelled first from the known points counts first. That each
    can be reduced and starts from a point with a level was checked against the document when it was read.
    """
    levels = known_beforehand(measured, remarks)
    held = {name: known.level_mm for name, known in levels.items()}
    together = measured.levels_together
    # what each run by itself says of points levelled twice is settled by the fit of all
    own = Remarks() if together else remarks
    waiting = list(enumerate(measured.level_books))
    heights = list(measured.heights_over)
    reduced: dict[int, ReducedLevelBook] = {}
    while True:
        ready = [entry for entry in waiting if entry[1].rows[0].point in levels]
        for number, book in ready:
            rows = reduce_rows(_sightings(book), levels[book.rows[0].point].level_mm)
            _hold_against_booked(number, book, rows, figures, remarks)
            reduced[number] = _closed(book, rows, levels, measured, figures)
            if not together:
                _tell_closing(
                    reduced[number], None, _limit_rule(book, reduced[number].setups, measured, figures), remarks
                )
            _take_levels(reduced[number], levels, figures, own)
        waiting = [entry for entry in waiting if entry not in ready]
        reached = [each for each in heights if each.over in levels or each.point in levels]
        for each in reached:
            take_height(each, levels, figures, own)
        heights = [each for each in heights if each not in reached]
        if not ready and not reached:
            break
    books = tuple(reduced[number] for number in sorted(reduced))
    found = adjust_together(books, measured.heights_over, held, figures, remarks) if together else None
    if found is None:
        return LevelledPoints(books, levels)
    fit, points, books = found
    for number, run in zip(sorted(reduced), books, strict=True):
        changed = max(abs(row.correction_mm) for row in run.rows)
        _tell_closing(run, changed, _limit_rule(measured.level_books[number], run.setups, measured, figures), remarks)
    adjusted = {
        name: levels[name] if name in held else KnownLevel(level, LevelSource(LevelledBy.TOGETHER))
        for name, level in points.items()
    }
    return LevelledPoints(books, levels | adjusted, fit)


def _sightings(book: LevelBook) -> tuple[Sighting, ...]:
    return tuple(Sighting(row.point, row.backsight_mm, row.intermediate_mm, row.foresight_mm) for row in book.rows)


def _hold_against_booked(
    number: int, book: LevelBook, rows: tuple[ReducedRow, ...], figures: SurveyFigures, remarks: Remarks
) -> None:
    """Report where a level that was worked out on site first leaves the readings; what is carried on once."""
    allowed = figures.booked_level_tolerance_mm.value
    carried = 0.0
    for index, (entered, row) in enumerate(zip(book.rows, rows, strict=True)):
        if entered.booked_level_mm is None:
            continue
        out = entered.booked_level_mm - row.level_mm
        if abs(out) <= allowed:
            carried = 0.0
        elif abs(out - carried) > allowed:
            carried = out
            remarks.fault(
                f"measurements.level_books.{number}.rows.{index}.booked_level_mm",
                f"Level book {book.name}, row {index + 1}, point {row.point}: {metres(entered.booked_level_mm)} is "
                f"booked and the readings give {metres(row.level_mm)}, {millimetres(abs(out))} apart: read the staff "
                f"there again, or work the row out again and book it again.",
            )


def _closed(
    book: LevelBook,
    rows: tuple[ReducedRow, ...],
    levels: Mapping[str, KnownLevel],
    measured: Measurements,
    figures: SurveyFigures,
) -> ReducedLevelBook:
    """Return a reduced book with its misclosure, distributed where it is small enough."""
    sums = column_sums(rows)
    setups = rows[-1].setup
    figure, many, reported = _limit_rule(book, setups, measured, figures)
    limit = greatest_misclosure_mm(figure.value, many)
    known = levels.get(rows[-1].point)
    misclosure = None if known is None else rows[-1].level_mm - known.level_mm
    shared_out = misclosure is not None and abs(misclosure) <= limit and setups > 1
    working: tuple[Working, ...] = ()
    if known is not None and misclosure is not None:
        working = (
            Working(
                f"{metres(rows[-1].level_mm)} − {metres(known.level_mm)}",
                misclosure,
                "mm",
                note=f"level found on {rows[-1].point} less its known level ({known.found_by.words})",
            ),
            Working(f"{figure.value:g} × √{many:g}", limit, "mm", (figure,), note=reported),
        )
    checks = arithmetic_checks(rows, tuple(row.level_mm for row in rows))
    if shared_out and misclosure is not None:
        rows = (rows[0], *(_shared(row, misclosure, setups) for row in rows[1:]))
    return ReducedLevelBook(
        name=book.name,
        rows=rows,
        sum_backsights_mm=sums.backsights_mm,
        sum_foresights_mm=sums.foresights_mm,
        sum_rises_mm=sums.rises_mm,
        sum_falls_mm=sums.falls_mm,
        checks=checks,
        setups=setups,
        misclosure_mm=misclosure,
        limit_mm=None if misclosure is None else limit,
        shared_out=shared_out,
        working=working,
    )


def _limit_rule(
    book: LevelBook, setups: int, measured: Measurements, figures: SurveyFigures
) -> tuple[Figure, float, str]:
    """Return the figure of the greatest misclosure, what the root is taken of, and that in words."""
    rule = measured.misclosure_rule
    if rule is MisclosureRule.SETUPS or book.length_m is None:
        figure = figures.misclosure_per_setup_mm
        return figure, float(setups), f"{setups} set-up{'s' if setups > 1 else ''}"
    third = rule is MisclosureRule.THIRD_ORDER
    figure = figures.misclosure_third_order_mm if third else figures.misclosure_per_root_km_mm
    return figure, units.m_to_km(book.length_m), f"a run of {book.length_m:g} m"


def _shared(row: ReducedRow, misclosure_mm: float, setups: int) -> ReducedRow:
    correction = share_mm(misclosure_mm, row.setup, setups)
    return replace(row, correction_mm=correction, adjusted_mm=row.level_mm + correction)


def _tell_closing(
    run: ReducedLevelBook, changed_mm: float | None, by: tuple[Figure, float, str], remarks: Remarks
) -> None:
    """Report a run that closes on nothing, or closes too badly.

    Args:
        run: The run, reduced.
        changed_mm: How far its levels were changed by the fit of all readings; None where it stands by itself. [mm]
        by: Figure of the limit, what the root is taken of, and that in words.
        remarks: Where it is reported.
    """
    figure, many, reported = by
    limit = greatest_misclosure_mm(figure.value, many)
    book, last, misclosure = run.name, run.rows[-1].point, run.misclosure_mm
    if misclosure is None:
        remarks.finding(
            Finding(
                Code.BOOK_NOT_CLOSED,
                Severity.CHECK,
                f"level book {book}",
                words.book_not_closed(book, last),
            )
        )
    elif abs(misclosure) > limit:
        remarks.finding(
            Finding(
                Code.MISCLOSURE,
                Severity.STOP,
                f"level book {book}",
                words.misclosure(book, last, misclosure, (reported, limit), changed_mm),
                value=misclosure,
                limit=limit,
                unit="mm",
                figure=figure,
                options=worded((words.OBSERVE_AGAIN, words.check_known(last))),
            )
        )


def _take_levels(
    book: ReducedLevelBook, levels: dict[str, KnownLevel], figures: SurveyFigures, remarks: Remarks
) -> None:
    """Keep the levels that a book found; report where a point already has another."""
    figure = figures.misclosure_per_setup_mm
    for number, row in enumerate(book.rows):
        before = levels.setdefault(row.point, KnownLevel(row.adjusted_mm, LevelSource(LevelledBy.BOOK, book.name)))
        out = row.adjusted_mm - before.level_mm
        closes = number == len(book.rows) - 1 and book.misclosure_mm is not None
        if abs(out) < NOTICED_MM or closes:
            continue
        remarks.finding(
            Finding(
                Code.LEVELLED_TWICE,
                Severity.CHECK if abs(out) > figure.value else Severity.NOTE,
                f"level book {book.name}, point {row.point}",
                words.book_against_level(row.point, (before.level_mm, before.found_by), row.adjusted_mm, book.name),
                value=out,
                limit=figure.value,
                unit="mm",
                figure=figure,
                options=(ADJUST,),
            )
        )
