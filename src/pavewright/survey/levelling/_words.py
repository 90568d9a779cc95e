"""Sentences of the findings on levels, made from what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey._remarks import metres, millimetres

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.survey._types_levels import LevelReading, LevelSource

_MAX_NAMED = 6
"""No more readings are named where an error cannot be placed."""

NO_SPARE_LEVEL = "Nothing checks the levels: no reading is spare. Read back to the benchmark, or on a point twice."
ADJUST_TOGETHER = "Adjust all level books and heights together, every reading weighed."
OBSERVE_AGAIN = "Observe the run again."


def reading_suspect(reading: LevelReading, slip_mm: float) -> str:
    """Say which reading is wrong and by how much.

    Args:
        reading: The reading.
        slip_mm: How much too large it is. [mm]
    """
    way = "much" if slip_mm > 0 else "little"
    return (
        f"{reading.words} looks about {millimetres(round(abs(slip_mm)))} too {way}: the other readings say so. "
        f"Read there again."
    )


def error_unplaced(suspects: Sequence[LevelReading]) -> str:
    """Say among which readings an error lies."""
    named = "; ".join(reading.words for reading in suspects[:_MAX_NAMED])
    more = len(suspects) - _MAX_NAMED
    return (
        f"The levels do not agree, and so few spare readings show the error without placing it. It is in one of: "
        f"{named}{f'; and {more} more' if more > 0 else ''}. Read these again, or one more point from two set-ups."
    )


def levels_agree_badly(ratio: float) -> str:
    """Say that the levels agree worse than such readings do.

    Args:
        ratio: How many times worse. [-]
    """
    return (
        f"The levels agree {ratio:.1f} times worse than such readings do, and no single one stands out: "
        f"check the instrument with two pegs, and keep sights of like length."
    )


def height_against_level(point: str, first: tuple[float, LevelSource], second: tuple[float, LevelSource]) -> str:
    """Say that a height over another point gives a second level.

    Args:
        point: The point.
        first: The level that is used, and what gave it. [mm]
        second: The other level, and what gave it. [mm]
    """
    return f"{_two_levels(point, first, second[0], second[1].words)}. If that is too much, read it again."


def book_against_level(point: str, first: tuple[float, LevelSource], level_mm: float, book: str) -> str:
    """Say that a level book gives a second level.

    Args:
        point: The point.
        first: The level that is used, and what gave it. [mm]
        level_mm: The level by the book. [mm]
        book: Name of the book.
    """
    twice = _two_levels(point, first, level_mm, f"level book {book}")
    return f"{twice}. If that is too much, read the staff on {point} again."


def _two_levels(point: str, first: tuple[float, LevelSource], level_mm: float, by: str) -> str:
    before_mm, found_by = first
    return (
        f"{point} is {metres(before_mm)} by {found_by.words} and {metres(level_mm)} by "
        f"{by}, {millimetres(level_mm - before_mm, sign=True)} apart; the first is used"
    )


def book_not_closed(book: str, last: str) -> str:
    """Say that a run ends on a point that nothing else gives a level."""
    return (
        f"Level book {book} ends on {last}, whose level is not known from elsewhere: nothing checks its "
        f"readings. Read back to the benchmark."
    )


def misclosure(book: str, last: str, off_mm: float, limit: tuple[str, float], changed_mm: float | None) -> str:
    """Say how badly a run closes, and what was done with it.

    Args:
        book: Name of the book.
        last: The point that it ends on.
        off_mm: Level found less level known. [mm]
        limit: What may be out by how much. [mm]
        changed_mm: How far its levels were changed by the fit of all readings; None where it stands by itself. [mm]
    """
    way = "above" if off_mm > 0 else "below"
    done = (
        "Misclosure not distributed"
        if changed_mm is None
        else f"All readings were adjusted together none the less, which changed levels of this book by up to "
        f"{millimetres(changed_mm)}"
    )
    run, limit_mm = limit
    return (
        f"Level book {book} closes {millimetres(abs(off_mm))} {way} the known level of {last} (found "
        f"less known {millimetres(off_mm, sign=True)}); {run} may be "
        f"out by {millimetres(limit_mm)}. {done}: observe again."
    )


def check_known(last: str) -> str:
    """Return the option to look at the levels that a run was held to."""
    return f"Check the known level of {last} and of the starting point."
