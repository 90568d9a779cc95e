"""Level books: whether the readings stand in the columns in which they can be reduced, and start from a known level."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Protocol

from pavewright import units
from pavewright.job._faults import Fault
from pavewright.job._levels_read import MisclosureRule

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.job._document import Job
    from pavewright.job._levels_read import HeightOver, LevelBook

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
    for place, slip in booking_slips(book.rows):
        point = f", row {place + 1}, point {book.rows[place].point}" if slip is not BookingSlip.ONE_ROW else ""
        yield Fault(f"{path}.{place}", f"Level book {book.name}{point}: {slip.words}")


class BookingSlip(StrEnum):
    """What may be wrong with the way in which a level book was kept, so that it cannot be reduced."""

    ONE_ROW = "one_row"
    NO_READING = "no_reading"
    STARTS_WRONGLY = "starts_wrongly"
    BACKSIGHT_AT_THE_END = "backsight_at_the_end"
    INTERMEDIATE_AT_THE_END = "intermediate_at_the_end"
    INTERMEDIATE_BESIDE_ANOTHER = "intermediate_beside_another"
    BACKSIGHT_ALONE = "backsight_alone"
    FORESIGHT_ALONE = "foresight_alone"

    @property
    def words(self) -> str:
        """What to do about it, for a person."""
        return _SLIPS[self]


_SLIPS = {
    BookingSlip.ONE_ROW: "there is one row only: a book needs a backsight to start and a foresight to end.",
    BookingSlip.NO_READING: "there is no reading: read the staff here again or leave the row out.",
    BookingSlip.STARTS_WRONGLY: "the book has to start with a backsight and nothing else in the row.",
    BookingSlip.BACKSIGHT_AT_THE_END: (
        "a backsight hangs on the last row with nothing read from it: take it out, or book what was read on."
    ),
    BookingSlip.INTERMEDIATE_AT_THE_END: "the book has to end with a foresight: book the last reading as one.",
    BookingSlip.INTERMEDIATE_BESIDE_ANOTHER: (
        "an intermediate sight stands beside another reading: a change point has a foresight and a backsight only."
    ),
    BookingSlip.BACKSIGHT_ALONE: (
        "a backsight stands without a foresight: read the change point before and after the instrument is moved."
    ),
    BookingSlip.FORESIGHT_ALONE: (
        "a foresight stands without a backsight, and the book goes on: read back to the change point again."
    ),
}


class StaffRow(Protocol):
    """A row of a level book: what was read on one point, each None where it was not."""

    @property
    def backsight_mm(self) -> float | None:
        """First reading after the instrument is set up. [mm]."""

    @property
    def intermediate_mm(self) -> float | None:
        """Reading between the first and the last. [mm]."""

    @property
    def foresight_mm(self) -> float | None:
        """Last reading before the instrument is moved. [mm]."""


def booking_slips(rows: Sequence[StaffRow]) -> tuple[tuple[int, BookingSlip], ...]:
    """Return what is wrong with the way a book was kept: number of the row from zero, and the slip."""
    if len(rows) < _MIN_ROWS:
        return ((0, BookingSlip.ONE_ROW),)
    last = len(rows) - 1
    slips = ((number, _slip(row, first=number == 0, last=number == last)) for number, row in enumerate(rows))
    return tuple((number, slip) for number, slip in slips if slip is not None)


def _slip(row: StaffRow, *, first: bool, last: bool) -> BookingSlip | None:
    """Return what is wrong with the columns of one row; None where it can be reduced."""
    back, between, fore = (reading is not None for reading in (row.backsight_mm, row.intermediate_mm, row.foresight_mm))
    inside = not first and not last
    met = (
        (not (back or between or fore), BookingSlip.NO_READING),
        (first and (between or fore), BookingSlip.STARTS_WRONGLY),
        (last and back, BookingSlip.BACKSIGHT_AT_THE_END),
        (last and between, BookingSlip.INTERMEDIATE_AT_THE_END),
        (inside and between and (back or fore), BookingSlip.INTERMEDIATE_BESIDE_ANOTHER),
        (inside and back and not fore, BookingSlip.BACKSIGHT_ALONE),
        (inside and fore and not back, BookingSlip.FORESIGHT_ALONE),
    )
    return next((slip for applies, slip in met if applies), None)


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
