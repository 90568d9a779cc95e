"""Rows of bars for what comes and goes: deliveries, plant on hire, spoil."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import DOTTED, MEDIUM, THICK, Path, Sign, Symbol

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterator, Sequence

    from pavewright.cost import Hire
    from pavewright.drawing._bars_axis import Axis, Row
    from pavewright.drawing._scene import Element
    from pavewright.pipeline import Plan

_SIGN_MM = 2.6
_TICK_MM = 1.2
_BESIDE_MM = 1.6


def supply_rows(plan: Plan, axis: Axis) -> Iterator[Row]:
    """Give a row for each supplier, each machine on hire, and the days on which spoil leaves."""
    programme = plan.programme
    suppliers = dict.fromkeys((each.supplier, each.supplier_kind) for each in programme.deliveries)
    for who in suppliers:
        on = [each.on for each in programme.deliveries if (each.supplier, each.supplier_kind) == who]
        by = [each.order_by for each in programme.deliveries if (each.supplier, each.supplier_kind) == who]
        days = [day for day in by if day is not None and axis.holds(day)]
        yield f"Comes from {who[0] or 'suppliers without a name'}", False, _marks(axis, on, days)
    for hire in programme.hires:
        if hire.on is not None and hire.off is not None:
            name = plan.job.rates.plant[hire.key.number].name or hire.key.kind.value.capitalize()
            yield f"On hire: {name}", False, _span(axis, hire, hire.on, hire.off)
    if programme.loads:
        yield "Spoil leaves", False, _marks(axis, [each.on for each in programme.loads], [])


def _marks(axis: Axis, on: Sequence[dt.date], ordered: Sequence[dt.date]) -> Callable[[float], Iterator[Element]]:
    def drawn(at: float) -> Iterator[Element]:
        for day in dict.fromkeys(ordered):
            beside = _BESIDE_MM if day in on else 0.0
            yield Symbol((axis.middle(day) - beside, at), Sign.RING, _SIGN_MM)
        for day in dict.fromkeys(on):
            beside = _BESIDE_MM if day in ordered else 0.0
            yield Symbol((axis.middle(day) + beside, at), Sign.TRIANGLE, _SIGN_MM)

    return drawn


def _span(axis: Axis, hire: Hire, first: dt.date, last: dt.date) -> Callable[[float], Iterator[Element]]:
    def drawn(at: float) -> Iterator[Element]:
        start, end = axis.middle(first) - axis.day_mm / 2.0, axis.middle(last) + axis.day_mm / 2.0
        yield Path(((start, at), (end, at)), THICK)
        for x in (start, end):
            yield Path(((x, at - _TICK_MM), (x, at + _TICK_MM)), MEDIUM)
        if hire.paid_until is not None and hire.paid_until > last:
            paid = axis.middle(hire.paid_until) + axis.day_mm / 2.0
            yield Path(((end, at), (paid, at)), DOTTED)
            yield Path(((paid, at - _TICK_MM), (paid, at + _TICK_MM)), MEDIUM)

    return drawn
