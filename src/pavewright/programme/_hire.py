"""Days on hire, from the dates of the work that needs the plant."""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING

from pavewright.cost import Hire, HireKey, TaskKey, hire_period
from pavewright.programme._clock import LONGEST_DAYS
from pavewright.programme._deliveries import order_by
from pavewright.sums import Working
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._types import Task


def hires_as_entered(job: Job) -> tuple[Hire, ...]:
    """Return the machines whose days are entered: of the others nobody knows the days while there are no dates."""
    return tuple(
        Hire(HireKey(entry.key, number), entry.days, 0, entered=True, working=_as_entered(entry.days))
        for number, entry in enumerate(job.rates.plant)
        if entry.days is not None
    )


def _as_entered(days: float) -> Working:
    return Working(f"days as entered = {days:g}", days, "days")


def hires(job: Job, tasks: Iterable[LabourTask], dated: Iterable[Task], clock: WorkingTime) -> tuple[Hire, ...]:
    """Return days on hire of each machine with their dates: as entered, else from the first day of need to the last.

    A hire runs on through days on which nothing needs it. The firm's own machines are counted by the days of need.
    """
    needs = {task.key: task.plant for task in tasks}
    dated = tuple(dated)
    found = []
    for number, entry in enumerate(job.rates.plant):
        days: set[dt.date] = set()
        for task in dated:
            if isinstance(task.key, TaskKey) and entry.key in needs[task.key.priced]:
                days |= clock.days_worked(task.start, task.finish)
        found.append(_hire(job, HireKey(entry.key, number), sorted(days), clock))
    return tuple(found)


def _hire(job: Job, key: HireKey, days: list[dt.date], clock: WorkingTime) -> Hire:
    """Return one hire with its dates, where work needs it on any day."""
    entry, wanted = job.rates.plant[key.number], len(days)
    held = 0 if not days else _count(clock, days[0], days[-1])
    paid = float(wanted if entry.owned else held) if entry.days is None else entry.days
    working = _days_of(days, held, owned=entry.owned) if entry.days is None else _as_entered(entry.days)
    if not days or entry.owned:
        return Hire(key, paid, wanted, entry.days is not None, working, held_days=held)
    charged = hire_period(paid, 0, None, entry.min_days or 0.0, entry.off_hire_days or 0.0, 1.0).paid_days
    return Hire(
        key,
        paid,
        wanted,
        entry.days is not None,
        working,
        on=days[0],
        off=days[-1],
        paid_until=_after(clock, days[0], math.ceil(charged)),
        order_by=None if entry.lead_days is None else order_by(job, days[0], entry.lead_days),
        held_days=held,
    )


def _days_of(days: list[dt.date], held: int, *, owned: bool) -> Working:
    wanted = len(days)
    if owned or held == wanted:
        words = f"days on which work needs it = {wanted}"
        return Working(words, float(wanted), "days", (), "working days by the programme, each begun day whole")
    words = f"working days from {day_text(days[0])} to {day_text(days[-1])} = {held}"
    note = f"work needs it on {wanted} of them; to send it back between saves days and costs a second delivery"
    return Working(words, float(held), "days", (), note)


def _count(clock: WorkingTime, first: dt.date, last: dt.date) -> int:
    """Return the working days from one day to another, both counted."""
    return sum(clock.works_on(first + dt.timedelta(days=number)) for number in range((last - first).days + 1))


def _after(clock: WorkingTime, first: dt.date, count: int) -> dt.date:
    """Return the last of so many working days from a working day on."""
    day, left = first, count - 1
    for _ in range(LONGEST_DAYS):
        if left <= 0:
            break
        day += dt.timedelta(days=1)
        left -= clock.works_on(day)
    return day
