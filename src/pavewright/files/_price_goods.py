"""A line of a list of goods: what a pack holds and what it costs before tax."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.files._price_amounts import (
    NoAmountError,
    amount_in_name,
    has_size,
    length_in_name,
    number_told,
    priced_by,
    sold_by,
)
from pavewright.firm import ListColumnKind
from pavewright.job import PackUnit

if TYPE_CHECKING:
    from pavewright.files._price_how import ListColumns
    from pavewright.files._price_rows import PriceRow

_ALL_PERCENT = Decimal(100)
_MAX_MINOR = 1_000_000_000
_MAX_PACK = Decimal(100_000)
_MAX_NAME = 60
_BAG_MAX, _IN_BAGS = 50, frozenset({PackUnit.KG, PackUnit.LITRE})
"""A piece that says so many kilograms or litres is a bag, a tub or a can of that, unless it is larger."""


@dataclass(frozen=True, slots=True)
class ListedPrice:
    """A line of a price list.

    Attributes:
        row: Its row in the file.
        code: What the supplier calls it in short; empty where the list has no such column.
        name: What it is.
        pack_amount: How much one pack holds. [pack_unit]
        pack_unit: Unit in which a pack is measured.
        price_minor: Price of one pack before tax. [minor units]
        min_packs: Fewest packs that are delivered; None where the list does not say.
        lead_days: Working days to the delivery; None where the list does not say.
        note: What was taken for granted or rounded, in a sentence; empty where nothing was.
        length_mm: How long one piece is, as its name says; None where it says none, or more than one. [mm]
        by_count: Of how many pieces the list gives its price, where it gives it by the hundred or the thousand; else 0.
    """

    row: int
    code: str
    name: str
    pack_amount: float
    pack_unit: PackUnit
    price_minor: int
    min_packs: int | None
    lead_days: int | None
    note: str
    length_mm: float | None = None
    by_count: int = 0


def cell_of(row: PriceRow, how: ListColumns, column: ListColumnKind) -> str | float:
    """Return what stands in a column of a row; nothing where there is no such column."""
    place = how.columns.get(column)
    return row.cells[place] if place is not None and place < len(row.cells) else ""


def shown(cell: str | float) -> str:
    """Return a cell as a person reads it.

    Args:
        cell: The cell. [as listed]
    """
    return f"{cell:.10g}" if isinstance(cell, float) else cell


def name_of(row: PriceRow, how: ListColumns) -> tuple[str, str]:
    """Return the name in a row, shortened where it is too long, and what was done with it.

    Raises:
        NoAmountError: there is none.
    """
    name = shown(cell_of(row, how, ListColumnKind.NAME))
    if not name:
        message = "It has no name."
        raise NoAmountError(message)
    if len(name) <= _MAX_NAME:
        return name, ""
    return name[: _MAX_NAME - 1].rstrip() + "…", f"The name is shortened to {_MAX_NAME} letters. "


def code_of(row: PriceRow, how: ListColumns) -> str:
    """Return the code in a row; empty where there is none."""
    return shown(cell_of(row, how, ListColumnKind.CODE))[:_MAX_NAME]


def goods_line(row: PriceRow, how: ListColumns) -> ListedPrice:
    """Return one line.

    Raises:
        NoAmountError: what is wrong with it, in a sentence.
    """
    name, note = name_of(row, how)
    sold, size = (cell_of(row, how, each) for each in (ListColumnKind.SOLD_BY, ListColumnKind.PACK_AMOUNT))
    by_count = priced_by(shown(sold)) or how.by_count
    if by_count:
        amount, unit, words = _counted(size, by_count, how)
        times = amount / by_count
    else:
        amount, unit, words = _pack(sold, size, name, how)
        times = amount if how.per_unit else Decimal(1)
    told = number_told(cell_of(row, how, ListColumnKind.PRICE), how.decimal)
    price, rounded = minor_of(told, how, times)
    least, days = (
        whole_of(cell_of(row, how, each), how, each) for each in (ListColumnKind.MIN_PACKS, ListColumnKind.LEAD_DAYS)
    )
    return ListedPrice(
        *(row.number, code_of(row, how), name, float(amount), unit, price, least or None, days),
        *(f"{note}{words}{rounded}".strip(), length_in_name(name) if unit is PackUnit.EACH else None, by_count),
    )


def _counted(size: str | float, by_count: int, how: ListColumns) -> tuple[Decimal, PackUnit, str]:
    """Return the pack of what is priced by the hundred or the thousand: so many pieces as the list says a pack holds.

    Raises:
        NoAmountError: the size of its pack is no number of pieces.
    """
    if size == "":
        words = f"Priced by {by_count:,} and no size of a pack is given: taken as sold in packs of {by_count:,}. "
        return Decimal(by_count), PackUnit.EACH, words
    said = sold_by(shown(size), how.decimal)
    pieces = said is None or said[1] is PackUnit.EACH
    amount = said[0] if said is not None else number_told(size, how.decimal)
    if not pieces or amount is None or amount != int(amount) or not 0 < amount <= _MAX_PACK:
        message = f"{shown(size)!r} is no number of pieces in a pack."
        raise NoAmountError(message)
    return amount, PackUnit.EACH, ""


def _pack(sold: str | float, size: str | float, name: str, how: ListColumns) -> tuple[Decimal, PackUnit, str]:
    """Return how much a pack holds, in what, and what was taken for granted."""
    words = shown(sold)
    found = sold_by(words, how.decimal) if words else None
    counted = None
    if size != "":
        said = sold_by(shown(size), how.decimal)
        counted = said[0] if said is not None else number_told(size, how.decimal)
        if said is not None and found is None and said[1] is not PackUnit.EACH:
            return said[0], said[1], ""
        if not counted or counted < 0:
            message = f"{shown(size)!r} is no size of a pack."
            raise NoAmountError(message)
    if found is None:
        inside = amount_in_name(name)
        if inside is not None:
            return inside[0], inside[1], "How much a pack holds is taken from the name. "
        if words and counted is None:
            message = f"Sold by {words!r} does not say how much that is: give its size in a column, such as 25 kg."
            raise NoAmountError(message)
        return counted or Decimal(1), PackUnit.EACH, "" if words else "Taken as sold by the piece. "
    inside = amount_in_name(name) if found == (Decimal(1), PackUnit.EACH) and counted is None else None
    if inside is not None and inside[0] <= _BAG_MAX and inside[1] in _IN_BAGS and not has_size(name):
        return inside[0], inside[1], "How much a pack holds is taken from the name. "
    amount = found[0] * (counted or 1)
    if not 0 < amount <= _MAX_PACK:
        message = f"A pack of {amount:f} {found[1].value} is none that is sold."
        raise NoAmountError(message)
    return amount, found[1], ""


def minor_of(told: Decimal | None, how: ListColumns, times: Decimal = Decimal(1)) -> tuple[int, str]:
    """Return a price before tax in minor units, and whether it was rounded.

    Args:
        told: The price as it stands in the list; None where there is none.
        how: How the list is read.
        times: How many times what the price is of makes a pack. [-]

    Raises:
        NoAmountError: it is none that is taken.
    """
    if told is None:
        message = "It has no price."
        raise NoAmountError(message)
    if told <= 0:
        message = f"A price of {told:f} is not taken: what has no price stays unknown."
        raise NoAmountError(message)
    coins = Decimal(units.minor_per_major(how.currency))
    exact = told * coins * times
    if how.tax_percent is not None:
        exact = exact * _ALL_PERCENT / (_ALL_PERCENT + how.tax_percent)
    minor = int(exact.quantize(Decimal(1), ROUND_HALF_UP))
    if not 0 < minor <= _MAX_MINOR:
        message = f"A price of {told:f} is smaller or larger than a price can be."
        raise NoAmountError(message)
    rounded = how.tax_percent is None and exact != minor
    return minor, f"Rounded from {(exact / coins).normalize():f}. " if rounded else ""


def whole_of(cell: str | float, how: ListColumns, column: ListColumnKind) -> int | None:
    """Return a whole number in a cell; None where it is empty.

    Args:
        cell: The cell. [as listed]
        how: How the list is read.
        column: Which column it stands in.

    Raises:
        NoAmountError: it is no whole number, or too large.
    """
    value = number_told(cell, how.decimal)
    if value is None:
        return None
    most = 400 if column is ListColumnKind.LEAD_DAYS else 100_000
    if value != int(value) or not 0 <= value <= most:
        message = f"{shown(cell)!r} is to be a whole number up to {most}."
        raise NoAmountError(message)
    return int(value)
