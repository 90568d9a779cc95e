"""The whole log: days, tasks and what was noticed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey
from pavewright.findings import Finding, Severity
from pavewright.site_log import _words
from pavewright.site_log._codes import Code
from pavewright.site_log._days import days_of, said_of
from pavewright.site_log._done import done_by_log
from pavewright.site_log._task_log import task_log
from pavewright.site_log._types import SiteLog, TaskPace
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme import Programme
    from pavewright.rules import Rulebook
    from pavewright.site_log._types import LoggedDay, TaskLog

_SMALL_H = 0.01
"""Hours that differ by less are the same. [h]"""


def site_log(job: Job, labour: Sequence[LabourTask] | None, programme: Programme | None, rules: Rulebook) -> SiteLog:
    """Return what the days of a job say.

    Args:
        job: The job.
        labour: The work of its plan in hours; None where too little is known for it.
        programme: Its tasks with dates; None where there are none.
        rules: The rulebook.
    """
    tasks = labour or ()
    steps = () if programme is None else tuple(each for each in programme.tasks if not each.wait)
    words = {each.key.text: each.description for each in tasks}
    words = {each.key.text: each.description for each in steps} | {
        key: said for key, said in words.items() if key not in {each.key.text for each in steps}
    }
    whole = {each.key.text: each.key.priced.text for each in steps if isinstance(each.key, TaskKey)}
    days = days_of(job, words)
    logs = tuple(task_log(task, days, whole, rules) for task in tasks)
    found = [*_of_days(days), *_of_tasks(days, logs, words), *_of_programme(job, words, programme)]
    return SiteLog(days, logs, math.fsum(each.person_h for each in days), tuple(found))


def _of_days(days: Sequence[LoggedDay]) -> Iterator[Finding]:
    for day in days:
        if day.there_h is not None and day.person_h > day.there_h + _SMALL_H:
            words, options = _words.booked_more(day.person_h, day.there_h)
            yield Finding(Code.BOOKED_MORE, Severity.CHECK, day_text(day.on), words, options=options)
        for name, given in said_of(day.logs).items():
            if len(given) > 1:
                words, options = _words.person_twice(name)
                yield Finding(Code.PERSON_TWICE, Severity.CHECK, day_text(day.on), words, options=options)


def _of_tasks(days: Sequence[LoggedDay], logs: Sequence[TaskLog], words: dict[str, str]) -> Iterator[Finding]:
    gone = tuple(sorted({each.task for day in days for each in day.hours if words and each.task not in words}))
    if gone:
        told, options = _words.no_such_task(gone)
        yield Finding(Code.NO_SUCH_TASK, Severity.NOTE, "", told, options=options)
    done: dict[str, float] = {}
    for day in days:
        for each in day.hours:
            before = done.get(each.task, 0.0)
            if each.done_percent is not None and each.done_percent < before:
                told, options = _words.less_done(day.on, before, each.done_percent)
                yield Finding(Code.LESS_DONE, Severity.CHECK, each.words, told, options=options)
            if each.done_percent is not None:
                done[each.task] = each.done_percent
    for task in logs:
        if task.pace is TaskPace.SLOWER and task.expected_low_h is not None and task.expected_high_h is not None:
            told, options = _words.slower(task.expected_low_h, task.expected_high_h, task.high_h)
            yield Finding(Code.SLOWER, Severity.NOTE, task.words, told, options=options)


def _of_programme(job: Job, words: dict[str, str], programme: Programme | None) -> Iterator[Finding]:
    if programme is None:
        return
    shown = {each.key.text: each.done_percent for each in programme.tasks}
    for entry in done_by_log(job):
        if entry.task in shown and abs(shown[entry.task] - entry.done_percent) > _SMALL_H:
            told, options = _words.done_differs(entry.done_percent, shown[entry.task])
            yield Finding(Code.DONE_DIFFERS, Severity.CHECK, words[entry.task], told, options=options)
