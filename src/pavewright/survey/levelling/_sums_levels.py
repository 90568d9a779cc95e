"""Sums on levels: the level book, and a run of readings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.job import BookingSlip, booking_slips
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey._remarks import metres, millimetres
from pavewright.survey.levelling._levelling import (
    Sighting,
    arithmetic_checks,
    column_sums,
    greatest_misclosure_mm,
    levels_by_collimation,
    reduce_rows,
    share_mm,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.survey._types_levels import ReducedRow

_GAP = "-"
_PRINTED_MM = 1.0
_MIN_READINGS = 2


def _readings(name: str, row: tuple[str, ...]) -> tuple[float | None, ...]:
    """Return a column of a level book; a dash is a gap."""
    found: list[float | None] = []
    for number, word in enumerate(row, start=1):
        try:
            found.append(None if str(word).strip() in {"", _GAP} else float(word))
        except ValueError:
            message = f"{name}, row {number}: {word!r} is no reading; write a number, or {_GAP} where there is none."
            raise SumRefusedError(message) from None
        if found[-1] is not None and not math.isfinite(found[-1]):
            message = f"{name}, row {number}: {word!r} is no reading."
            raise SumRefusedError(message)
    return tuple(found)


def _one_or_none(name: str, row: tuple[str, ...]) -> float | None:
    found = [reading for reading in _readings(name, row) if reading is not None]
    if len(found) > 1:
        message = f"{name} takes one level or none."
        raise SumRefusedError(message)
    return found[0] if found else None


def level_book(
    backsights_mm: tuple[str, ...],
    intermediates_mm: tuple[str, ...],
    foresights_mm: tuple[str, ...],
    first_level_mm: float,
    closing_level_mm: tuple[str, ...],
    printed_levels_mm: tuple[str, ...],
    misclosure_per_setup_mm: float,
) -> dict[str, Value]:
    """Return a level book reduced both ways, with its checks and, where it closes, its misclosure.

    Source: nptel_surveying, module 4
    """
    columns = (
        _readings("backsights_mm", backsights_mm),
        _readings("intermediates_mm", intermediates_mm),
        _readings("foresights_mm", foresights_mm),
    )
    if len({len(column) for column in columns}) > 1:
        message = f"The three columns need as many rows each; write {_GAP} where there is no reading."
        raise SumRefusedError(message)
    sightings = tuple(Sighting(str(number), *row) for number, row in enumerate(zip(*columns, strict=True), start=1))
    return _reduced(sightings, first_level_mm, closing_level_mm, printed_levels_mm, misclosure_per_setup_mm)


def level_run(
    readings_mm: tuple[float, ...],
    moved_after: tuple[float, ...],
    first_level_mm: float,
    closing_level_mm: tuple[str, ...],
    misclosure_per_setup_mm: float,
) -> dict[str, Value]:
    """Return readings written one after the other, reduced; the instrument was moved after some of them.

    Source: nptel_surveying, module 4
    """
    moves = sorted(round(number) for number in moved_after)
    setups = tuple(readings_mm[start:end] for start, end in zip((0, *moves), (*moves, len(readings_mm)), strict=True))
    if any(len(setup) < _MIN_READINGS for setup in setups):
        message = (
            "moved_after: between two moves there are a backsight and a foresight at least; count the readings again."
        )
        raise SumRefusedError(message)
    sightings: list[Sighting] = []
    for backsight, *others in setups:
        if sightings:
            sightings[-1] = Sighting(sightings[-1].point, backsight, None, sightings[-1].foresight_mm)
        else:
            sightings.append(Sighting("1", backsight))
        for number, reading in enumerate(others):
            last = number == len(others) - 1
            point = str(len(sightings) + 1)
            sightings.append(Sighting(point, None, None if last else reading, reading if last else None))
    return _reduced(tuple(sightings), first_level_mm, closing_level_mm, (), misclosure_per_setup_mm)


def _slip_words(row: int, slip: BookingSlip) -> str:
    """Return a slip in the keeping of the book with its row, counted from zero, as a sentence."""
    return f"{'The book' if slip is BookingSlip.ONE_ROW else f'Row {row + 1}'}: {slip.words}"


def _reduced(
    sightings: tuple[Sighting, ...],
    first_level_mm: float,
    closing_level_mm: tuple[str, ...],
    printed_levels_mm: tuple[str, ...],
    misclosure_per_setup_mm: float,
) -> dict[str, Value]:
    slips = booking_slips(sightings)
    if slips:
        raise SumRefusedError(" ".join(_slip_words(number, slip) for number, slip in slips))
    rows = reduce_rows(sightings, first_level_mm)
    _hold_against_printed(rows, _readings("printed_levels_mm", printed_levels_mm))
    sums = column_sums(rows)
    levels = tuple(row.level_mm for row in rows)
    checks = arithmetic_checks(rows, levels)
    return {
        "levels_mm": levels,
        "levels_by_collimation_mm": levels_by_collimation(rows),
        "last_level_mm": levels[-1],
        "steps_mm": tuple((row.rise_mm or 0.0) - (row.fall_mm or 0.0) for row in rows[1:]),
        "collimations_mm": _collimations(rows),
        "sum_backsights_mm": sums.backsights_mm,
        "sum_intermediates_mm": sums.intermediates_mm,
        "sum_foresights_mm": sums.foresights_mm,
        "sum_rises_mm": sums.rises_mm,
        "sum_falls_mm": sums.falls_mm,
        "backsights_less_foresights_mm": checks[0].left_mm,
        "rises_less_falls_mm": checks[0].right_mm,
        "last_less_first_mm": checks[1].right_mm,
        "sum_levels_mm": checks[3].left_mm,
        "collimations_less_readings_mm": checks[3].right_mm,
        "setups": float(rows[-1].setup),
        **_closing(rows, _one_or_none("closing_level_mm", closing_level_mm), misclosure_per_setup_mm),
    }


def _collimations(rows: Sequence[ReducedRow]) -> tuple[float, ...]:
    """Return one height of collimation for each set-up."""
    return tuple(row.collimation_mm for row in rows if row.backsight_mm is not None)


def _closing(rows: Sequence[ReducedRow], closing_mm: float | None, per_setup_mm: float) -> dict[str, Value]:
    setups = rows[-1].setup
    if per_setup_mm < 0.0:
        message = "misclosure_per_setup_mm cannot be below nothing."
        raise SumRefusedError(message)
    limit = greatest_misclosure_mm(per_setup_mm, setups)
    if closing_mm is None:
        return {"misclosure_mm": (), "limit_mm": limit, "verdict": "closes on nothing", "shared_levels_mm": ()}
    misclosure = rows[-1].level_mm - closing_mm
    shared = tuple(row.level_mm + share_mm(misclosure, row.setup, setups) for row in rows[1:])
    verdict = "within the limit" if abs(misclosure) <= limit else "observe again"
    return {
        "misclosure_mm": (misclosure,),
        "limit_mm": limit,
        "verdict": verdict if limit > 0.0 else "no limit given",
        "shared_levels_mm": (rows[0].level_mm, *shared),
    }


def _hold_against_printed(rows: Sequence[ReducedRow], printed: tuple[float | None, ...]) -> None:
    """Refuse a book whose printed levels do not follow from its readings."""
    if not printed:
        return
    if len(printed) != len(rows):
        message = f"printed_levels_mm has {len(printed)} rows, the book {len(rows)}."
        raise SumRefusedError(message)
    for number, (row, level) in enumerate(zip(rows, printed, strict=True), start=1):
        if level is not None and abs(level - row.level_mm) > _PRINTED_MM:
            message = (
                f"Row {number}: {metres(level)} is printed and the readings give {metres(row.level_mm)}, "
                f"{millimetres(abs(level - row.level_mm))} apart: work the row out again or read the staff there again."
            )
            raise SumRefusedError(message)


_BOOK_ANSWERS = (
    Quantity("levels_mm", "mm", "reduced level of every row, by rise and fall", "numbers"),
    Quantity("levels_by_collimation_mm", "mm", "the same by height of collimation", "numbers"),
    Quantity("last_level_mm", "mm", "reduced level of the last row"),
    Quantity("steps_mm", "mm", "rise (or fall, negative) from row to row", "numbers"),
    Quantity("collimations_mm", "mm", "height of collimation of every set-up", "numbers"),
    Quantity("sum_backsights_mm", "mm", "backsights added up"),
    Quantity("sum_intermediates_mm", "mm", "intermediate sights added up"),
    Quantity("sum_foresights_mm", "mm", "foresights added up"),
    Quantity("sum_rises_mm", "mm", "rises added up"),
    Quantity("sum_falls_mm", "mm", "falls added up"),
    Quantity("backsights_less_foresights_mm", "mm", "first check"),
    Quantity("rises_less_falls_mm", "mm", "second check, the same as the first"),
    Quantity("last_less_first_mm", "mm", "third check, the same as the first"),
    Quantity("sum_levels_mm", "mm", "levels after the first added up"),
    Quantity(
        "collimations_less_readings_mm", "mm", "heights of collimation as often as read, less all readings: the same"
    ),
    Quantity("setups", "", "set-ups of the instrument"),
    Quantity(
        "misclosure_mm",
        "mm",
        "level found less level known at the end; empty where the run closes on nothing",
        "numbers",
    ),
    Quantity("limit_mm", "mm", "greatest misclosure accepted"),
    Quantity("verdict", "", "what is to be done", "word"),
    Quantity("shared_levels_mm", "mm", "levels after the misclosure is distributed over the set-ups", "numbers"),
)
_FIRST = Quantity("first_level_mm", "mm", "level of the first point")
_CLOSING = Quantity("closing_level_mm", "mm", "known level of the last point, if it is known", "words", ())
_PER_SETUP = Quantity(
    "misclosure_per_setup_mm",
    "mm",
    "misclosure accepted for one set-up, grows with their root; 0 for none",
    figure="survey.misclosure_per_setup_mm",
)
LEVEL_SUMS: tuple[Sum, ...] = (
    Sum(
        "level-book",
        "Reduce a level book by rise and fall and by height of collimation",
        (
            Quantity("backsights_mm", "mm", "backsight of every row, - where there is none", "words"),
            Quantity("intermediates_mm", "mm", "intermediate sight of every row, - where there is none", "words"),
            Quantity("foresights_mm", "mm", "foresight of every row, - where there is none", "words"),
            _FIRST,
            _CLOSING,
            Quantity(
                "printed_levels_mm", "mm", "levels somebody worked out, to hold against the readings", "words", ()
            ),
            _PER_SETUP,
        ),
        _BOOK_ANSWERS,
        "rise = reading before − this reading; level = height of collimation − reading",
        "nptel_surveying, module 4",
        level_book,
    ),
    Sum(
        "level-run",
        "Reduce readings written one after the other, with where the instrument was moved",
        (
            Quantity("readings_mm", "mm", "all readings in order", "numbers"),
            Quantity("moved_after", "", "numbers of the readings after which the instrument was moved", "numbers", ()),
            _FIRST,
            _CLOSING,
            _PER_SETUP,
        ),
        _BOOK_ANSWERS,
        "first reading of a set-up is a backsight, last one a foresight, those between are intermediate sights",
        "nptel_surveying, module 4",
        level_run,
    ),
)
