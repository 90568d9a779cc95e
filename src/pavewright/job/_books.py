"""Level books: whether the readings stand in the columns in which they can be reduced, and start from a known level."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job._faults import Fault
from pavewright.job._measured import MisclosureRule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._measured import HeightOver, LevelBook, LevelBookRow

_MIN_ROWS = 2
_LONGEST_STAFF_MM = 10_000.0
"""No staff is longer than this; most are three to five metres. Common practice. [mm]"""
_METRES = 10.0
"""A reading below this with a fraction of a millimetre was written in metres: no staff is read to a fraction there. [mm]"""


def book_faults(job: Job) -> Iterator[Fault]:
    """Give rows of level books with impossible columns or readings, and books that start from nowhere."""
    measured = job.measurements
    levelled = {mark.point for mark in measured.benchmarks}
    levelled |= {point.name for point in measured.points if point.level_mm is not None}
    sound: list[tuple[int, LevelBook]] = []
    for number, book in enumerate(measured.level_books):
        faults = tuple(_columns(number, book))
        yield from faults
        yield from _readings(number, book)
        if not faults:
            sound.append((number, book))
    before = -1
    while len(levelled) > before:
        before = len(levelled)
        ready = [entry for entry in sound if entry[1].rows[0].point in levelled]
        levelled |= {row.point for _, book in ready for row in book.rows}
        levelled |= {
            point
            for each in measured.heights_over
            for point, other in ((each.point, each.over), (each.over, each.point))
            if other in levelled
        }
        sound = [entry for entry in sound if entry not in ready]
    for number, each in enumerate(measured.heights_over):
        yield from _height(number, each, levelled)
    if measured.misclosure_rule is not MisclosureRule.SETUPS:
        for number, book in enumerate(measured.level_books):
            if book.length_m is None:
                words = (
                    f"The greatest misclosure of {book.name} goes by its distance: say how far the run was walked, or take "
                    f"the rule by set-ups."
                )
                yield Fault(f"measurements.level_books.{number}.length_m", words)
    for number, book in sound:
        words = (
            f"Level book {book.name} starts on {book.rows[0].point}, whose level nothing gives: read a backsight to a "
            f"benchmark, or to a point that another book has levelled."
        )
        yield Fault(f"measurements.level_books.{number}.rows.0.point", words)


def _height(number: int, each: HeightOver, levelled: set[str]) -> Iterator[Fault]:
    """Give heights of a point over itself, and those that hang on nothing."""
    path = f"measurements.heights_over.{number}"
    if each.point == each.over:
        yield Fault(path, f"{each.point} is no higher than itself: name the point from which its height was read.")
    elif each.point not in levelled:
        words = (
            f"{each.point} was read over {each.over}, whose level nothing gives: give {each.over} a level, or read from a "
            f"point that has one."
        )
        yield Fault(f"{path}.over", words)


def _columns(number: int, book: LevelBook) -> Iterator[Fault]:
    """Give rows whose readings stand in columns that cannot be reduced."""
    path = f"measurements.level_books.{number}.rows"
    if len(book.rows) < _MIN_ROWS:
        words = f"Level book {book.name} has one row only: it needs a backsight to start and a foresight to end."
        yield Fault(f"{path}.0", words)
        return
    last = len(book.rows) - 1
    for place, row in enumerate(book.rows):
        words = _row_fault(row, first=place == 0, last=place == last)
        if words:
            yield Fault(f"{path}.{place}", f"Level book {book.name}, row {place + 1}, point {row.point}: {words}")


def _row_fault(row: LevelBookRow, *, first: bool, last: bool) -> str:
    """Return what is wrong with the columns of one row; nothing where it can be reduced."""
    back, between, fore = (reading is not None for reading in (row.backsight_mm, row.intermediate_mm, row.foresight_mm))
    inside = not first and not last
    sentences = (
        (not (back or between or fore), "there is no reading: read the staff here again or leave the row out."),
        (first and (between or fore), "the book has to start with a backsight and nothing else in the row."),
        (
            last and back,
            "a backsight hangs on the last row with nothing read from it: take it out, or book what was read on.",
        ),
        (last and between, "the book has to end with a foresight: book the last reading as one."),
        (
            inside and between and (back or fore),
            "an intermediate sight stands beside another reading: a change point has a foresight and a backsight only.",
        ),
        (
            inside and back and not fore,
            "a backsight stands without a foresight: read the change point before and after the instrument is moved.",
        ),
        (
            inside and fore and not back,
            "a foresight stands without a backsight, and the book goes on: read back to the change point again.",
        ),
    )
    return next((sentence for applies, sentence in sentences if applies), "")


def _readings(number: int, book: LevelBook) -> Iterator[Fault]:
    """Give readings that no staff shows, and readings in metres."""
    path = f"measurements.level_books.{number}.rows"
    read = [
        (f"{path}.{place}.{column}", row.point, reading)
        for place, row in enumerate(book.rows)
        for column, reading in (
            ("backsight_mm", row.backsight_mm),
            ("intermediate_mm", row.intermediate_mm),
            ("foresight_mm", row.foresight_mm),
        )
        if reading is not None
    ]
    whole = all(reading.is_integer() for _, _, reading in read)
    if not whole and max(abs(reading) for _, _, reading in read) < _METRES:
        words = f"The readings of level book {book.name} look like metres, all below {_METRES:g}: write millimetres."
        yield Fault(path, words)
        return
    for place, point, reading in read:
        if abs(reading) > _LONGEST_STAFF_MM:
            words = f"The reading on {point} is {reading:g} mm, longer than any staff: read the staff there again."
            yield Fault(place, words)
        elif abs(reading) < _METRES and not reading.is_integer():
            words = (
                f"The reading on {point} is {reading:g}: that looks like metres. Write millimetres, "
                f"{units.m_to_mm(reading):g}, or read the staff there again."
            )
            yield Fault(place, words)
