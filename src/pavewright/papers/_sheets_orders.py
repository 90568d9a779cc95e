"""Orders by supplier on the cost sheet: packs, minimum order, carriage and lead time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._blocks import Block, heading, points, rest, right, small, table
from pavewright.papers._words import amount, money, whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost import Order
    from pavewright.pipeline import Plan


def order_blocks(plan: Plan) -> list[Block]:
    """Return what is bought, supplier by supplier; nothing where nothing is."""
    if not plan.cost.orders:
        return []
    currency = plan.job.identity.currency
    found: list[Block] = [heading("Orders by supplier")]
    for order in plan.cost.orders:
        kind = "" if order.kind is None else f", {order.kind.value}"
        found += [
            heading(f"{order.supplier or 'Supplier not named'}{kind}"),
            _lines(order, currency),
            small(f"{'; '.join(_facts(order, currency))}."),
        ]
        raised = [line.description for line in order.lines if line.raised]
        if raised:
            found.append(points([f"Minimum order, not the need, decides: {', '.join(raised)}."]))
    return found


def _lines(order: Order, currency: str) -> Block:
    rows = [
        (
            line.description,
            line.ordered_words,
            f"{amount(line.over)} {line.unit}" if line.over > _OVER else "",
            "no price" if line.price_minor is None else money(line.price_minor, currency),
            "no price" if line.amount_minor is None else money(line.amount_minor, currency),
        )
        for line in order.lines
    ]
    heads = (rest("what"), right("order"), right("over"), right("price of one"), right("amount"))
    return table(heads, rows, type_size=8.0)


_OVER = 0.005
_UNDATED = "one delivery, as no dates say how many"


def _facts(order: Order, currency: str) -> Iterator[str]:
    if order.unpriced == len(order.lines):
        yield "Goods: nothing has a price"
    else:
        without = f", {order.unpriced} lines without a price left out" if order.unpriced else ""
        yield f"Goods {money(order.goods_minor, currency)}{without}"
    if order.carriage_minor is None:
        yield "carriage not known"
    else:
        partly = "" if order.carriage_known else ", not known for every line"
        count = len(order.deliveries)
        dated = any(each.on is not None for each in order.deliveries)
        times = f"{count} deliveries by the dates" if count > 1 else "one delivery" if dated else _UNDATED
        charged = (
            f"carriage {money(order.carried_minor, currency)} for {times}" if order.carried_minor else "no carriage"
        )
        yield f"{charged}{partly}"
    if order.lead_days is None:
        yield "lead time not known"
    else:
        slower = "" if order.lead_known else ", not known for every line"
        yield f"{order.lead_days} working days from order to delivery{slower}"
    if order.kg:
        yield f"{whole(order.kg)} kg as far as known"
