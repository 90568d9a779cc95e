"""Plant on hire, made again: days follow the hours of the work that needs it, and are paid as the price pays them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.cost import ChargeKey, ChargeKind, HireKey, hire_period

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.cost import CostLine, Hire
    from pavewright.pipeline._risk_causes import Causes, Draw
    from pavewright.pipeline._risk_draws import Drawn

    Row = NDArray[np.float64]


def days_wanted(model: Causes, hire: Hire) -> Draw | None:
    """Return on how many days work needs a machine; None where none does, or nobody knows the days."""
    tasks = [task for task in model.made.cost.labour if hire.key.kind in task.plant]
    hours = [each for each in (model.hours(task.key) for task in tasks) if each is not None]
    likely = sum(task.person_hours for task in tasks)
    if not hours or not hire.wanted_days or likely <= 0.0:
        return None

    def at(drawn: Drawn) -> Row:
        times = sum(each(drawn) for each in hours) / likely
        return np.maximum(np.floor(hire.wanted_days * times + 0.5), 1.0)

    return at


def paid_hire(model: Causes, hires: tuple[Hire, ...], line: CostLine) -> Draw | None:
    """Return the line of a hire, paid by days and weeks as they are cheapest, never less than the shortest hire.

    What weeks and days cost together moves in the first of the two lines; the other keeps its amount.
    """
    number = line.key.number if isinstance(line.key, HireKey | ChargeKey) else 0
    hire = next((each for each in hires if each.key.number == number), None)
    wanted = None if hire is None else days_wanted(model, hire)
    if hire is None or wanted is None:
        return None
    mine = [each for each in model.made.cost.lines if _is_of(each, number)]
    if line.key != mine[0].key:
        return lambda drawn: np.full(drawn.size, float(line.amount_minor))
    others = sum(each.amount_minor for each in mine[1:])

    def at(drawn: Drawn) -> Row:
        # days that are entered stay paid; days by the programme are as many as work needs
        held = max(hire.wanted_days, hire.days)
        more = np.maximum(wanted(drawn) - held, 0.0) if hire.entered else wanted(drawn) - hire.wanted_days
        days = hire.days + more
        found, place = np.unique(days, return_inverse=True)
        amounts = np.array([_amount(model, number, float(each)) for each in found])
        return np.asarray(amounts[place] - others, dtype=np.float64)

    return at


def _is_of(line: CostLine, number: int) -> bool:
    """Return whether a line is paid by days or weeks of a hire."""
    if isinstance(line.key, HireKey):
        return line.key.number == number
    return isinstance(line.key, ChargeKey) and line.key.kind is ChargeKind.HIRE_WEEKS and line.key.number == number


def _amount(model: Causes, number: int, days: float) -> float:
    """Return what so many days of a hire cost. [minor units]."""
    entry = model.made.job.rates.plant[number]
    extra = entry.min_days or 0.0, entry.off_hire_days or 0.0
    week = model.rules.value("cost.hire_week_days")
    return float(hire_period(days, entry.day_price_minor or 0, entry.weekly_price_minor, *extra, week).amount_minor)
