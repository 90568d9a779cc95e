"""What is done by the log, as the programme takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import DoneTask

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import Job


def done_by_log(job: Job) -> tuple[DoneTask, ...]:
    """Return what the log says is done, each task once as it stood on the last day on which somebody looked.

    Work on it began on the first day with hours on it. Of two logs of one day the one that says more holds.
    """
    began: dict[str, dt.date] = {}
    last: dict[str, tuple[dt.date, float]] = {}
    for day in sorted(job.site_days, key=lambda each: each.date):
        for each in day.worked:
            began.setdefault(each.task, day.date)
            if each.done_percent is not None:
                before = last.get(each.task)
                same_day = before is not None and before[0] == day.date
                most = max(each.done_percent, before[1]) if before is not None and same_day else each.done_percent
                last[each.task] = (day.date, most)
    return tuple(
        DoneTask(task=task, on=on, since=began[task], done_percent=percent) for task, (on, percent) in last.items()
    )


def done_with_log(job: Job) -> tuple[DoneTask, ...]:
    """Return what a programme is to show as done: what the log says, and for every other task what was entered."""
    logged = {each.task: each for each in done_by_log(job)}
    kept = [logged.pop(each.task, each) for each in job.done]
    return (*kept, *logged.values())
