"""A line of a list of plant on hire, of loads taken away, or of labour: what it costs and by what it is charged."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.files._price_amounts import NoAmountError, number_told
from pavewright.files._price_goods import cell_of, code_of, minor_of, name_of, shown, whole_of
from pavewright.files._price_per import per_in
from pavewright.firm import ListColumnKind, ListKind, ListPer

if TYPE_CHECKING:
    from pavewright.files._price_how import ListColumns
    from pavewright.files._price_rows import PriceRow


@dataclass(frozen=True, slots=True)
class ListedRate:
    """A line of a list of plant, loads or labour.

    Attributes:
        row: Its row in the file.
        code: What the supplier calls it in short; empty where the list has no such column.
        name: What it is.
        per: By what its price is charged.
        price_minor: Price of one of that before tax; None where only a week has a price. [minor units]
        week_minor: Price of a week on hire; None where the list does not say. [minor units]
        min_days: Shortest hire; None where the list does not say. [days]
        delivery_minor: Delivery and collection; None where the list does not say. [minor units]
        volume_m3: What a load holds; None where the list does not say. [m³]
        payload_tonnes: What a load may weigh; None where the list does not say. [t]
        lead_days: Working days to the delivery; None where the list does not say.
        note: What was taken for granted or rounded, in a sentence; empty where nothing was.
    """

    row: int
    code: str
    name: str
    per: ListPer
    price_minor: int | None
    week_minor: int | None
    min_days: float | None
    delivery_minor: int | None
    volume_m3: float | None
    payload_tonnes: float | None
    lead_days: int | None
    note: str


_VOLUME = re.compile(
    r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s*(?:-\s*)?(cu(?:bic)?\.?\s*)?(yds?3?|yards?|yd³|m3|m³|cbm|cum|metres?)(?![\w²³])"
)
_TONNES = re.compile(r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s*(t|te|tonnes?)(?!\w)")


def rate_line(row: PriceRow, how: ListColumns) -> ListedRate:
    """Return one line.

    Raises:
        NoAmountError: what is wrong with it, in a sentence.
    """
    name, note = name_of(row, how)
    said = shown(cell_of(row, how, ListColumnKind.SOLD_BY))
    per = (per_in(said) if said else None) or how.per
    if said and per_in(said) is None:
        message = f"Charged by {said!r} does not say whether that is an hour, a day, a week or a load."
        raise NoAmountError(message)
    price, words = _price(row, how, ListColumnKind.PRICE)
    week, more = _price(row, how, ListColumnKind.WEEK_PRICE)
    if price is None and week is not None:
        per = per or ListPer.WEEK
    if how.of is ListKind.PLANT and per is ListPer.WEEK and week is None:
        price, week = None, price
    _refuse(how.of, per, price if week is None else week)
    volume, payload = _held(row, how, name) if how.of is ListKind.DISPOSAL else (None, None)
    delivery, _ = _price(row, how, ListColumnKind.DELIVERY)
    least, lead = (
        whole_of(cell_of(row, how, each), how, each) for each in (ListColumnKind.MIN_DAYS, ListColumnKind.LEAD_DAYS)
    )
    assert per is not None  # noqa: S101 - refused above
    return ListedRate(
        *(row.number, code_of(row, how), name, per, price, week, None if least is None else float(least), delivery),
        *(volume, payload, lead, f"{note}{words}{more}".strip()),
    )


def _refuse(of: ListKind, per: ListPer | None, price: int | None) -> None:
    """Refuse what has no price, or one that is charged by something else than plans go by."""
    if price is None:
        message = "It has no price."
        raise NoAmountError(message)
    if per is None:
        message = "It does not say whether its price is of an hour, a day, a week or a load."
        raise NoAmountError(message)
    if per not in _CHARGED[of]:
        message = f"It is a price of a {per.value}: {_WANTED[of]}"
        raise NoAmountError(message)


_CHARGED = {
    ListKind.PLANT: {ListPer.DAY, ListPer.WEEK},
    ListKind.DISPOSAL: {ListPer.LOAD},
    ListKind.LABOUR: {ListPer.HOUR, ListPer.DAY},
}
_WANTED = {
    ListKind.PLANT: "give what a day or a week on hire costs.",
    ListKind.DISPOSAL: "give what a load taken away costs.",
    ListKind.LABOUR: "give what an hour or a day of one person costs.",
}


def _price(row: PriceRow, how: ListColumns, column: ListColumnKind) -> tuple[int | None, str]:
    told = number_told(cell_of(row, how, column), how.decimal)
    if told is None:
        return None, ""
    if column is ListColumnKind.DELIVERY and told == 0:
        return 0, ""
    return minor_of(told, how)


def _held(row: PriceRow, how: ListColumns, name: str) -> tuple[float | None, float | None]:
    """Return what a load holds and may weigh: by its columns, else by its name.

    Raises:
        NoAmountError: nothing says how much it holds, or in what.
    """
    said = shown(cell_of(row, how, ListColumnKind.VOLUME))
    over = how.head_of(ListColumnKind.VOLUME)
    found = _VOLUME.search(said.casefold()) or (_VOLUME.search(f"{said} {over}".casefold()) if said else None)
    if found is None and said and (unit := _volume_unit(over)):
        found = _VOLUME.search(f"{said} {unit}")
    found = found or _VOLUME.search(name.casefold())
    if found is None:
        held = f"{said!r} does not say" if said else "It does not say"
        message = f"{held} how much a load holds, in cubic metres or cubic yards: give its size, such as 6 m3 or 8 yd."
        raise NoAmountError(message)
    amount = float(found[1].replace(",", "."))
    volume = round(units.cubic_yards_to_m3(amount), 3) if found[3].startswith("y") else amount
    heavy = shown(cell_of(row, how, ListColumnKind.PAYLOAD))
    weight = _TONNES.search(f"{heavy} t" if heavy and heavy.replace(".", "").isdigit() else heavy.casefold())
    return volume, None if weight is None else float(Decimal(weight[1].replace(",", ".")))


def _volume_unit(head: str) -> str:
    """Return the unit of volumes that a head says; empty where it says none."""
    plain = head.casefold()
    if re.search(r"yd|yard", plain):
        return "yd"
    return "m3" if re.search(r"m3|m³|cubic met", plain) else ""
