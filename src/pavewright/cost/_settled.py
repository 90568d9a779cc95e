"""What of a price is settled later: provisional work with its rates, and goods that the customer still chooses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._charges import attendance_minor
from pavewright.cost._keys import ChargeKey, ChargeKind, LineGroup
from pavewright.cost._money import exact, to_minor
from pavewright.cost._types import PrimeCostSum, ProvisionalSum, SettlingRate

if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from pavewright.cost._pricing import Pricing
    from pavewright.cost._types import CostLine
    from pavewright.job import Terms


def provisional_sum(terms: Terms, lines: Sequence[CostLine], pricing: Pricing) -> ProvisionalSum | None:
    """Return what of the price is provisional, at the rates that settle it, with tax: the sum that a customer finds.

    Rounding of the price is no part of it and stands beside it. None where nothing is, and no rate is stated.
    """
    mine = [line for line in lines if line.group is LineGroup.PROVISIONAL]
    rates = settling_rates(terms, lines, pricing)
    if not rates:
        return None
    ends = [
        [to_minor(amount * rate.rate_minor) for amount in _ends(terms, line)]
        for line, rate in zip(mine, rates, strict=False)  # the rates of these lines come first
    ]
    low, likely, high = (pricing.with_tax(mine, nets) for nets in zip(*ends, strict=True)) if ends else (0, 0, 0)
    whole = [line.amount_minor for line in lines]
    settled = [0 if line.group is LineGroup.PROVISIONAL else line.amount_minor for line in lines]
    without = pricing.priced(lines, whole).total - pricing.priced(lines, settled).total
    return ProvisionalSum(low, likely, high, rates, without - likely)


def _ends(terms: Terms, line: CostLine) -> tuple[Fraction, Fraction, Fraction]:
    """Return how much of a line there is at least, likely and at most, in its unit."""
    likely = exact(line.quantity)
    if isinstance(line.key, ChargeKey):
        rate = terms.provisional[line.key.number]
        low, high = (rate.amount if end is None else end for end in (rate.low_amount, rate.high_amount))
        return exact(low), likely, exact(high)
    if not line.amount_minor:
        return likely, likely, likely
    return (
        likely * line.low_minor / line.amount_minor,
        likely,
        likely * line.high_minor / line.amount_minor,
    )


def settling_rates(terms: Terms, lines: Sequence[CostLine], pricing: Pricing) -> tuple[SettlingRate, ...]:
    """Return the rate that settles each provisional line, and rates of the terms of which nothing is in the price."""
    of_one = pricing.of_one
    found = [
        SettlingRate(
            line.key,
            line.description,
            line.unit,
            line.quantity,
            to_minor(line.rate_minor * of_one),
            pricing.way_of(line.group),
        )
        for line in lines
        if line.group is LineGroup.PROVISIONAL
    ]
    have = {rate.key for rate in found}
    for number, rate in enumerate(terms.provisional):
        key = ChargeKey(ChargeKind.PROVISIONAL, number)
        if key not in have:
            said = f"Provisional: {rate.name}"
            way = pricing.way_of(LineGroup.PROVISIONAL)
            found.append(SettlingRate(key, said, rate.unit.words, 0.0, to_minor(rate.rate_minor * of_one), way))
    return tuple(found)


def prime_cost_sums(terms: Terms, pricing: Pricing) -> tuple[PrimeCostSum, ...]:
    """Return the goods that the customer still chooses: what stands in the price for them, and what settles them."""
    return tuple(
        PrimeCostSum(
            item.name,
            item.amount_minor,
            to_minor((item.amount_minor + attendance_minor(item)) * pricing.of_one),
            _OF_A_HUNDRED,
            to_minor(_OF_A_HUNDRED * (1 + exact(item.attendance_percent) / _WHOLE) * pricing.of_one),
            pricing.way_of(LineGroup.MATERIAL),
        )
        for item in terms.prime_costs
    )


_OF_A_HUNDRED = 10_000
"""Goods are settled by so much of what they cost: by less, the rate would be rounded to a part of it. [minor units]"""
_WHOLE = 100
