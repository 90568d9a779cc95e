"""Order lists: what is asked of each supplier, or of each kind of supplier where none is named, and when it comes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind, SupplierKind
from pavewright.programme._deliveries import brought_on
from pavewright.programme._order_types import Drop, ListedLine, OrderList
from pavewright.quantities import Holder, ItemKind

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.cost import Hire, Order, OrderLine
    from pavewright.job import Job
    from pavewright.programme._supply_types import Delivery
    from pavewright.programme._types import Programme
    from pavewright.quantities import Item, ItemKey, Quantities

_LEAVES = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL})
_UNITS = frozenset({ItemKind.UNITS, ItemKind.MIXED_PACK})
_OF_A_QUARRY = frozenset({
    *(MaterialKind.SHARP_SAND, MaterialKind.SOFT_SAND, MaterialKind.BALLAST, MaterialKind.SUB_BASE),
    *(MaterialKind.CAPPING, MaterialKind.OPEN_STONE, MaterialKind.GRIT, MaterialKind.BLINDING_SAND),
    *(MaterialKind.PIPE_GRAVEL, MaterialKind.SOAKAWAY_STONE, MaterialKind.DRAIN_STONE, MaterialKind.TOPSOIL),
})  # fmt: skip


def usual_supplier(key: ItemKey) -> SupplierKind:
    """Return what kind of supplier usually has an item, where nobody said.

    Source: common practice

    >>> from pavewright.quantities import of_material
    >>> usual_supplier(of_material(MaterialKind.SUB_BASE)).value
    'quarry'
    """
    if key.kind in _LEAVES:
        return SupplierKind.WASTE
    return SupplierKind.QUARRY if key.material in _OF_A_QUARRY else SupplierKind.MERCHANT


@dataclass(slots=True)
class _Gathered:
    """What is asked of one supplier so far."""

    lines: list[OrderLine] = field(default_factory=list)
    hires: list[Hire] = field(default_factory=list)
    usual: bool = False


def order_lists(
    job: Job, orders: Iterable[Order], quantities: Quantities, programme: Programme
) -> tuple[OrderList, ...]:
    """Return what is asked of each supplier, in the order in which it is first wanted.

    Every line is one of the orders of the cost, so that order lists, price and workbooks say the same. What has neither
    a supplier nor a kind goes to the kind that usually has it.

    Args:
        job: The job, with its plant.
        orders: Orders of the cost.
        quantities: What is measured, for its mass.
        programme: Deliveries, hires and loads with their days.
    """
    gathered: dict[tuple[str, SupplierKind], _Gathered] = {}
    for order in orders:
        for line in order.lines:
            kind = order.kind or usual_supplier(line.item)
            found = gathered.setdefault((order.supplier, kind), _Gathered())
            found.lines.append(line)
            found.usual |= order.kind is None
    for hire in programme.hires:
        machine = job.rates.plant[hire.key.number]
        if not machine.owned:
            kind = machine.supplier_kind or SupplierKind.HIRE
            gathered.setdefault((machine.supplier.strip(), kind), _Gathered()).hires.append(hire)
    items, comes = {item.key: item for item in quantities.items}, brought_on(programme)
    limit = job.arrangements.lorry_limit_tonnes
    found_lists = [_list(*who, each, items, comes, programme, limit) for who, each in gathered.items()]
    return tuple(sorted(found_lists, key=_first_wanted))


def _first_wanted(each: OrderList) -> int:
    """Return the day on which something of a list is first wanted, as a number; what has no day comes last."""
    days = [drop.on for drop in each.drops] + [load.on for load in each.loads]
    days += [hire.on for hire in each.hires if hire.on is not None]
    return min((day.toordinal() for day in days), default=10**7)


def _list(
    supplier: str,
    kind: SupplierKind,
    asked: _Gathered,
    items: dict[ItemKey, Item],
    comes: dict[ItemKey, dt.date],
    programme: Programme,
    limit_tonnes: float | None,
) -> OrderList:
    lines = tuple(_line(each, items[each.item], comes.get(each.item)) for each in asked.lines)
    leaves = any(line.item.kind in _LEAVES for line in asked.lines)
    return OrderList(
        supplier=supplier,
        kind=kind,
        usual=asked.usual,
        lines=lines,
        drops=_drops(lines, programme.deliveries, limit_tonnes),
        hires=tuple(asked.hires),
        loads=programme.loads if leaves else (),
        kg=sum(line.kg or 0.0 for line in lines),
        kg_known=all(line.kg is not None for line in lines),
    )


def _line(line: OrderLine, item: Item, on: dt.date | None) -> ListedLine:
    loose = line.sold_as.holder is Holder.LOOSE
    return ListedLine(
        line=line,
        holds=item.ordered_amount,
        unit=item.unit,
        kg=item.kg,
        kg_each=None if item.kg is None or loose or not item.ordered else item.kg / item.ordered,
        on=on,
        one_batch=item.key.kind in _UNITS,
    )


def _drops(
    lines: tuple[ListedLine, ...], deliveries: Iterable[Delivery], limit_tonnes: float | None
) -> tuple[Drop, ...]:
    """Return the days on which something of a list is set down, with its mass and the last day on which to order."""
    of_day: dict[dt.date, list[ListedLine]] = {}
    for line in lines:
        if line.on is not None:
            of_day.setdefault(line.on, []).append(line)
    told = {item.key: each for each in deliveries for item in each.items}
    return tuple(
        _drop(on, mine, [told[line.line.item] for line in mine], limit_tonnes) for on, mine in sorted(of_day.items())
    )


def _drop(on: dt.date, lines: list[ListedLine], told: list[Delivery], limit_tonnes: float | None) -> Drop:
    ordered = [each.order_by for each in told if not each.begun]
    each_kg = [line.kg_each for line in lines]
    kg = sum(line.kg or 0.0 for line in lines)
    return Drop(
        on=on,
        order_by=min((day for day in ordered if day is not None), default=None),
        order_by_known=all(day is not None for day in ordered),
        there=all(each.begun for each in told),
        items=tuple(line.line.item for line in lines),
        kg=kg,
        kg_known=all(line.kg is not None for line in lines),
        heaviest_kg=max((each for each in each_kg if each is not None), default=None),
        too_heavy=limit_tonnes is not None and units.kg_to_tonnes(kg) > limit_tonnes,
    )
