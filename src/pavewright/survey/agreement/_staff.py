"""Readings of the staff that were booked in another unit than those beside them, or that no staff can show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words_job as words
from pavewright.survey.agreement._units_of_length import units_that_fit

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.job import Job, LevelBook
    from pavewright.survey._figures import SurveyFigures

_ENOUGH = 3
"""So many readings of one set-up tell what readings are like there."""
_FAR_BELOW = 0.4
"""A reading below this part of every other of its set-up is looked at. [-]"""
_ROOM = 0.5
"""A reading fits among others within this part of the least and beyond the greatest. [-]"""


def staff_readings(job: Job, figures: SurveyFigures) -> Iterator[Finding]:
    """Give readings in centimetres or metres among others in millimetres, and those longer than a staff.

    Args:
        job: The job with its level books.
        figures: Figures of the survey.
    """
    staff, short = figures.staff_length_mm, figures.staff_short_mm
    for book in job.measurements.level_books:
        read = list(_readings(book))
        longest = max((abs(reading) for _, _, _, reading in read), default=0.0)
        if len(read) > _ENOUGH and longest < short.value:
            unit = "metres" if units.m_to_mm(longest) <= staff.value else "centimetres"
            message = words.book_in_other_unit(book.name, longest, unit)
            yield Finding(Code.STAFF_UNIT, Severity.STOP, f"level book {book.name}", message, figure=short)
            continue
        for row, point, _, reading in read:
            if abs(reading) > staff.value:
                message = words.longer_than_staff(book.name, row, point, reading)
                yield Finding(Code.STAFF_UNIT, Severity.STOP, f"point {point}", message, figure=staff)
        yield from _among_others(book, read)


def _among_others(book: LevelBook, read: Sequence[tuple[int, str, int, float]]) -> Iterator[Finding]:
    for row, point, setup, reading in read:
        others = [each for number, _, of, each in read if of == setup and number != row]
        if len(others) < _ENOUGH or min(others) <= 0.0 or not 0.0 < reading < _FAR_BELOW * min(others):
            continue
        fits = units_that_fit(reading, (1.0 - _ROOM) * min(others), (1.0 + _ROOM) * max(others))
        if fits:
            where = (book.name, row, point)
            message = words.reading_in_other_unit(where, reading, (min(others), max(others)), fits[0])
            yield Finding(Code.STAFF_UNIT, Severity.STOP, f"level book {book.name}, point {point}", message)


def _readings(book: LevelBook) -> Iterator[tuple[int, str, int, float]]:
    """Give number of the row, point, set-up and value of every reading."""
    setup = 1
    for number, row in enumerate(book.rows, start=1):
        for reading in (row.intermediate_mm, row.foresight_mm):
            if reading is not None:
                yield number, row.point, setup, reading
        if row.backsight_mm is not None:
            setup += 1 if number > 1 else 0
            yield number, row.point, setup, row.backsight_mm
