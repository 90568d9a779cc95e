"""Days on hire, from the dates of the work that needs the plant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import Hire, HireKey, TaskKey
from pavewright.sums import Working

if TYPE_CHECKING:
    import datetime as dt
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
    """Return days on hire of each machine: as entered, else the working days that its work touches.

    Days between, on which nothing needs it, are not counted: a hire that runs on costs more.
    """
    needs = {task.key: task.plant for task in tasks}
    found = []
    for number, entry in enumerate(job.rates.plant):
        days: set[dt.date] = set()
        for task in dated:
            if isinstance(task.key, TaskKey) and entry.key in needs[task.key]:
                days |= clock.days_worked(task.start, task.finish)
        wanted = len(days)
        if entry.days is None:
            words, note = (
                f"days on which work needs it = {wanted}",
                "working days by the programme, each begun day whole",
            )
            working = Working(words, float(wanted), "days", (), note)
        else:
            working = _as_entered(entry.days)
        paid = float(wanted) if entry.days is None else entry.days
        found.append(Hire(HireKey(entry.key, number), paid, wanted, entry.days is not None, working))
    return tuple(found)
