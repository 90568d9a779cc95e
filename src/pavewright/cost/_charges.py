"""Priced lines of the terms: goods that the customer still chooses, and work that is settled by what is found."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from pavewright.cost._keys import ChargeKey, ChargeKind, LineGroup
from pavewright.cost._money import exact, to_minor
from pavewright.cost._types import CostLine
from pavewright.sums import Working
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.cost._parts import Order, OrderDelivery
    from pavewright.job import PrimeCostItem, Terms

_WHOLE = 100


def attendance_minor(item: PrimeCostItem) -> int:
    """Return what ordering, unloading and looking after goods costs. [minor units]."""
    return to_minor(item.amount_minor * exact(item.attendance_percent) / _WHOLE) + item.attendance_minor


def charge_lines(terms: Terms, currency: str) -> Iterator[CostLine]:
    """Give the lines of prime-cost items, of attendance on them, and of provisional work that stands in the price."""
    money = partial(minor_to_text, currency=currency)
    for number, item in enumerate(terms.prime_costs):
        said = Working("sum as stated", float(item.amount_minor), "minor units")
        key = ChargeKey(ChargeKind.PRIME_COST, number)
        yield _once(key, LineGroup.MATERIAL, f"Prime cost: {item.name}", item.amount_minor, said)
        attendance = attendance_minor(item)
        if attendance:
            parts = (item.amount_minor and item.attendance_percent, item.attendance_minor)
            texts = (f"{money(item.amount_minor)} × {item.attendance_percent:g} %", money(item.attendance_minor))
            words = f"attendance = {' + '.join(word for part, word in zip(parts, texts, strict=True) if part)}"
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
        words = f"provisional = {rate.amount:g} {rate.unit.words} × {money(rate.rate_minor)}"
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


def carriage_lines(orders: tuple[Order, ...], currency: str) -> Iterator[CostLine]:
    """Give a line for the carriage of each order that has to be paid for: each delivery of a supplier by the dates."""
    for number, order in enumerate(orders):
        paid = [each for each in order.deliveries if each.carriage_minor]
        amount = order.carried_minor
        if not amount:
            continue
        words = " + ".join(minor_to_text(each.carriage_minor or 0, currency) for each in paid)
        said = Working(f"carriage = {words}", float(amount), "minor units", (), _carriage_note(order, paid))
        from_whom = f"Carriage, {order.supplier}" if order.supplier else "Carriage of what names no supplier"
        key = ChargeKey(ChargeKind.CARRIAGE, number)
        if len(paid) > 1 and len({each.carriage_minor for each in paid}) == 1:
            each, count = amount // len(paid), float(len(paid))
            yield CostLine(key, LineGroup.MATERIAL, from_whom, count, "deliveries", each, amount, amount, amount, said)
        else:
            yield _once(key, LineGroup.MATERIAL, from_whom, amount, said)


def _carriage_note(order: Order, paid: Sequence[OrderDelivery]) -> str:
    """Return what the carriage of an order rests on."""
    if any(each.on is None for each in order.deliveries):
        return "one delivery, the dearest that an item of it asks: no dates say on how many days it comes"
    note = "one for each day on which something comes by the dates, the dearest that an item of it asks"
    guessed = sum(each.assumed for each in paid)
    return f"{note}; of {guessed} of them nothing says so: assumed as the dearest of the supplier" if guessed else note


def _once(key: ChargeKey, group: LineGroup, words: str, amount: int, working: Working) -> CostLine:
    return CostLine(key, group, words, 1.0, "sum", amount, amount, amount, amount, working)
