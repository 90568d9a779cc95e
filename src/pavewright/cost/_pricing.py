"""How a job is priced: what goes on the cost of its lines, and the sums that say so."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING

from pavewright.cost._money import Percents, chain, exact, in_steps, to_minor
from pavewright.cost._tax import of_all, of_group, of_line, taxed, taxes
from pavewright.job import RoundingKind, TaxRegime, TaxRounding
from pavewright.sums import Working
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost._keys import LineGroup
    from pavewright.cost._parts import Taxed, TaxShare
    from pavewright.cost._types import CostLine
    from pavewright.job import Rates
    from pavewright.rules import Rulebook

_UNIT = "minor units"
_WHOLE = 100


@dataclass(frozen=True, slots=True)
class Priced:
    """The steps from the lines to a price, whole minor units.

    Attributes:
        prime: Sum of the lines.
        overhead: Overhead.
        net: Price before tax.
        shares: It by the way in which it is taxed.
    """

    prime: int
    overhead: int
    net: int
    shares: tuple[TaxShare, ...]

    @property
    def margin(self) -> int:
        """What the margin or the mark-up leaves. [minor units]."""
        return self.net - self.prime - self.overhead

    @property
    def tax(self) -> int:
        """Tax. [minor units]."""
        return sum(share.tax_minor for share in self.shares)

    @property
    def total(self) -> int:
        """Price with tax. [minor units]."""
        return self.net + self.tax

    @property
    def markup_percent(self) -> float | None:
        """The margin as a part of cost and overhead; None where there is no cost. [%]."""
        burdened = self.prime + self.overhead
        return float(Fraction(self.margin, burdened) * 100) if burdened else None

    @property
    def margin_percent(self) -> float | None:
        """The margin as a part of the price before tax; None where there is no price. [%]."""
        return float(Fraction(self.margin, self.net) * 100) if self.net else None


class Pricing:
    """What a job says of overhead, margin or mark-up, rounding and tax; what is not known is left out, and said."""

    def __init__(self, rates: Rates, rules: Rulebook, hours: float, currency: str) -> None:
        """Take the rates of a job.

        Args:
            rates: Its rates.
            rules: The rulebook, which may know the rates of tax of the place.
            hours: Hours of labour, for overhead by the hour. [h]
            currency: The money that its sums are written in.
        """
        self._money = partial(minor_to_text, currency=currency)
        self._rates, self._rules, self._hours = rates, rules, hours
        self._way = rates.tax_rounding or TaxRounding.INVOICE
        rounding = rates.rounding
        step = (RoundingKind.NONE, 1) if rounding is None else (rounding.kind, rounding.to_minor)
        self._step = partial(in_steps, kind=step[0], to=step[1])
        self._percents = Percents(
            rates.overhead_percent or 0.0,
            rates.margin_percent or 0.0,
            0.0,
            rates.markup_percent or 0.0,
            exact(hours) * (rates.overhead_minor_per_hour or 0),
        )

    @property
    def tax_is_known(self) -> bool:
        """Whether it is known what tax is charged on all of the price, and on what is taxed in its own way."""
        lines = (taxed(line.regime, line.percent, self._rules) for line in self._rates.tax_lines)
        return of_all(self._rates, self._rules).is_known and all(each.is_known for each in lines)

    @property
    def of_one(self) -> Fraction:
        """What one more in cost makes in the price before tax, overhead by the hour left out."""
        parts = self._percents
        burdened = (1 + exact(parts.overhead) / _WHOLE) * (1 + exact(parts.markup) / _WHOLE)
        return burdened / (1 - exact(parts.margin) / _WHOLE)

    def way_of(self, group: LineGroup) -> Taxed:
        """Return how the lines of a group are taxed."""
        return of_group(group, self._rates, self._rules)

    def priced(self, lines: Sequence[CostLine], amounts: Sequence[int]) -> Priced:
        """Return the price of lines at given amounts.

        Args:
            lines: The lines.
            amounts: What each of them costs. [minor units]
        """
        prime = sum(amounts)
        found = chain(prime, self._percents, to_minor, self._step)
        if prime:
            ways = [of_line(line, self._rates, self._rules) for line in lines]
            shares = taxes(found.net, amounts, ways, self._way)
        else:
            shares = taxes(found.net, [1], [of_all(self._rates, self._rules)], self._way)
        return Priced(prime, found.overhead, found.net, shares)

    def with_tax(self, lines: Sequence[CostLine], nets: Sequence[int]) -> int:
        """Return prices of lines before tax with the tax on them, not rounded as the price of a job is. [minor units].

        Args:
            lines: The lines.
            nets: The price of each, before tax. [minor units]
        """
        ways = [of_line(line, self._rates, self._rules) for line in lines]
        return sum(nets) + sum(share.tax_minor for share in taxes(sum(nets), nets, ways, self._way))

    def workings(self, priced: Priced) -> tuple[Working, ...]:
        """Return the sums from prime cost to total."""
        return (
            Working("prime cost = sum of the lines", float(priced.prime), _UNIT),
            self._overhead(priced),
            *self._margin(priced),
            *(self._tax(share) for share in priced.shares),
            Working(f"total = {self._money(priced.net)} + {self._money(priced.tax)}", float(priced.total), _UNIT),
        )

    def _overhead(self, priced: Priced) -> Working:
        by_hour = self._rates.overhead_minor_per_hour
        if by_hour is not None:
            return Working(f"overhead = {self._hours:.2f} h × {self._money(by_hour)}", float(priced.overhead), _UNIT)
        return Working(
            f"overhead = {self._money(priced.prime)} × {self._percents.overhead:g} %", float(priced.overhead), _UNIT
        )

    def _margin(self, priced: Priced) -> tuple[Working, ...]:
        """Return the price before tax, and what is left of it as a part of the price and as a part of the cost."""
        sum_of = f"({self._money(priced.prime)} + {self._money(priced.overhead)})"
        if self._rates.markup_percent is not None:
            words = f"net price = {sum_of} × (1 + {self._rates.markup_percent:g} %)"
            note = "the mark-up is a part of cost and overhead, so it is added to them"
        else:
            words = f"net price = {sum_of} / (1 − {self._percents.margin:g} %)"
            note = "the margin is a part of the price, so the cost is divided"
        rounding = self._rates.rounding
        if rounding is not None and rounding.kind is not RoundingKind.NONE:
            way = "up to" if rounding.kind is RoundingKind.UP else "to the nearest"
            note = f"{note}; rounded {way} {self._money(rounding.to_minor)}"
        taken = " − ".join(self._money(each) for each in (priced.net, priced.prime, priced.overhead))
        left = Working(f"margin = {taken}", float(priced.margin), _UNIT)
        found = [Working(words, float(priced.net), _UNIT, (), note), left]
        if priced.margin_percent is not None and priced.markup_percent is not None:
            as_margin = f"margin = {self._money(priced.margin)} / {self._money(priced.net)}, a part of the price"
            as_markup = f"mark-up = {self._money(priced.margin)} / {sum_of}, a part of the cost"
            found += [Working(as_margin, priced.margin_percent, "%"), Working(as_markup, priced.markup_percent, "%")]
        return tuple(found)

    def _tax(self, share: TaxShare) -> Working:
        """Return the sum of the tax that falls on one part of the price."""
        how, name = share.taxed, self._rates.tax_name
        figures = () if how.figure is None else (how.figure,)
        said = _NOTES.get(how.regime, "")
        words = f"{name} = {self._money(share.net_minor)} × {how.charged_percent:g} %"
        if self._way is not TaxRounding.INVOICE:
            said = "; ".join(part for part in (said, _WAYS[self._way]) if part)
        return Working(words, float(share.tax_minor), _UNIT, figures, said)


ASK = "ask the tax office or an adviser whether this holds"
_NOTES = {
    TaxRegime.REDUCED: f"reduced rate; {ASK}",
    TaxRegime.ZERO: f"rated at zero; {ASK}",
    TaxRegime.NONE: f"no tax is charged; {ASK}",
    TaxRegime.REVERSE_CHARGE: f"reverse charge: the customer accounts for the tax; {ASK}",
}
_WAYS = {
    TaxRounding.LINE: "rounded on each line",
    TaxRounding.DOWN: "rounded down",
    TaxRounding.TENTH: "each line rounded down to a tenth of the smallest coin, their sum to the nearest",
}
