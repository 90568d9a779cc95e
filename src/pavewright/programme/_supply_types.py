"""Deliveries with the days to order them by, and days on which spoil leaves."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import SupplierKind
    from pavewright.quantities import ItemGroup, ItemKey, SoldAs


@dataclass(frozen=True, slots=True)
class DeliveryLine:
    """One item of a delivery.

    Attributes:
        key: Which item.
        description: In words.
        ordered: Whole packs, bags or loads. [as it is sold]
        sold_as: In what it is ordered.
        kg: Its mass; None where it is not known. [kg]
        lead_days: Working days from order to delivery; None where nobody said. [days]
    """

    key: ItemKey
    description: str
    ordered: float
    sold_as: SoldAs
    kg: float | None
    lead_days: int | None

    @property
    def order_unit(self) -> str:
        """What is ordered, for a column apart from its number."""
        return self.sold_as.column

    @property
    def ordered_words(self) -> str:
        """What is ordered, with its number ("2 bags of 25 kg")."""
        return self.sold_as.counted(self.ordered)


@dataclass(frozen=True, slots=True)
class Delivery:
    """Materials of one supplier that have to be on site.

    Attributes:
        group: Part of the work that needs them.
        number: Which of several suppliers for that part, from 0.
        supplier: Who brings them, as entered; empty where nobody said.
        supplier_kind: What kind of supplier; None where nobody said.
        on: The day: the working day before the work begins.
        begun: Whether that work has begun, so that they are there.
        lead_days: Working days from order to delivery, of the slowest item; None where none is known. [days]
        lead_known: Whether every item has one: else the slowest may be slower.
        order_by: The last day on which to order; None where no lead time is known.
        kg: Mass of what is known of it. [kg]
        kg_known: Whether the mass of every item is known.
        room_m2: Room that it takes where it is set down, of what is known of its mass. [m²]
        items: What is delivered.
    """

    group: ItemGroup
    number: int
    supplier: str
    supplier_kind: SupplierKind | None
    on: dt.date
    begun: bool
    lead_days: int | None
    lead_known: bool
    order_by: dt.date | None
    kg: float
    kg_known: bool
    room_m2: float
    items: tuple[DeliveryLine, ...]


class LoadKind(StrEnum):
    """What happens on a day on which spoil leaves."""

    SKIP_COMES = "skip_comes"
    SKIP_CHANGED = "skip_changed"
    SKIP_GOES = "skip_goes"
    LOAD_LEAVES = "load_leaves"


@dataclass(frozen=True, slots=True)
class LoadDay:
    """A day on which spoil leaves.

    Attributes:
        kind: What happens.
        on: The day.
        number: Which load, from 1.
        of: How many loads are likely.
        order_by: The last day on which to order it; None where the lead time is not known.
    """

    kind: LoadKind
    on: dt.date
    number: int
    of: int
    order_by: dt.date | None
