"""Sentences of what does not agree about sizes, sides, readings, prices and dates of a job."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

_HUNDRED = 100.0
"""A length ten times as long goes with an area a hundred times as large, and a pound with a hundred pence. [-]"""


def start_far_off(start: dt.date, written: dt.date) -> str:
    """Say that work starts long before or after the document is dated."""
    days = (start - written).days
    return (
        f"Work starts on {start} and this document is dated {written}, {abs(days)} days "
        f"{'later' if days > 0 else 'earlier'}: check the year of both."
    )


def start_before_document(start: dt.date, written: dt.date) -> str:
    """Say that work starts before the document is dated."""
    return (
        f"Work starts on {start}, before this document is dated, {written}, and nothing is read as laid yet: check "
        f"both dates."
    )


def laid_before_start(laid: dt.date, start: dt.date) -> str:
    """Say that the levels as laid are dated before the work."""
    return f"The levels as laid are dated {laid}, before work starts on {start}: check both dates."


def area_too_large(names: str, area_m2: float) -> str:
    """Say that the areas are larger than such jobs are.

    Args:
        names: The areas.
        area_m2: What they come to. [m2]
    """
    return f"{names} come to {area_m2:.0f} m²: more than a garden or a drive. Check the unit of the tapes and places."


def area_too_small(names: str, count: int, area_m2: float, tape: tuple[str, str, float] | None) -> str:
    """Say that the areas are hardly a job.

    Args:
        names: The areas.
        count: How many they are.
        area_m2: What they come to. [m2]
        tape: Ends and length of the longest tape. [mm]
    """
    by_tape = "" if tape is None else f" The longest tape, {tape[0]}–{tape[1]}, is {tape[2]:g} mm."
    return (
        f"{names} {'comes' if count == 1 else 'come'} to {area_m2:.2f} m² in all, which is hardly a job."
        f"{by_tape} Were its lengths read in centimetres ({_HUNDRED * area_m2:.1f} m²)? Write millimetres, or measure "
        f"it again."
    )


def unit_strange(side: str, name: str, kind: str, size_mm: tuple[float, float, float], fits: str) -> str:
    """Say that a unit has a size that is not made.

    Args:
        side: Which of its sizes.
        name: The unit.
        kind: What such units are.
        size_mm: Its size, and the lower and upper end of those that are made. [mm]
        fits: In which unit of length it makes sense; empty where in none.
    """
    value, low, high = size_mm
    return f"The {side} of {name} is {value:g} mm; a {kind} has {low:g} to {high:g} mm.{fits or ' Measure one.'}"


def book_in_other_unit(book: str, longest: float, unit: str) -> str:
    """Say that a whole level book is in another unit.

    Args:
        book: The book.
        longest: Its greatest reading. [unknown unit of length]
        unit: What the unit looks like.
    """
    return (
        f"The greatest reading of level book {book} is {longest:g}: the whole book looks like {unit}. "
        f"Write millimetres."
    )


def longer_than_staff(book: str, row: int, point: str, reading_mm: float) -> str:
    """Say that a reading is longer than a staff.

    Args:
        book: The level book.
        row: Number of the row.
        point: The point.
        reading_mm: The reading. [mm]
    """
    return f"Level book {book}, row {row}, point {point}: {reading_mm:g} mm is longer than a staff. Read it again."


def reading_in_other_unit(
    where: tuple[str, int, str], reading: float, others_mm: tuple[float, float], fits: tuple[str, float]
) -> str:
    """Say that a reading is in another unit than those beside it.

    Args:
        where: Level book, number of the row, and point.
        reading: The reading. [unknown unit of length]
        others_mm: The least and the greatest of the others. [mm]
        fits: The unit that it looks like, and what it is then. [mm]
    """
    book, row, point = where
    return (
        f"Level book {book}, row {row}, point {point}: {reading:g} is booked among readings of "
        f"{others_mm[0]:g} to {others_mm[1]:g}. It looks like {fits[0]}: write millimetres, {fits[1]:g}, or "
        f"read the staff on {point} again."
    )


def price_strange(what: str, price: tuple[int, str, str], each: tuple[float, str], usual: str, *, pounds: bool) -> str:
    """Say that a price is not what such things cost.

    Args:
        what: What it is the price of.
        price: The price in small coins, what they are called, and the price as money. [minor]
        each: The price of one, and of one what. [minor]
        usual: What is usual.
        pounds: Whether it looks like whole pounds.
    """
    price_minor, small, money = price
    advice = (
        f"That looks like whole pounds, euros or dollars: write {small}, {price_minor * _HUNDRED:.0f}."
        if pounds
        else "Check the price and what it is for."
    )
    return (
        f"{what} is {price_minor} {small}, {money}: {each[0]:.2f} {small} {each[1]}, where {usual} is usual. {advice}"
    )


HELD_BY_NO_WALL = "is said to be held by a wall, and no wall or boundary is drawn along it"
HELD_BY_NOTHING = "is said to be held by what is there, and nothing is drawn along it"


def held_along_house(restraint: str) -> str:
    """Say that a kerb or the like is said to stand along a house wall."""
    return f"is said to be held by {restraint}, and a house wall stands along it"


def side_strange(side: str, wrong: str, area: str) -> str:
    """Say what is strange about a side, and what may have been meant."""
    return (
        f"The {side} {wrong}. A side is named by the corner from which it leaves, in the order in which the "
        f"outline is written; an outline written the other way round moves every side. Check the restraints of "
        f"{area}, or write the other corner of each side as its to."
    )
