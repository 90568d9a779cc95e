"""What is bought by the day, the week, the litre of fuel or the load: it moves with the hours and with what leaves."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.earthworks import Spread
from pavewright.pipeline._risk_bought import loads
from pavewright.pipeline._risk_hire import days_wanted
from pavewright.pipeline._site_days import DAYS_OF_A_WEEK, calendar_days, site_days
from pavewright.quantities import take_off, with_days

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from pavewright.cost import Hire
    from pavewright.pipeline._risk_causes import Causes, Draw
    from pavewright.pipeline._risk_draws import Drawn
    from pavewright.quantities import ItemKey, SiteDays

    Row = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Move:
    """One count that is drawn, and what one more of it takes of each item.

    Attributes:
        count: The count, less the plan's.
        items: How much more of each item one more of it takes. [unit of the item]
    """

    count: Draw
    items: Mapping[ItemKey, float]


class Timed:
    """What days and loads do to what is bought."""

    def __init__(self, model: Causes, hires: tuple[Hire, ...]) -> None:
        """Take the counts of a plan.

        Args:
            model: What is drawn.
            hires: Machines on hire; empty where there are no dates.
        """
        self._model = model
        self._moves = (*self._by_days(hires), *self._by_loads())

    def more(self, key: ItemKey) -> Draw | None:
        """Return how much more of an item is needed than the plan has; None where days and loads do not move it."""
        mine = [(each.count, each.items[key]) for each in self._moves if each.items.get(key)]
        if not mine:
            return None
        return lambda drawn: np.asarray(sum(count(drawn) * slope for count, slope in mine), dtype=np.float64)

    def _by_days(self, hires: tuple[Hire, ...]) -> Iterator[_Move]:
        made = self._model.made
        days = site_days(made.job, made.cost.labour, made.programme)
        likely = sum(task.person_hours for task in made.cost.labour)
        if days is None or likely <= 0.0:
            return
        hours, plan = self._model.all_hours(), self._of_days(days)
        span = calendar_days(made.programme)

        def move(other: SiteDays, count: Draw) -> _Move:
            found = self._of_days(other)
            return _Move(count, {key: found[key] - plan.get(key, 0.0) for key in found})

        def worked(drawn: Drawn) -> Row:
            return np.maximum(np.floor(days.work_days * hours(drawn) / likely + 0.5), 1.0) - days.work_days

        def weeks(drawn: Drawn) -> Row:
            return np.ceil(span * hours(drawn) / likely / DAYS_OF_A_WEEK - 1e-9) - days.weeks

        def people(drawn: Drawn) -> Row:
            return (hours(drawn) - likely) / made.job.crew.hours_per_day

        yield move(replace(days, work_days=days.work_days + 1.0), worked)
        yield move(replace(days, weeks=days.weeks + 1.0), weeks)
        yield move(replace(days, person_days=days.person_days + 1.0), people)
        for hire in hires:
            wanted = days_wanted(self._model, hire)
            if wanted is not None:
                number, likely_days = hire.key.number, float(hire.wanted_days)
                other = replace(days, plant={**days.plant, number: days.plant[number] + 1.0})
                yield move(other, _less(wanted, likely_days))

    def _of_days(self, days: SiteDays) -> dict[ItemKey, float]:
        """Return what is needed of what goes by the day, for so many days."""
        made = self._model.made
        found = with_days(made.job, replace(made.quantities, items=(), gaps=()), days, self._model.rules)
        return {item.key: item.gross for item in found.items}

    def _by_loads(self) -> Iterator[_Move]:
        made, rules = self._model.made, self._model.rules
        many = loads(self._model, with_pit=True)
        if many is None or made.earthworks.loads is None or not made.earthworks.areas:
            return
        one_more = replace(made.earthworks, loads=_one_more(made.earthworks.loads))
        other = take_off(made.job, made.survey, made.levels, made.laying, made.build_ups, one_more, made.water, rules)
        have = {item.key: item.gross for item in made.quantities.items}
        slopes = {item.key: item.gross - have.get(item.key, 0.0) for item in other.items if item.key.catalogue}
        pit = made.quantities.pit_spoil
        beside = 0.0 if pit is None or pit.loads is None else pit.loads.likely
        yield _Move(_less(many, made.earthworks.loads.likely + beside), slopes)


def _less(count: Draw, likely: float) -> Draw:
    return lambda drawn: count(drawn) - likely


def _one_more(spread: Spread) -> Spread:
    return Spread(spread.low + 1.0, spread.likely + 1.0, spread.high + 1.0)
