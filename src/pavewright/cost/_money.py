"""From cost to price: the one engine of the sum and of a job."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

ALL_PERCENT = 100.0
"""The whole. [%]"""

Amount = TypeVar("Amount", int, float)


@dataclass(frozen=True, slots=True)
class Percents:
    """What goes on a cost.

    Attributes:
        overhead: Overhead, a part of the cost. [%]
        margin: Margin, a part of the price before tax. [%]
        tax: Tax, a part of the price before tax. [%]
    """

    overhead: float
    margin: float
    tax: float


@dataclass(frozen=True, slots=True)
class Chain(Generic[Amount]):
    """The steps from a cost to a price, in the money of the cost.

    Attributes:
        overhead: Overhead on the cost.
        margin: What the margin leaves.
        net: Price before tax.
        tax: Tax.
        total: Price with tax.
    """

    overhead: Amount
    margin: Amount
    net: Amount
    tax: Amount
    total: Amount


def chain(cost: Amount, percents: Percents, rounded: Callable[[float], Amount]) -> Chain[Amount]:
    """Return the steps from a cost to a price, each rounded before the next.

    Args:
        cost: Prime cost, in any money.
        percents: What goes on it.
        rounded: How money is rounded at each step; ``float`` for not at all.

    Valid for: margin under 100 %.
    Source: definition, price = (cost + overhead) / (1 − margin)

    >>> found = chain(1000.0, Percents(0.0, 20.0, 20.0), float)
    >>> found.net, found.margin, found.total
    (1250.0, 250.0, 1500.0)
    """
    overhead = rounded(cost * percents.overhead / ALL_PERCENT)
    net = rounded((cost + overhead) / (1.0 - percents.margin / ALL_PERCENT))
    tax = rounded(net * percents.tax / ALL_PERCENT)
    return Chain(overhead, net - cost - overhead, net, tax, net + tax)


def labour_cost(hours: float, rate: float) -> float:
    """Return what hours of labour cost, in the money of the rate.

    Args:
        hours: Person-hours. [h]
        rate: Price of an hour of one person, in any money. [money/h]

    Source: definition, hours × rate
    """
    return hours * rate


def to_minor(amount: float) -> int:
    """Return an amount in whole minor units, halves up: the one place where money is rounded.

    Args:
        amount: Amount of money before it is rounded. [minor units]

    >>> to_minor(2.5), to_minor(2.4)
    (3, 2)
    """
    return math.floor(amount + 0.5)
