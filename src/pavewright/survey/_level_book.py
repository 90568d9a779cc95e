"""Level books of a job: which is reduced from what, how they close, and the level of every point they touch."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.sums import Working
from pavewright.survey._levelling import (
    Sighting,
    arithmetic_checks,
    booking_faults,
    column_sums,
    greatest_misclosure_mm,
    reduce_rows,
    share_mm,
)
from pavewright.survey._remarks import Remarks, metres, millimetres
from pavewright.survey._types import ReducedLevelBook, ReducedRow

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import LevelBook, Measurements
    from pavewright.rules import Rulebook

_SAME_MM = 0.01
_NOTICED_MM = 0.5
"""Two levels of one point that round to the same millimetre are the same reading of a staff. [mm]"""


@dataclass(frozen=True, slots=True)
class KnownLevel:
    """A level and what gave it: ``benchmark``, ``given`` or the name of a level book. [mm]."""

    level_mm: float
    found_by: str


@dataclass(frozen=True, slots=True)
class LevelledPoints:
    """All books reduced, and the level of every point known by name."""

    books: tuple[ReducedLevelBook, ...]
    levels: Mapping[str, KnownLevel]


def reduce_level_books(measured: Measurements, rules: Rulebook, remarks: Remarks) -> LevelledPoints:
    """Reduce every book, each as soon as the level that it starts from is known.

    Books may stand in any order in the document; what was levelled first from the known points counts first.
    """
    levels = _known_beforehand(measured, remarks)
    waiting = [(number, book) for number, book in enumerate(measured.level_books) if _well_kept(number, book, remarks)]
    reduced: dict[int, ReducedLevelBook] = {}
    while ready := [entry for entry in waiting if entry[1].rows[0].point in levels]:
        for number, book in ready:
            rows = reduce_rows(_sightings(book), levels[book.rows[0].point].level_mm)
            _hold_against_booked(number, book, rows, rules, remarks)
            reduced[number] = _closed(book, rows, levels, rules, remarks)
            _take_levels(reduced[number], levels, rules, remarks)
        waiting = [entry for entry in waiting if entry not in ready]
    for number, book in waiting:
        point = book.rows[0].point
        remarks.fault(
            f"measurements.level_books.{number}.rows.0.point",
            f"Level book {book.name} starts on {point}, whose level nothing gives: read a backsight to a benchmark, "
            f"or to a point that another book has levelled.",
        )
    return LevelledPoints(tuple(reduced[number] for number in sorted(reduced)), levels)


def _known_beforehand(measured: Measurements, remarks: Remarks) -> dict[str, KnownLevel]:
    """Return the levels that are not read but known: benchmarks, and given points with a level."""
    levels: dict[str, KnownLevel] = {}
    entries = [
        (f"measurements.benchmarks.{number}.level_mm", mark.point, mark.level_mm, "benchmark")
        for number, mark in enumerate(measured.benchmarks)
    ] + [
        (f"measurements.points.{number}.level_mm", point.name, point.level_mm, "given")
        for number, point in enumerate(measured.points)
        if point.level_mm is not None
    ]
    for path, name, level_mm, found_by in entries:
        before = levels.setdefault(name, KnownLevel(level_mm, found_by))
        if abs(before.level_mm - level_mm) > _SAME_MM:
            remarks.fault(
                path,
                f"{name} is given two levels, {metres(before.level_mm)} and {metres(level_mm)}: leave one out.",
            )
    return levels


def _sightings(book: LevelBook) -> tuple[Sighting, ...]:
    return tuple(Sighting(row.point, row.backsight_mm, row.intermediate_mm, row.foresight_mm) for row in book.rows)


def _well_kept(number: int, book: LevelBook, remarks: Remarks) -> bool:
    """Tell what is wrong with the way a book was kept; return whether it can be reduced."""
    faults = booking_faults(_sightings(book))
    for row, sentence in faults:
        remarks.fault(f"measurements.level_books.{number}.rows.{row}", f"Level book {book.name}: {sentence}")
    return not faults


def _hold_against_booked(
    number: int, book: LevelBook, rows: tuple[ReducedRow, ...], rules: Rulebook, remarks: Remarks
) -> None:
    """Tell where a level that was worked out on site first leaves the readings; what is carried on is told once."""
    allowed = rules.value("survey.booked_level_tolerance_mm")
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
    rules: Rulebook,
    remarks: Remarks,
) -> ReducedLevelBook:
    """Return a reduced book with its misclosure told and, where it is small enough, shared out."""
    sums = column_sums(rows)
    setups = rows[-1].setup
    figure = rules.figure("survey.misclosure_per_setup_mm")
    limit = greatest_misclosure_mm(figure.value, setups)
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
                note=f"level found on {rows[-1].point} less its level from {known.found_by}",
            ),
            Working(f"{figure.value:g} × √{setups}", limit, "mm", (figure,), note=f"set-ups: {setups}"),
        )
    _tell_closing(book.name, rows[-1].point, misclosure, limit, setups, rules, remarks)
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


def _shared(row: ReducedRow, misclosure_mm: float, setups: int) -> ReducedRow:
    correction = share_mm(misclosure_mm, row.setup, setups)
    return replace(row, correction_mm=correction, adjusted_mm=row.level_mm + correction)


def _tell_closing(
    book: str, last: str, misclosure: float | None, limit: float, setups: int, rules: Rulebook, remarks: Remarks
) -> None:
    """Tell a run that closes on nothing, or closes too badly."""
    if misclosure is None:
        remarks.finding(
            Finding(
                "survey.book_not_closed",
                Severity.CHECK,
                f"level book {book}",
                f"Level book {book} ends on {last}, whose level is not known from elsewhere: nothing checks its "
                f"readings. Read back to the benchmark.",
            )
        )
    elif abs(misclosure) > limit:
        way = "above" if misclosure > 0 else "below"
        remarks.finding(
            Finding(
                "survey.misclosure",
                Severity.STOP,
                f"level book {book}",
                f"Level book {book} comes out {millimetres(abs(misclosure))} {way} the known level of {last} (found "
                f"less known {millimetres(misclosure, sign=True)}); {setups} set-up{'s' if setups > 1 else ''} may be "
                f"out by {millimetres(limit)}. Nothing was shared out: observe again.",
                value=misclosure,
                limit=limit,
                unit="mm",
                figure=rules.figure("survey.misclosure_per_setup_mm"),
                ways_out=("Observe the run again.", f"Check the known level of {last} and of the starting point."),
            )
        )


def _take_levels(book: ReducedLevelBook, levels: dict[str, KnownLevel], rules: Rulebook, remarks: Remarks) -> None:
    """Keep the levels that a book found; tell where a point already has another."""
    figure = rules.figure("survey.misclosure_per_setup_mm")
    for number, row in enumerate(book.rows):
        before = levels.setdefault(row.point, KnownLevel(row.adjusted_mm, book.name))
        out = row.adjusted_mm - before.level_mm
        closes = number == len(book.rows) - 1 and book.misclosure_mm is not None
        if abs(out) < _NOTICED_MM or closes:
            continue
        remarks.finding(
            Finding(
                "survey.levelled_twice",
                Severity.CHECK if abs(out) > figure.value else Severity.NOTE,
                f"level book {book.name}, point {row.point}",
                f"{row.point} is {metres(before.level_mm)} by {_named(before.found_by)} and {metres(row.adjusted_mm)} "
                f"by level book {book.name}, {millimetres(out, sign=True)} apart; the first is used. If that is too "
                f"much, read the staff on {row.point} again.",
                value=out,
                limit=figure.value,
                unit="mm",
                figure=figure,
            )
        )


def _named(found_by: str) -> str:
    return {"benchmark": "its benchmark", "given": "the level given for it"}.get(found_by, f"level book {found_by}")
