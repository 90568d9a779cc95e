"""How the time of tasks falls on days."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import TaskKey

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from pavewright.cost import TaskKind
    from pavewright.job import Job
    from pavewright.programme import Programme, Task


@dataclass(frozen=True, slots=True)
class DayOfTask:
    """What of a task falls on a day.

    Attributes:
        task: The task.
        on: The day.
        minutes: Crew time of it on that day. [min]
    """

    task: Task
    on: dt.date
    minutes: float


def by_day(
    job: Job, programme: Programme, kinds: Collection[TaskKind], area: int | None = None
) -> tuple[DayOfTask, ...]:
    """Return what of the tasks of some kinds falls on each day, of one area where one is given."""
    wanted = (
        task
        for task in programme.tasks
        if isinstance(task.key, TaskKey) and task.key.kind in kinds and area in {None, task.key.area}
    )
    return tasks_by_day(job, wanted)


def tasks_by_day(job: Job, tasks: Iterable[Task]) -> tuple[DayOfTask, ...]:
    """Return what of some tasks falls on each day."""
    return tuple(part for task in tasks if not task.wait for part in _parts(job, task))


def _parts(job: Job, task: Task) -> list[DayOfTask]:
    opens_min, day_min = job.calendar.day_starts_min, job.crew.hours_per_day * units.MINUTES_PER_HOUR
    found = []
    day = task.start.date()
    while day <= task.finish.date():
        opens = dt.datetime.combine(day, dt.time(), task.start.tzinfo) + dt.timedelta(minutes=opens_min)
        closes = opens + dt.timedelta(minutes=day_min)
        shared = (min(task.finish, closes) - max(task.start, opens)) / dt.timedelta(minutes=1)
        works = day.weekday() in job.calendar.weekdays and day not in job.calendar.days_off
        if shared > 0.0 and works:
            found.append(DayOfTask(task, day, shared))
        day += dt.timedelta(days=1)
    return found
