"""When somebody is on site."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.programme._clock import working_time

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._types import Task


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of work within one working day."""

    start: dt.datetime
    finish: dt.datetime


def stretches(job: Job, task: Task) -> tuple[Stretch, ...]:
    """Return the stretches of a task, one for each working day; none for a wait, which runs on through the nights."""
    if task.wait:
        return ()
    # work shorter than a minute has no stretch of its own and is a moment
    return tuple(_stretches(working_time(job.calendar, job.crew), task)) or (Stretch(task.start, task.finish),)


def _stretches(clock: WorkingTime, task: Task) -> Iterator[Stretch]:
    for day in sorted(clock.days_worked(task.start, task.finish)):
        opens = dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=clock.day_starts_min)
        start, finish = max(opens, task.start), min(opens + dt.timedelta(minutes=clock.day_min), task.finish)
        if start < finish:
            yield Stretch(start, finish)
