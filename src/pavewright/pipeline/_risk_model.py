"""The joint model of a price: every priced line made again from what nobody knows before the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import Triangle
from pavewright.cost import ChargeKey, ChargeKind, HireKey, LineGroup, TaskKey
from pavewright.pipeline._risk_bought import bought, spoil
from pavewright.pipeline._risk_causes import Causes
from pavewright.pipeline._risk_days import Timed
from pavewright.pipeline._risk_hire import paid_hire
from pavewright.pipeline._risk_types import Cause, CauseKey
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.cost import CostLine, Hire, LineKey
    from pavewright.pipeline._risk_causes import Draw
    from pavewright.pipeline._risk_draws import Drawn
    from pavewright.pipeline._types import Plan
    from pavewright.rules import Rulebook

    Row = NDArray[np.float64]

_NEAR = 0.5
"""A line that is made again to within half a minor unit is the plan's. [minor units]"""
_QUOTED = frozenset({ChargeKind.PRIME_COST, ChargeKind.ATTENDANCE, ChargeKind.CARRIAGE, ChargeKind.HIRE_DELIVERY})
"""Charges that are a sum as stated: no draw moves them, and they stand in every one."""


class RiskModel(Causes):
    """A price as a function of what nobody knows."""

    def __init__(self, made: Plan, hires: tuple[Hire, ...], rules: Rulebook) -> None:
        """Begin with a plan that has a price.

        Args:
            made: The plan, whole up to its price.
            hires: Machines on hire; empty where there are no dates.
            rules: The rulebook.
        """
        super().__init__(made, rules)
        self._hires, self._timed = hires, Timed(self, hires)
        self.fixed: list[LineKey] = []
        self._lines = [self._checked(line, self._line(line)) for line in made.cost.lines]
        self._hours = self.all_hours()
        self._settled_hours = self.all_hours(settled=True)
        self._assumed = [
            (CauseKey(Cause.ASSUMED, fact=number), Triangle(float(each.low_minor), 0.0, float(each.high_minor)))
            for number, each in enumerate(made.cost.assumed)
            if each.low_minor is not None and each.high_minor is not None and each.low_minor < each.high_minor
        ]
        for key, _ in self._assumed:
            self.shape(key)

    def amounts(self, drawn: Drawn) -> list[Row]:
        """Return what each priced line costs for each draw, in their order. [minor units]."""
        return [line(drawn) for line in self._lines]

    def prime(self, drawn: Drawn) -> Row:
        """Return the cost of the lines for each draw, whole minor units each; assumed facts are added by `total`."""
        return np.asarray(sum(self.amounts(drawn), np.zeros(drawn.size)), dtype=np.float64)

    def total(self, drawn: Drawn) -> Row:
        """Return the price with tax for each draw: the plan's, and what the draw costs more as the plan prices it."""
        found = self.made.cost.total_minor + self._more(drawn) * self._sold + self._of_assumed(drawn)
        return np.asarray(found, dtype=np.float64)

    def burdened(self, drawn: Drawn) -> Row:
        """Return cost with overhead for each draw, before tax, assumed facts with it. [minor units].

        Provisional work is settled at its rates by what is found, so it stands at what is in the price.
        """
        cost = self.made.cost
        more = self._more(drawn, settled=False)
        return np.asarray(
            cost.prime_minor + cost.overhead_minor + more + self._of_assumed(drawn) / self._sold, dtype=np.float64
        )

    def _more(self, drawn: Drawn, *, settled: bool = True) -> Row:
        """Return how much more each draw costs with overhead: by the hour where the firm has it so, else by cost.

        Args:
            drawn: The draws.
            settled: Whether provisional lines, which are settled by what is found, move with them.
        """
        cost, by_hour = self.made.cost, self.made.job.rates.overhead_minor_per_hour
        pairs = zip(cost.lines, self.amounts(drawn), strict=True)
        moving = [amounts - line.amount_minor for line, amounts in pairs if settled or not _is_settled(line)]
        more = sum(moving, np.zeros(drawn.size))
        if by_hour is None:
            return np.asarray(more * (1.0 + cost.overhead_minor / (cost.prime_minor or 1)), dtype=np.float64)
        likely = sum(task.person_hours for task in cost.labour)
        hours = self._hours(drawn) - likely
        if not settled:
            hours = hours - (self._settled_hours(drawn) - self._settled_hours(self.drawn({}, 1)))
        return np.asarray(more + hours * by_hour, dtype=np.float64)

    @property
    def _sold(self) -> float:
        """What one more in cost and overhead makes in the price with tax. [-]."""
        burdened = self.made.cost.prime_minor + self.made.cost.overhead_minor
        return self.made.cost.total_minor / burdened if burdened else 1.0

    def _of_assumed(self, drawn: Drawn) -> Row:
        found = np.zeros(drawn.size)
        for key, shape in self._assumed:
            found = found + drawn.of(key, shape, 0.0)
        return found

    def _checked(self, line: CostLine, made: Draw | None) -> Draw:
        """Return a line as it is made again, if that gives what the plan has; else it is taken as certain."""
        amount = float(line.amount_minor)
        if made is not None:
            likely = float(made(self.drawn({}, 1))[0])
            if abs(likely - amount) < _NEAR:
                return made
        self.fixed.append(line.key)
        return lambda drawn: np.full(drawn.size, amount)

    def _line(self, line: CostLine) -> Draw | None:
        if _is_settled(line):
            return self._provisional(line)
        match line.key:
            case TaskKey() as key:
                return self._labour(line, key)
            case HireKey() | ChargeKey():
                return self._charge(line)
            case item_key:
                if item_key.kind in {ItemKind.SPOIL, ItemKind.PIT_SPOIL}:
                    return spoil(self, line, pit=item_key.kind is ItemKind.PIT_SPOIL)
                item = next((each for each in self.made.quantities.items if each.key == item_key), None)
                return None if item is None else bought(self, line, item, self._timed.more)

    def _charge(self, line: CostLine) -> Draw | None:
        """Return a hire, or a charge; a sum as stated stands in every draw."""
        if isinstance(line.key, ChargeKey) and line.key.kind in _QUOTED:
            return lambda drawn: np.full(drawn.size, float(line.quantity * line.rate_minor))
        return paid_hire(self, self._hires, line)

    def _provisional(self, line: CostLine) -> Draw:
        """One depth of topsoil moves all lines that wait for it; each rate of the terms goes by what is found of it."""
        amount = float(line.amount_minor)
        if line.low_minor == line.high_minor:
            return lambda drawn: np.full(drawn.size, amount)
        of_terms = isinstance(line.key, ChargeKey)
        cause = CauseKey(Cause.PROVISIONAL, fact=line.key.number) if of_terms else CauseKey(Cause.TOPSOIL)
        key = self.shape(cause)
        shape = Triangle(min(float(line.low_minor), amount), amount, max(float(line.high_minor), amount))
        return lambda drawn: np.floor(drawn.of(key, shape, amount) + 0.5)

    def _labour(self, line: CostLine, key: TaskKey) -> Draw | None:
        hours = self.hours(key)
        if hours is None or not line.quantity:
            return None
        each = line.amount_minor / line.quantity
        rate = float(line.rate_minor) if abs(each - line.rate_minor) < 1.0 else each
        return lambda drawn: np.floor(hours(drawn) * rate + 0.5)


def _is_settled(line: CostLine) -> bool:
    """Return whether a line is settled by what is found."""
    return line.group is LineGroup.PROVISIONAL
