"""Priced lines of the terms: goods that the customer still chooses, and work that is settled by what is found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._keys import ChargeKey, ChargeKind, LineGroup
from pavewright.cost._money import exact, to_minor
from pavewright.cost._types import CostLine
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost._parts import Order
    from pavewright.job import PrimeCostItem, Terms

_WHOLE = 100


def attendance_minor(item: PrimeCostItem) -> int:
    """Return what ordering, unloading and looking after goods costs. [minor units]."""
    return to_minor(item.amount_minor * exact(item.attendance_percent) / _WHOLE) + item.attendance_minor


def charge_lines(terms: Terms) -> Iterator[CostLine]:
    """Give the lines of prime-cost items, of attendance on them, and of provisional work that stands in the price."""
    for number, item in enumerate(terms.prime_costs):
        said = Working(f"sum as stated = {item.amount_minor}", float(item.amount_minor), "minor units")
        key = ChargeKey(ChargeKind.PRIME_COST, number)
        yield _once(key, LineGroup.MATERIAL, f"Prime cost: {item.name}", item.amount_minor, said)
        attendance = attendance_minor(item)
        if attendance:
            words = f"attendance = {item.amount_minor} × {item.attendance_percent:g} % + {item.attendance_minor}"
            key = ChargeKey(ChargeKind.ATTENDANCE, number)
            working = Working(words, float(attendance), "minor units")
            yield _once(key, LineGroup.LABOUR, f"Attendance: {item.name}", attendance, working)
    for number, rate in enumerate(terms.provisional):
        if not rate.amount and not rate.high_amount:
            continue
        likely, *ends = (
            to_minor(exact(rate.amount if each is None else each) * rate.rate_minor)
            for each in (rate.amount, rate.low_amount, rate.high_amount)
        )
        words = f"provisional = {rate.amount:g} {rate.unit.words} × {rate.rate_minor}"
        yield CostLine(
            key=ChargeKey(ChargeKind.PROVISIONAL, number),
            group=LineGroup.PROVISIONAL,
            description=f"Provisional: {rate.name}",
            quantity=rate.amount,
            unit=rate.unit.words,
            rate_minor=rate.rate_minor,
            amount_minor=likely,
            low_minor=ends[0],
            high_minor=ends[1],
            working=Working(words, float(likely), "minor units", (), "settled by what is found, at this rate"),
        )


def carriage_lines(orders: tuple[Order, ...]) -> Iterator[CostLine]:
    """Give a line for the carriage of each order that has to be paid for: one delivery of a supplier."""
    for number, order in enumerate(orders):
        if order.carriage_minor:
            words = f"carriage of one delivery = {order.carriage_minor}"
            said = Working(words, float(order.carriage_minor), "minor units", (), "the dearest that an item of it asks")
            from_whom = f"Carriage, {order.supplier}" if order.supplier else "Carriage of what names no supplier"
            key = ChargeKey(ChargeKind.CARRIAGE, number)
            yield _once(key, LineGroup.MATERIAL, from_whom, order.carriage_minor, said)


def _once(key: ChargeKey, group: LineGroup, words: str, amount: int, working: Working) -> CostLine:
    return CostLine(key, group, words, 1.0, "sum", amount, amount, amount, amount, working)
