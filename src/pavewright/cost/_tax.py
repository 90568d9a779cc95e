"""Tax by line and regime, in whole minor units, rounded in the way that is chosen."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright.cost._money import down, exact, shared_out, to_minor
from pavewright.cost._parts import Taxed, TaxShare
from pavewright.job import TaxRegime, TaxRounding

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost._keys import LineGroup
    from pavewright.cost._types import CostLine
    from pavewright.job import Rates
    from pavewright.rules import Rulebook

_WHOLE = 100
_TENTHS = 10
_RATE_OF = {
    TaxRegime.STANDARD: "cost.tax_standard_percent",
    TaxRegime.REDUCED: "cost.tax_reduced_percent",
}


def tax_on(nets: Sequence[int], percents: Sequence[float], way: TaxRounding) -> list[int]:
    """Return the tax on each part of a price, in whole minor units, so that their sum is what is charged.

    Args:
        nets: Parts of the price before tax. [minor units]
        percents: The rate on each. [%]
        way: Each part by itself, all parts of one rate together, those rounded down, or each part down to a tenth and
            their sum then to the nearest.

    Source: hmrc_vatrec VATREC12010 and VATREC12030

    >>> tax_on([1013] * 3, [20.0] * 3, TaxRounding.LINE), sum(tax_on([1013] * 3, [20.0] * 3, TaxRounding.INVOICE))
    ([203, 203, 203], 608)
    >>> sum(tax_on([1013] * 3, [20.0] * 3, TaxRounding.DOWN))
    607
    >>> sum(tax_on([1013] * 3, [5.0] * 3, TaxRounding.TENTH)), sum(tax_on([1013] * 3, [5.0] * 3, TaxRounding.LINE))
    (152, 153)
    """
    if way is TaxRounding.LINE:
        return [to_minor(_part(net, percent)) for net, percent in zip(nets, percents, strict=True)]
    found = [0] * len(nets)
    for percent in dict.fromkeys(percents):
        mine = [number for number, each in enumerate(percents) if each == percent]
        parts = [_part(nets[number], percent) for number in mine]
        if way is TaxRounding.TENTH:
            parts = [Fraction(down(part * _TENTHS), _TENTHS) for part in parts]
        whole = sum(parts, Fraction(0))
        tax = down(whole) if way is TaxRounding.DOWN else to_minor(whole)
        for number, share in zip(mine, shared_out(tax, [nets[number] for number in mine]), strict=True):
            found[number] = share
    return found


def _part(net: int, percent: float) -> Fraction:
    return net * exact(percent) / _WHOLE


def taxes(net: int, amounts: Sequence[int], ways: Sequence[Taxed], way: TaxRounding) -> tuple[TaxShare, ...]:
    """Return a price before tax by the way in which it is taxed, each line with its part of overhead and margin.

    Args:
        net: Price before tax. [minor units]
        amounts: Cost of each line; overhead and margin lie on them in proportion. [minor units]
        ways: How each line is taxed.
        way: How tax is rounded.
    """
    parts = shared_out(net, amounts)
    charged = tax_on(parts, [each.charged_percent for each in ways], way)
    return tuple(
        TaxShare(
            each,
            sum(part for part, mine in zip(parts, ways, strict=True) if mine == each),
            sum(tax for tax, mine in zip(charged, ways, strict=True) if mine == each),
        )
        for each in dict.fromkeys(ways)
    )


def of_all(rates: Rates, rules: Rulebook) -> Taxed:
    """Return how a price is taxed where no line says otherwise."""
    if rates.tax_regime is None:
        return Taxed(TaxRegime.STANDARD, rates.tax_percent)
    return taxed(rates.tax_regime, rates.tax_percent, rules)


def of_line(line: CostLine, rates: Rates, rules: Rulebook) -> Taxed:
    """Return how a line is taxed: one item of the catalogue before its group, the group before the whole."""
    item = getattr(line.key, "catalogue", None)
    by_key = (each for each in rates.tax_lines if each.key is not None and each.key == item)
    found = next(by_key, None)
    return of_group(line.group, rates, rules) if found is None else taxed(found.regime, found.percent, rules)


def of_group(group: LineGroup, rates: Rates, rules: Rulebook) -> Taxed:
    """Return how the lines of a group are taxed, where none of them says otherwise by itself."""
    found = next((each for each in rates.tax_lines if each.group is not None and each.group.value == group.value), None)
    return of_all(rates, rules) if found is None else taxed(found.regime, found.percent, rules)


def taxed(regime: TaxRegime, percent: float | None, rules: Rulebook) -> Taxed:
    """Return a regime with its rate: as entered, else as the rulebook of the place has it, else not known.

    Args:
        regime: Under which regime.
        percent: Rate as entered; None where nobody entered one. [%]
        rules: The rulebook of the place.
    """
    key = _RATE_OF.get(regime)
    if percent is not None or key is None or not rules.has(key):
        return Taxed(regime, percent)
    figure = rules.figure(key)
    return Taxed(regime, figure.value, figure)
