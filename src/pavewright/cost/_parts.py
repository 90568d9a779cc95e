"""Parts of a price: how it is taxed, how old a price is, what is ordered of whom."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.cost._money import exact, to_minor
from pavewright.job import TaxRegime

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import SupplierKind
    from pavewright.quantities import ItemKey, SoldAs
    from pavewright.rules import Figure
    from pavewright.sums import Working

_CHARGED = frozenset({TaxRegime.STANDARD, TaxRegime.REDUCED})
"""Regimes under which the firm charges tax."""


class RangeKind(StrEnum):
    """What the range of a price says: both its ends, two lower ends where something has no price, or nothing."""

    WHOLE = "whole"
    LOWER = "lower"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class Taxed:
    """How one part of a price is taxed.

    Attributes:
        regime: Under which regime.
        percent: Rate that holds; None where it is not known. Under a reverse charge the customer accounts for it. [%]
        figure: The rulebook's rate, where nobody entered one.
    """

    regime: TaxRegime
    percent: float | None
    figure: Figure | None = None

    @property
    def charged_percent(self) -> float:
        """What is charged; zero where the rate is not known, and where no tax is charged. [%]."""
        return (self.percent or 0.0) if self.regime in _CHARGED else 0.0

    @property
    def is_known(self) -> bool:
        """Whether it is known what tax is charged."""
        return self.regime not in _CHARGED or self.percent is not None


@dataclass(frozen=True, slots=True)
class TaxShare:
    """What of a price is taxed in one way.

    Attributes:
        taxed: How.
        net_minor: Its price before tax. [minor units]
        tax_minor: Tax charged on it. [minor units]
    """

    taxed: Taxed
    net_minor: int
    tax_minor: int

    @property
    def accounted_minor(self) -> int | None:
        """Tax that the customer accounts for under a reverse charge; None under others, or at a rate not known."""
        if self.taxed.regime is not TaxRegime.REVERSE_CHARGE or self.taxed.percent is None:
            return None
        return to_minor(self.net_minor * exact(self.taxed.percent) / 100)


@dataclass(frozen=True, slots=True)
class StaleBy:
    """That a price is too old, or has no date.

    Attributes:
        priced_on: Day on which it was given; None where that is not known, and its age neither.
        age_days: How old it is on the date of the job. [days]
        limit_days: How old it may be. [days]
    """

    priced_on: dt.date | None
    age_days: int | None
    limit_days: int


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item of an order.

    Attributes:
        item: Which item.
        description: In words.
        needed: What is needed, with allowance. [in ``unit``]
        unit: Unit of that.
        ordered: Whole packs, bags or loads. [as it is sold]
        sold_as: In what it is ordered.
        over: What comes beside what is needed. [in ``unit``]
        raised: Whether the supplier's minimum order decided how many.
        price_minor: Price of one of what is ordered; None where it is not known.
        amount_minor: Price of the line; None where it is not known.
    """

    item: ItemKey
    description: str
    needed: float
    unit: str
    ordered: float
    sold_as: SoldAs
    over: float
    raised: bool
    price_minor: int | None
    amount_minor: int | None

    @property
    def order_unit(self) -> str:
        """What is ordered, for a column apart from its number."""
        return self.sold_as.column

    @property
    def ordered_words(self) -> str:
        """What is ordered, with its number ("2 bags of 25 kg")."""
        return self.sold_as.counted(self.ordered)


@dataclass(frozen=True, slots=True)
class OrderDelivery:
    """One delivery of an order.

    Attributes:
        on: The day; None while there are no dates.
        items: What comes then.
        carriage_minor: What its carriage costs, the dearest that an item of it asks; None where none is known.
        assumed: Whether nothing that comes then says what its carriage costs: the dearest of the supplier is taken.
    """

    on: dt.date | None
    items: tuple[ItemKey, ...]
    carriage_minor: int | None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """What is bought of one supplier.

    Attributes:
        supplier: Name as entered; empty where none is.
        kind: What kind of supplier; None where nobody said.
        lines: What is ordered.
        goods_minor: Sum of the lines that have a price.
        unpriced: How many lines have none.
        carriage_minor: Carriage of one delivery, the dearest that a line asks; None where none is known.
        carriage_known: Whether every line says what its carriage costs.
        lead_days: Working days from order to delivery, those of the slowest line; None where none is known.
        lead_known: Whether every line says its lead time: else the slowest may be slower.
        kg: Mass of what is ordered, where it is known. [kg]
        working: The sum of the goods.
        deliveries: When it comes: a delivery for each day, one while there are no dates.
    """

    supplier: str
    kind: SupplierKind | None
    lines: tuple[OrderLine, ...]
    goods_minor: int
    unpriced: int
    carriage_minor: int | None
    carriage_known: bool
    lead_days: int | None
    lead_known: bool
    kg: float
    working: Working
    deliveries: tuple[OrderDelivery, ...] = ()

    @property
    def carried_minor(self) -> int:
        """What the carriage of all its deliveries costs. [minor units]."""
        return sum(each.carriage_minor or 0 for each in self.deliveries)
