"""Priced lines of plant: days and weeks on hire, the shortest hire, days after the call that ends it, delivery."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost._keys import ChargeKey, ChargeKind, LineGroup
from pavewright.cost._money import exact, to_minor
from pavewright.cost._types import CostLine
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost._figures import CostFigures
    from pavewright.cost._keys import LineKey
    from pavewright.cost._types import Hire
    from pavewright.job import Job, PlantHire


@dataclass(frozen=True, slots=True)
class HirePeriod:
    """What is paid of a hire.

    Attributes:
        weeks: Whole weeks at the price of a week.
        days: Days at the price of a day, beside them. [days]
        paid_days: Days that are paid for in all. [days]
        amount_minor: What they cost. [minor units]
    """

    weeks: int
    days: float
    paid_days: float
    amount_minor: int


def hire_period(
    days: float, day_minor: int, week_minor: int | None, min_days: float, off_hire_days: float, week_days: float
) -> HirePeriod:
    """Return what is paid of a hire: the cheapest of weeks and days that covers it.

    Args:
        days: Days on which it is needed. [days]
        day_minor: Price of a day. [minor units]
        week_minor: Price of a week; None where there is none. [minor units]
        min_days: Shortest hire that is charged. [days]
        off_hire_days: Days that are paid after the call that ends the hire. [days]
        week_days: Days that a week on hire covers. [days]

    Source: definition

    >>> hire_period(4.0, 3000, 9000, 0.0, 0.0, 5.0)
    HirePeriod(weeks=1, days=0.0, paid_days=4.0, amount_minor=9000)
    >>> hire_period(1.0, 3000, None, 2.0, 0.5, 5.0).paid_days
    2.0
    """
    paid = max(days + off_hire_days, min_days) if days else 0.0
    best = HirePeriod(0, paid, paid, to_minor(exact(paid) * day_minor))
    if week_minor is None:
        return best
    for weeks in range(1, math.ceil(paid / week_days) + 1):
        over = max(0.0, paid - weeks * week_days)
        amount = weeks * week_minor + to_minor(exact(over) * day_minor)
        if amount < best.amount_minor:
            best = HirePeriod(weeks, over, paid, amount)
    return best


def plant_lines(job: Job, hires: tuple[Hire, ...], figures: CostFigures) -> list[CostLine]:
    """Return the lines of each machine on hire whose day has a price."""
    found = []
    for hire in hires:
        entry = job.rates.plant[hire.key.number]
        if entry.day_price_minor is not None and not (entry.owned and not hire.days):
            found += _of_one(entry, hire, entry.day_price_minor, figures)
    return found


def _of_one(entry: PlantHire, hire: Hire, day_minor: int, figures: CostFigures) -> list[CostLine]:
    """Return the lines of one machine; its days stand also where weeks cover them all but one line is needed."""
    name, number = entry.name or hire.key.kind.value.capitalize(), hire.key.number
    extra = entry.min_days or 0.0, entry.off_hire_days or 0.0
    period = hire_period(hire.days, day_minor, entry.weekly_price_minor, *extra, figures.hire_week_days.value)
    working = hire.working
    if period.paid_days != hire.days or period.weeks:
        words = f"max({hire.days:g} + {extra[1]:g} after the call, shortest hire {extra[0]:g}) = {period.paid_days:g}"
        note = "; ".join(part for part in (hire.working.expression, hire.working.note) if part)
        working = Working(words, period.paid_days, "days", (figures.hire_week_days,) if period.weeks else (), note)
    found = []
    if period.days or not period.weeks:
        found.append(_line(hire.key, name, period.days, "days", day_minor, working))
    if period.weeks and entry.weekly_price_minor is not None:
        key = ChargeKey(ChargeKind.HIRE_WEEKS, number)
        found.append(
            _line(key, f"{name}, by the week", float(period.weeks), "weeks", entry.weekly_price_minor, working)
        )
    if entry.delivery_minor and period.paid_days:
        words = "delivery and collection = once for each hire"
        once = Working(words, 1.0, "")
        key = ChargeKey(ChargeKind.HIRE_DELIVERY, number)
        found.append(_line(key, f"{name}, delivery and collection", 1.0, "hire", entry.delivery_minor, once))
    return found


def _line(key: LineKey, words: str, quantity: float, unit: str, rate: int, working: Working) -> CostLine:
    amount = to_minor(exact(quantity) * rate)
    return CostLine(key, LineGroup.PLANT, words, quantity, unit, rate, amount, amount, amount, working)
