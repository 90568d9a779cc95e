"""What running short costs, and how the hours of a task fall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.chance import Normal, Triangle
from pavewright.cost import ChargeKey, HireKey, TaskKey, terms_of
from pavewright.rules import Status

if TYPE_CHECKING:
    from pavewright.chance import Shape
    from pavewright.cost import CostLine, LabourTask
    from pavewright.pipeline._risk_draws import ChanceFigures
    from pavewright.pipeline._types import Plan

_P90 = 1.2816
"""So many standard deviations lie between the mean and the value that one in ten is above, of a normal. [-]"""


def output_shape(task: LabourTask) -> Shape | None:
    """Return how the hours of a task fall, as parts of the likely; None where they do not.

    Ends of the rulebook are ends; those of own outputs are what one job in ten lies below, and one above.
    """
    low, high = min(1.0, task.low_hours / task.person_hours), max(1.0, task.high_hours / task.person_hours)
    if low == high:
        return None
    if any(figure.status is Status.OWN for figure in task.working.figures):
        return Normal(1.0, (high - 1.0) / _P90)
    return Triangle(low, 1.0, high)


def depth_shape(task: LabourTask) -> Triangle:
    """Return how the hours of a task fall whose ends come from a depth that nobody knows, as parts of the likely."""
    low, high = min(1.0, task.low_hours / task.person_hours), max(1.0, task.high_hours / task.person_hours)
    return Triangle(low, 1.0, high)


def again_minor(made: Plan, figures: ChanceFigures, line: CostLine) -> int | None:
    """Return what running short of an item costs once: a second delivery and what the crew loses; None if unknown.

    Args:
        made: The plan.
        figures: The figures of chance.
        line: Its priced line.
    """
    rate, crew = _hour_minor(made), made.job.crew
    if rate is None or crew.people is None:
        return None
    lost_h = figures.short_lost_days.value * crew.hours_per_day * crew.people
    carriage = _carriage(made, line)
    fetch = figures.second_delivery_h.value * rate if carriage is None else carriage
    return round(fetch + lost_h * rate)


def _hour_minor(made: Plan) -> float | None:
    """Return what an hour costs: one price for all, or the mean of the hours in the price; None where none has."""
    one = made.job.rates.labour_minor_per_hour
    if one:
        return float(one)
    lines = [each for each in made.cost.lines if isinstance(each.key, TaskKey) and each.quantity > 0.0]
    hours = sum(each.quantity for each in lines)
    return sum(each.amount_minor for each in lines) / hours if hours > 0.0 else None


def _carriage(made: Plan, line: CostLine) -> int | None:
    """Return the price of one delivery, where the job or the firm's book has it."""
    if isinstance(line.key, TaskKey | HireKey | ChargeKey):
        return None
    terms = terms_of(line.key, made.job)
    return None if terms is None else terms.carriage_minor
