"""What is noticed of a programme."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.programme import _words as words
from pavewright.programme._codes import Code
from pavewright.programme._gangs import has

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Means
    from pavewright.programme._types import Task

_COLD_MONTHS = frozenset({11, 12, 1, 2, 3})


def notices(tasks: Sequence[Task], means: Means, figures: ProgrammeFigures) -> Iterator[Finding]:
    """Give what is noticed: cold months, missing skills, entries and pins that do not hold."""
    yield from _cold(tasks, figures)
    yield from _skills(tasks, means)
    yield from _entries(tasks, means)
    for task in tasks:
        if task.pinned_on is not None and not task.done_percent and task.start > _first_on(task.pinned_on, means):
            said, options = words.pin_late(task.pinned_on, task.start.date())
            yield Finding(Code.PIN_LATE, Severity.CHECK, task.description, said, options=options)


def _first_on(day: dt.date, means: Means) -> dt.datetime:
    """Return the end of the first working day from a day on: a pin holds where the task begins within it."""
    return means.clock.day(means.clock.first_moment(dt.datetime.combine(day, dt.time())).date())[1]


def _cold(tasks: Sequence[Task], figures: ProgrammeFigures) -> Iterator[Finding]:
    cold = [
        task
        for task in tasks
        if task.weather and (task.start.month in _COLD_MONTHS or task.finish.month in _COLD_MONTHS)
    ]
    if cold:
        figure = figures.min_temperature_c
        said, options = words.cold_season(figure.value)
        place = cold[0].description
        yield Finding(Code.COLD_SEASON, Severity.CHECK, place, said, None, figure.value, "°C", figure, options=options)


def _skills(tasks: Sequence[Task], means: Means) -> Iterator[Finding]:
    """Give skills that work takes and no gang has."""
    wanted = Counter(means.skills[task.key] for task in tasks if not task.wait)
    for skill, count in sorted(wanted.items()):
        if not any(has(gang, skill) for gang in means.gangs):
            said, options = words.no_skill(skill, count)
            yield Finding(Code.NO_SKILL, Severity.CHECK, "crew", said, options=options)


def _entries(tasks: Sequence[Task], means: Means) -> Iterator[Finding]:
    """Give entries for tasks that are not there, and work done before its turn."""
    by_key = {task.key: task for task in tasks}
    known = {task.key.text for task in tasks}
    strange = tuple(sorted({*means.shown.done, *means.shown.pins} - known))
    if strange:
        said, options = words.no_such_task(strange)
        yield Finding(Code.NO_SUCH_TASK, Severity.CHECK, "programme", said, options=options)
    for task in tasks:
        before = tuple(by_key[key].description for key in _work_before(task, by_key) if not means.shown.is_done(key))
        if task.done_percent and before:
            said, options = words.out_of_order(before)
            yield Finding(Code.OUT_OF_ORDER, Severity.CHECK, task.description, said, options=options)


def _work_before(task: Task, by_key: Mapping[StepKey, Task]) -> Iterator[StepKey]:
    """Give the work that comes right before a task, waits left out."""
    for key in task.after:
        if by_key[key].wait:
            yield from _work_before(by_key[key], by_key)
        else:
            yield key
