"""Orders: what is bought of one supplier, in whole packs, with minimum order, carriage and lead time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._money import to_minor
from pavewright.cost._parts import Order, OrderDelivery, OrderLine
from pavewright.job import MaterialKind
from pavewright.quantities import ItemKey, ItemKind, sold_pack
from pavewright.sums import Working
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence

    from pavewright.cost._types import CostLine
    from pavewright.job import BuyingTerms, Job, SupplierKind
    from pavewright.quantities import Item


def terms_of(key: ItemKey, job: Job) -> BuyingTerms | None:  # noqa: PLR0911 - one line for each kind of item
    """Return the terms on which an item is bought; None where nobody entered any."""
    rates = job.rates
    match key.kind:
        case ItemKind.MATERIAL:
            return next((each for each in rates.materials if each.key is key.material), None)
        case ItemKind.PROVISIONAL_STONE:
            return next((each for each in rates.materials if each.key is MaterialKind.SUB_BASE), None)
        case ItemKind.CATALOGUE:
            return next((each for each in rates.catalogue if each.key == key.catalogue), None)
        case ItemKind.UNITS:
            return job.units[key.number]
        case ItemKind.MIXED_PACK:
            return sold_pack(key, job)
        case ItemKind.SPOIL | ItemKind.PIT_SPOIL | ItemKind.PROVISIONAL_SPOIL:
            return rates.disposal
        case _:
            return None


def orders(
    job: Job, items: Iterable[Item], priced: Iterable[CostLine], brought: Mapping[ItemKey, dt.date]
) -> tuple[Order, ...]:
    """Return what is bought, supplier by supplier in the order of the work; what leaves the site with who takes it.

    Args:
        job: The job.
        items: What is measured.
        priced: Priced lines: what has none of them has no price.
        brought: The day on which each item comes; empty while there are no dates.
    """
    prices = {line.key: line.rate_minor for line in priced if isinstance(line.key, ItemKey)}
    by_supplier: dict[tuple[str, SupplierKind | None], list[tuple[Item, BuyingTerms | None]]] = {}
    for item in items:
        if not item.key.bought or item.ordered <= 0.0 or item.key.apart:
            continue
        terms = terms_of(item.key, job)
        who = ("", None) if terms is None else (terms.supplier.strip(), terms.supplier_kind)
        by_supplier.setdefault(who, []).append((item, terms))
    return tuple(_order(*who, entries, prices, brought, job.identity.currency) for who, entries in by_supplier.items())


def carried(
    entries: Sequence[tuple[ItemKey, BuyingTerms | None]], brought: Mapping[ItemKey, dt.date]
) -> tuple[OrderDelivery, ...]:
    """Return the deliveries of a supplier: each day on which something of his comes is one, with its own carriage.

    What comes on no day of its own, such as bought goods without a lead time, comes with the first. Free carriage
    of everything that comes on a day makes that delivery free.

    Args:
        entries: What is bought of him, with its terms.
        brought: The day on which each item comes; empty while there are no dates.
    """
    first = min((brought[key] for key, _ in entries if key in brought), default=None)
    by_day: dict[dt.date | None, list[tuple[ItemKey, BuyingTerms | None]]] = {}
    for key, terms in entries:
        by_day.setdefault(brought.get(key, first), []).append((key, terms))
    dearest = _dearest(entries)
    found = []
    for on, mine in sorted(by_day.items(), key=lambda day: 0 if day[0] is None else day[0].toordinal()):
        own = _dearest(mine)
        keys = tuple(key for key, _ in mine)
        found.append(OrderDelivery(on, keys, dearest if own is None else own, own is None and dearest is not None))
    return tuple(found)


def _dearest(entries: Iterable[tuple[ItemKey, BuyingTerms | None]]) -> int | None:
    """Return the dearest carriage that an item asks; None where none says. [minor units]."""
    asked = (terms.carriage_minor for _, terms in entries if terms is not None)
    return max((each for each in asked if each is not None), default=None)


def _order(
    supplier: str,
    kind: SupplierKind | None,
    entries: list[tuple[Item, BuyingTerms | None]],
    prices: dict[ItemKey, int],
    brought: Mapping[ItemKey, dt.date],
    currency: str,
) -> Order:
    lines = tuple(_line(item, terms, prices.get(item.key)) for item, terms in entries)
    goods = sum(line.amount_minor or 0 for line in lines)
    carriage = [terms.carriage_minor for _, terms in entries if terms is not None and terms.carriage_minor is not None]
    leads = [terms.lead_days for _, terms in entries if terms is not None and terms.lead_days is not None]
    priced = [line.amount_minor for line in lines if line.amount_minor is not None]
    return Order(
        supplier=supplier,
        kind=kind,
        lines=lines,
        goods_minor=goods,
        unpriced=len(lines) - len(priced),
        carriage_minor=max(carriage, default=None),
        carriage_known=len(carriage) == len(lines),
        lead_days=max(leads, default=None),
        lead_known=len(leads) == len(lines),
        kg=sum(item.kg or 0.0 for item, _ in entries),
        working=Working(
            " + ".join(minor_to_text(each, currency) for each in priced) or "nothing has a price",
            float(goods),
            "minor units",
        ),
        deliveries=carried([(item.key, terms) for item, terms in entries], brought),
    )


def _line(item: Item, terms: BuyingTerms | None, price: int | None) -> OrderLine:
    fewest = terms.min_packs if terms is not None else None
    holds = item.ordered_amount / item.ordered
    return OrderLine(
        item=item.key,
        description=item.description,
        needed=item.gross,
        unit=item.unit,
        ordered=item.ordered,
        sold_as=item.sold_as,
        over=item.ordered_amount - item.gross,
        raised=fewest is not None and item.ordered_amount - item.gross >= holds,
        price_minor=price,
        amount_minor=None if price is None else to_minor(item.ordered * price),
    )
