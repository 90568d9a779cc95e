"""Money that goes out: labour week by week, hire, materials and loads by the terms of those who are paid."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from typing import TYPE_CHECKING

from pavewright.cash._events import last_of
from pavewright.cash._types import Flow, FlowKind
from pavewright.cost import ChargeKey, ChargeKind, HireKey, LineGroup, TaskKey, TaskKind, shared_out
from pavewright.programme import stretches
from pavewright.quantities import ItemKey

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.cost import Cost, CostLine, LineKey
    from pavewright.job import Job
    from pavewright.programme import Delivery, Programme

_FRIDAY = 4
_DUG = frozenset({
    *(TaskKind.DIG, TaskKind.SIDES, TaskKind.LOAD, TaskKind.CART, TaskKind.EDGE_TRENCH, TaskKind.BREAK_OUT),
    TaskKind.DIG_FREE,
})  # fmt: skip
_KIND = {
    LineGroup.LABOUR: FlowKind.LABOUR,
    LineGroup.PLANT: FlowKind.PLANT,
    LineGroup.DISPOSAL: FlowKind.DISPOSAL,
    LineGroup.PROVISIONAL: FlowKind.PROVISIONAL,
    LineGroup.MATERIAL: FlowKind.MATERIAL,
}


class Paying:
    """When each line of a cost is paid."""

    def __init__(self, job: Job, cost: Cost, programme: Programme, deliveries: tuple[Delivery, ...]) -> None:
        """Take what decides it."""
        self._cost, self._programme = cost, programme
        self._later = dt.timedelta(days=job.terms.supplier_days or 0)
        self._brought = {item.key: each.on for each in deliveries for item in each.items}
        self._dug = last_of(programme, _DUG) or programme.start
        own = [task.key.priced for task in programme.tasks if isinstance(task.key, TaskKey)]
        self._worked = {key: _minutes(job, programme, key) for key in dict.fromkeys(own)}
        self._off_hire = {hire.key.number: hire.off for hire in programme.hires if hire.off is not None}

    def out(self) -> tuple[Flow, ...]:
        """Return all money that goes out for lines and overhead, the same day and kind together."""
        sums: defaultdict[tuple[dt.date, FlowKind], int] = defaultdict(int)
        for line in self._cost.lines:
            for on, amount in self._of(line):
                sums[on, _KIND[line.group]] += amount
        weeks = {on: amount for (on, kind), amount in sums.items() if kind is FlowKind.LABOUR}
        for on, amount in self._overhead(weeks):
            sums[on, FlowKind.OVERHEAD] += amount
        return tuple(Flow(on, kind, -amount, kind.value) for (on, kind), amount in sorted(sums.items()) if amount)

    def _of(self, line: CostLine) -> Iterator[tuple[dt.date, int]]:
        """Give days and amounts of one line: work by the week, everything else on one day."""
        worked = self._worked.get(line.key) if isinstance(line.key, TaskKey) else None
        if worked:
            days = sorted(worked)
            yield from zip(
                map(_pay_day, days), shared_out(line.amount_minor, [worked[day] for day in days]), strict=True
            )
        elif isinstance(line.key, TaskKey):
            yield _pay_day(self._dug), line.amount_minor
        elif isinstance(line.key, ChargeKey) and line.key.kind is ChargeKind.CARRIAGE:
            for each in self._cost.orders[line.key.number].deliveries:
                on = min((self._brought[item] for item in each.items if item in self._brought), default=self._dug)
                yield on + self._later, each.carriage_minor or 0
        elif line.group is LineGroup.LABOUR:
            yield _pay_day(self._once(line.key)), line.amount_minor
        else:
            yield self._once(line.key) + self._later, line.amount_minor

    def _once(self, key: LineKey) -> dt.date:
        """Return the day from which the days of a supplier count."""
        if isinstance(key, HireKey):
            return self._off_hire.get(key.number, self._programme.finish)
        if isinstance(key, ChargeKey):
            return self._charged(key)
        if isinstance(key, ItemKey) and key in self._brought:
            return self._brought[key]
        return self._dug

    def _charged(self, key: ChargeKey) -> dt.date:
        """Return the day from which the days of a charge count: with its hire, its goods, or what is found."""
        if key.kind in {ChargeKind.HIRE_WEEKS, ChargeKind.HIRE_DELIVERY}:
            return self._off_hire.get(key.number, self._programme.finish)
        return self._dug if key.kind is ChargeKind.PROVISIONAL else self._programme.start

    def _overhead(self, weeks: Mapping[dt.date, int]) -> Iterator[tuple[dt.date, int]]:
        """Give overhead by the week in proportion to labour; at the end where there is no labour."""
        days = sorted(weeks)
        shares = shared_out(self._cost.overhead_minor, [weeks[day] for day in days])
        if sum(shares) == self._cost.overhead_minor:
            yield from zip(days, shares, strict=True)
        else:
            yield self._programme.finish, self._cost.overhead_minor


def _minutes(job: Job, programme: Programme, key: TaskKey) -> dict[dt.date, int]:
    """Return the minutes of a task by day, with all of its layers; one where it is shorter than a minute."""
    found: defaultdict[dt.date, int] = defaultdict(int)
    for task in programme.tasks:
        if isinstance(task.key, TaskKey) and task.key.priced == key:
            for stretch in stretches(job, task):
                found[stretch.start.date()] += max(1, round((stretch.finish - stretch.start).total_seconds() / 60))
    return found


def _pay_day(day: dt.date) -> dt.date:
    """Return the Friday of the week of a day; the day itself where it comes after it."""
    return day + dt.timedelta(days=max(0, _FRIDAY - day.weekday()))
