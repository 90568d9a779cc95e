"""From cost to price, exactly: the one engine of the sum and of a job.

What is written with decimals is taken as those decimals, sums and parts are fractions, and money is rounded where it
is said and nowhere else.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Generic, TypeVar

from pavewright.job import RoundingKind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ALL_PERCENT = 100.0
"""The whole. [%]"""
_WHOLE = 100
_HALF = Fraction(1, 2)

Amount = TypeVar("Amount", int, float)


def exact(number: float | Fraction) -> Fraction:
    """Return a number as the decimals that one reads of it.

    Args:
        number: Any number. [-]

    >>> exact(17.5), exact(0.1)
    (Fraction(35, 2), Fraction(1, 10))
    """
    return number if isinstance(number, Fraction) else Fraction(repr(number))


@dataclass(frozen=True, slots=True)
class Percents:
    """What goes on a cost: a margin or a mark-up, never both.

    Attributes:
        overhead: Overhead, a part of the cost. [%]
        margin: Margin, a part of the price before tax. [%]
        tax: Tax, a part of the price before tax. [%]
        markup: Mark-up, a part of cost and overhead, in place of a margin. [%]
        overhead_sum: Overhead as a sum, for hours of labour, in the money of the cost.
    """

    overhead: float
    margin: float
    tax: float
    markup: float = 0.0
    overhead_sum: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Chain(Generic[Amount]):
    """The steps from a cost to a price, in the money of the cost.

    Attributes:
        overhead: Overhead on the cost.
        margin: What the margin or the mark-up leaves, what rounding adds with it.
        net: Price before tax.
        tax: Tax.
        total: Price with tax.
    """

    overhead: Amount
    margin: Amount
    net: Amount
    tax: Amount
    total: Amount


def chain(
    cost: Amount,
    percents: Percents,
    rounded: Callable[[Fraction], Amount],
    step: Callable[[Amount], Amount] = lambda net: net,
) -> Chain[Amount]:
    """Return the steps from a cost to a price, each rounded before the next.

    Args:
        cost: Prime cost, in any money.
        percents: What goes on it.
        rounded: How money is rounded at each step; ``float`` for not at all.
        step: How the price before tax is rounded further, for a price that is easy to say.

    Valid for: margin under 100 %.
    Source: definition, price = (cost + overhead) / (1 − margin), or (cost + overhead) · (1 + mark-up)

    >>> found = chain(1000.0, Percents(0.0, 20.0, 20.0), float)
    >>> found.net, found.margin, found.total
    (1250.0, 250.0, 1500.0)
    >>> chain(1000, Percents(0.0, 0.0, 20.0, markup=25.0), to_minor).net
    1250
    """
    overhead = rounded(exact(cost) * exact(percents.overhead) / _WHOLE + percents.overhead_sum)
    burdened = exact(cost + overhead) * (1 + exact(percents.markup) / _WHOLE)
    net = step(rounded(burdened / (1 - exact(percents.margin) / _WHOLE)))
    tax = rounded(exact(net) * exact(percents.tax) / _WHOLE)
    return Chain(overhead, net - cost - overhead, net, tax, net + tax)


def in_steps(net: int, kind: RoundingKind, to: int) -> int:
    """Return a price before tax in whole steps.

    Args:
        net: Price before tax. [minor units]
        kind: Which way.
        to: The step. [minor units]

    >>> in_steps(123_449, RoundingKind.NEAREST, 500), in_steps(123_001, RoundingKind.UP, 500)
    (123500, 123500)
    """
    if kind is RoundingKind.NONE:
        return net
    return to * (to_minor(Fraction(net, to)) if kind is RoundingKind.NEAREST else -(-net // to))


def shared_out(whole: int, parts: Sequence[int]) -> list[int]:
    """Return a sum in whole minor units shared out by parts, nothing lost: what is left goes to the largest remainders.

    Args:
        whole: What is shared out. [minor units]
        parts: By what; not less than zero.

    >>> shared_out(100, [1, 1, 1])
    [34, 33, 33]
    """
    among = sum(parts)
    if not among:
        return [0] * len(parts)
    shares = [whole * part // among for part in parts]
    left = whole - sum(shares)
    largest = sorted(range(len(parts)), key=lambda each: (-(whole * parts[each] % among), each))
    for each in largest[:left]:
        shares[each] += 1
    return shares


def labour_cost(hours: float, rate: float) -> float:
    """Return what hours of labour cost, in the money of the rate.

    Args:
        hours: Person-hours. [h]
        rate: Price of an hour of one person, in any money. [money/h]

    Source: definition, hours × rate
    """
    return hours * rate


def to_minor(amount: float | Fraction) -> int:
    """Return an amount in whole minor units, halves up: the one place where money is rounded.

    Args:
        amount: Amount of money before it is rounded. [minor units]

    >>> to_minor(2.5), to_minor(2.4), to_minor(exact(0.5))
    (3, 2, 1)
    """
    return math.floor(exact(amount) + _HALF)


def down(amount: Fraction) -> int:
    """Return an amount in whole minor units, what is over left out.

    >>> down(exact(2.9))
    2
    """
    return math.floor(amount)
