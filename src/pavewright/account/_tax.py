"""Sums by the way in which they are taxed: added up, taken from each other, and taxed as the quotation was."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright.cost import Taxed, exact, tax_on, to_minor
from pavewright.job import TaxRounding
from pavewright.job.agreed import TaxedSum

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.job import TaxRegime

    Way = tuple[TaxRegime, float | None]
    """A regime and its rate."""

_WHOLE = 100
_TENTHS = 10


def way_of(part: TaxedSum) -> Way:
    """Return how a sum is taxed."""
    return part.regime, part.percent


def charged_percent(part: TaxedSum) -> Fraction:
    """Return what is charged on a sum; zero under a regime that charges nothing. [%]."""
    return exact(Taxed(part.regime, part.percent).charged_percent)


def summed(parts: Iterable[TaxedSum]) -> tuple[TaxedSum, ...]:
    """Return sums added up, one for each way in which they are taxed, in the order in which those come first."""
    found: dict[Way, tuple[int, int]] = {}
    for part in parts:
        net, tax = found.get(way_of(part), (0, 0))
        found[way_of(part)] = net + part.net_minor, tax + part.tax_minor
    return tuple(
        TaxedSum(regime=regime, percent=percent, net_minor=net, tax_minor=tax)
        for (regime, percent), (net, tax) in found.items()
    )


def negated(parts: Iterable[TaxedSum]) -> tuple[TaxedSum, ...]:
    """Return sums with the other sign."""
    return tuple(part.model_copy(update={"net_minor": -part.net_minor, "tax_minor": -part.tax_minor}) for part in parts)


def net_of(parts: Iterable[TaxedSum]) -> int:
    """Return sums before tax, together. [minor units]."""
    return sum(part.net_minor for part in parts)


def tax_of(parts: Iterable[TaxedSum]) -> int:
    """Return the tax on sums, together. [minor units]."""
    return sum(part.tax_minor for part in parts)


def gross_of(parts: Iterable[TaxedSum]) -> int:
    """Return sums with tax, together. [minor units]."""
    return sum(part.gross_minor for part in parts)


def with_tax(regime: TaxRegime, percent: float | None, net_minor: int, way: TaxRounding) -> TaxedSum:
    """Return a sum with the tax on it, rounded as the quotation is; what is less than zero as what is more.

    Args:
        regime: Under which regime it is taxed.
        percent: The rate of it. [%]
        net_minor: Before tax. [minor units]
        way: How tax is rounded.
    """
    charged = Taxed(regime, percent).charged_percent
    tax = tax_on([abs(net_minor)], [charged], way)[0]
    return TaxedSum(regime=regime, percent=percent, net_minor=net_minor, tax_minor=tax if net_minor >= 0 else -tax)


def tax_within(gross_minor: int, percent: Fraction, way: TaxRounding) -> int:
    """Return the tax that a sum holds which was agreed with tax. [minor units].

    Args:
        gross_minor: The sum with tax, not less than zero. [minor units]
        percent: Rate that is charged. [%]
        way: How tax is rounded.

    >>> tax_within(12_000, Fraction(20), TaxRounding.INVOICE), tax_within(1_004, Fraction(20), TaxRounding.DOWN)
    (2000, 167)
    """
    held = Fraction(gross_minor) * percent / (_WHOLE + percent)
    if way is TaxRounding.DOWN:
        return held.__floor__()
    if way is TaxRounding.TENTH:
        return to_minor(Fraction((held * _TENTHS).__floor__(), _TENTHS))
    return to_minor(held)
