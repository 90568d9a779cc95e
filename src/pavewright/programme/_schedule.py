"""Dates for every task, one crew."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import TaskKind
from pavewright.findings import Finding, Severity
from pavewright.job import Bedding, Fault, JobInvalid, Use
from pavewright.programme import _words as words
from pavewright.programme._clock import LONGEST_DAYS, EndlessWorkError, NoWorkingDayError, WorkingTime, working_time
from pavewright.programme._codes import Code
from pavewright.programme._figures import programme_figures
from pavewright.programme._hire import hires
from pavewright.programme._network import Step, network
from pavewright.programme._types import Programme, Task

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._keys import StepKey
    from pavewright.rules import Figure, Rulebook

_COLD_MONTHS = frozenset({11, 12, 1, 2, 3})


def schedule(job: Job, labour: tuple[LabourTask, ...], rules: Rulebook) -> Programme | None:
    """Return tasks with dates: the crew does one thing at a time, and while concrete hardens goes on elsewhere.

    There are no dates where nobody has said how many work, or from when.

    Raises:
        JobInvalid: the calendar has no working day, or the work takes more than ten years.
    """
    people, start = job.crew.people, job.calendar.start
    if people is None or start is None:
        return None
    clock = working_time(job.calendar, job.crew)
    figures = programme_figures(rules)
    steps = network(job, labour, people, figures)
    midnight = dt.datetime.combine(start, dt.time())
    try:
        tasks = _dated(steps, clock, midnight, people)
    except NoWorkingDayError:
        message = "No day is a working day: name working days, or delete days off."
        raise JobInvalid((Fault("calendar.weekdays", message),)) from None
    except EndlessWorkError:
        message = (
            f"At {job.crew.hours_per_day:g} hours a day and {people} at work this job takes more than ten "
            f"years: check hours_per_day, and the sizes of the areas."
        )
        raise JobInvalid((Fault("crew.hours_per_day", message),)) from None
    work = [task for task in tasks if not task.wait]
    days = {day for task in work for day in clock.days_worked(task.start, task.finish)}
    last = max((task.finish for task in work), default=midnight)
    return Programme(
        tasks=tasks,
        start=min(days, default=start),
        finish=last.date(),
        site_days=len(days),
        foot_ready=_ready(job, tasks, figures.walk_on_h, last).date(),
        car_ready=_car_ready(job, tasks, last, figures),
        hires=hires(job, labour, work, clock),
        findings=_findings(tasks, figures),
    )


def _dated(steps: tuple[Step, ...], clock: WorkingTime, midnight: dt.datetime, people: int) -> tuple[Task, ...]:
    """Return steps with dates: of the tasks that may begin, the one that can begin first, then the one listed first."""
    begin = clock.first_moment(midnight)
    done: dict[StepKey, dt.datetime] = {}
    free = begin
    found: list[Task] = []
    waiting = list(steps)
    while waiting:
        ready = [step for step in waiting if all(key in done for key in step.after)]
        for step in [each for each in ready if each.wait]:
            start = max((done[key] for key in step.after), default=begin)
            finish = start + dt.timedelta(minutes=step.minutes)
            found.append(_task(step, start, finish, 0))
            done[step.key] = finish
            waiting.remove(step)
        ready = [step for step in waiting if not step.wait and all(key in done for key in step.after)]
        if not ready:
            continue
        starts = [
            (clock.first_moment(max([free, *(done[key] for key in step.after)])), number)
            for number, step in enumerate(ready)
        ]
        start, number = min(starts)
        step = ready[number]
        finish = clock.after(start, step.minutes)
        found.append(_task(step, start, finish, people))
        if finish - begin > dt.timedelta(days=LONGEST_DAYS):
            message = "the work takes more than ten years"
            raise EndlessWorkError(message)
        done[step.key] = free = finish
        waiting.remove(step)
    order = {step.key: number for number, step in enumerate(steps)}
    return tuple(sorted(found, key=lambda task: (task.start, order[task.key])))


def _task(step: Step, start: dt.datetime, finish: dt.datetime, people: int) -> Task:
    """Return a step with its dates, whole minutes."""
    return Task(
        key=step.key,
        description=step.description,
        start=_to_the_minute(start),
        finish=_to_the_minute(finish),
        work_min=0.0 if step.wait else step.minutes,
        people=people,
        after=step.after,
        weather=step.weather,
        wait=step.wait,
        working=step.working,
    )


def _to_the_minute(moment: dt.datetime) -> dt.datetime:
    half = dt.timedelta(seconds=units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR / 2.0)
    return (moment + half).replace(second=0, microsecond=0)


def _ready(job: Job, tasks: tuple[Task, ...], hardens: Figure, last: dt.datetime) -> dt.datetime:
    """Return when the last area laid in mortar has hardened so long; the end of work where all is laid on sand."""
    mortar = {number for number, area in enumerate(job.areas) if area.laying.bedding is not Bedding.SAND_ON_SUB_BASE}
    pointed = [task.finish for task in tasks if task.key.kind is TaskKind.POINT and task.key.area in mortar]
    return max([last, *(finish + dt.timedelta(hours=hardens.value) for finish in pointed)])


def _car_ready(job: Job, tasks: tuple[Task, ...], last: dt.datetime, figures: ProgrammeFigures) -> dt.date | None:
    if all(area.use is Use.FOOT for area in job.areas):
        return None
    return _ready(job, tasks, figures.drive_on_mortar_h, last).date()


def _findings(tasks: tuple[Task, ...], figures: ProgrammeFigures) -> tuple[Finding, ...]:
    cold = [
        task
        for task in tasks
        if task.weather and (task.start.month in _COLD_MONTHS or task.finish.month in _COLD_MONTHS)
    ]
    if not cold:
        return ()
    figure = figures.min_temperature_c
    said, options = words.cold_season(figure.value)
    place = cold[0].description
    return (Finding(Code.COLD_SEASON, Severity.CHECK, place, said, None, figure.value, "°C", figure, options=options),)
