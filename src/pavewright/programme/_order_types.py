"""What an order list holds, and the place where lorries set down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import Hire, OrderLine
    from pavewright.geometry import XY
    from pavewright.job import SupplierKind
    from pavewright.programme._supply_types import LoadDay
    from pavewright.quantities import ItemKey, Measure


@dataclass(frozen=True, slots=True)
class ListedLine:
    """One line of an order list.

    Attributes:
        line: The line of the order, as the cost has it.
        holds: What all of it holds, in ``unit``. [in ``unit``]
        unit: Unit of that.
        kg: Mass of all of it; None where it is not known. [kg]
        kg_each: Mass of one pack, bag or piece; None where it is not known, or where it is loose. [kg]
        on: The day on which it is to be there; None where the crew brings it along, or it leaves.
        one_batch: Whether all of it has to be of one batch.
    """

    line: OrderLine
    holds: float
    unit: Measure
    kg: float | None
    kg_each: float | None
    on: dt.date | None
    one_batch: bool


@dataclass(frozen=True, slots=True)
class Drop:
    """What is set down on one day.

    Attributes:
        on: The day.
        order_by: The last day on which to order, of the lead times that are known; None where none is.
        order_by_known: Whether every item of it has a lead time.
        there: Whether the work that needs it has begun, so that it is there.
        items: What comes.
        kg: Its mass as far as known. [kg]
        kg_known: Whether the mass of every item is known.
        heaviest_kg: The heaviest single pack, bag or piece of it, of those that are known; None where none is. [kg]
        too_heavy: Whether what is known of its mass alone is more than a lorry may weigh on the way in.
    """

    on: dt.date
    order_by: dt.date | None
    order_by_known: bool
    there: bool
    items: tuple[ItemKey, ...]
    kg: float
    kg_known: bool
    heaviest_kg: float | None
    too_heavy: bool


@dataclass(frozen=True, slots=True)
class OrderList:
    """What is asked of one supplier, or of one kind of supplier.

    Attributes:
        supplier: Name as entered; empty where none is known.
        kind: What kind of supplier.
        usual: Whether that kind is the usual one for what nobody named a supplier for.
        lines: What is ordered.
        drops: The days on which it is set down.
        hires: Machines and tools on hire.
        loads: Days on which spoil leaves.
        kg: Mass as far as known. [kg]
        kg_known: Whether the mass of every line is known.
    """

    supplier: str
    kind: SupplierKind
    usual: bool
    lines: tuple[ListedLine, ...]
    drops: tuple[Drop, ...]
    hires: tuple[Hire, ...]
    loads: tuple[LoadDay, ...]
    kg: float
    kg_known: bool


@dataclass(frozen=True, slots=True)
class DropPlace:
    """Where lorries set down.

    Attributes:
        point: Name of the point.
        at_mm: Its place.
        to_work_mm: From it straight to the nearest edge of the paving; zero on it. [mm]
        from_road_mm: From the nearest footway or road on the plan straight to it, the least that a crane has to reach;
            None where no road is entered. [mm]
    """

    point: str
    at_mm: XY
    to_work_mm: float
    from_road_mm: float | None
