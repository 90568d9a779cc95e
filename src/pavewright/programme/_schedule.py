"""Dates for every task: gangs, machines, waits and hold points, what is done and what is pinned."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Fault, JobInvalid
from pavewright.programme._bound import earliest_end
from pavewright.programme._chances import chance_of_finish
from pavewright.programme._clock import EndlessWorkError, NoWorkingDayError, working_time
from pavewright.programme._cpm import critical_path
from pavewright.programme._deliveries import deliveries
from pavewright.programme._delivery_notices import delivery_notices
from pavewright.programme._figures import programme_figures
from pavewright.programme._float import slack_of
from pavewright.programme._gangs import gangs_of, machines, skill_for
from pavewright.programme._hire import hires
from pavewright.programme._loads import load_days
from pavewright.programme._network import network
from pavewright.programme._notices import notices
from pavewright.programme._placing import Means, placed
from pavewright.programme._ready import car_comes, cures_of, drive_cures, ready, walk_cures
from pavewright.programme._season import season_notices
from pavewright.programme._shown import shown
from pavewright.programme._types import Programme, Task
from pavewright.programme._uncounted import uncounted, uncounted_words
from pavewright.programme._waits import cure_times, wait_times
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._float import Slack
    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Placed
    from pavewright.programme._steps import Step
    from pavewright.quantities import Item
    from pavewright.rules import Rulebook


def schedule(
    job: Job, labour: tuple[LabourTask, ...], rules: Rulebook, items: tuple[Item, ...] = ()
) -> Programme | None:
    """Return tasks with dates: each gang does one thing at a time, and while concrete hardens goes on elsewhere.

    There are no dates where nobody has said how many work, or from when.

    Args:
        job: The job.
        labour: Its work.
        rules: The rulebook.
        items: What is measured: it has to be delivered, and spoil to leave.

    Raises:
        JobInvalid: the calendar has no working day, or the work takes more than ten years.
    """
    people, start = job.crew.people, job.calendar.start
    if start is None or (people is None and not job.crew.gangs):
        return None
    figures = programme_figures(rules)
    steps = network(job, labour, figures)
    try:
        means = _means(job, steps, start, rules)
        best, bound = _shortest(steps, means, exact=job.calendar.exact_order)
    except NoWorkingDayError:
        message = "No day is a working day: name working days, or delete days off."
        raise JobInvalid((Fault("calendar.weekdays", message),)) from None
    except EndlessWorkError:
        at_work = sum(len(gang.people) for gang in job.crew.gangs) or people
        message = (
            f"At {job.crew.hours_per_day:g} hours a day and {at_work} at work this job takes more than ten "
            f"years: check hours_per_day, and the sizes of the areas."
        )
        raise JobInvalid((Fault("crew.hours_per_day", message),)) from None
    return _programme(job, labour, means, best, bound, rules, steps, items)


def _means(job: Job, steps: tuple[Step, ...], start: dt.date, rules: Rulebook) -> Means:
    clock = working_time(job.calendar, job.crew, rules.zone_in(job.identity.region))
    return Means(
        gangs=gangs_of(job, job.crew.people or 0),
        skills={step.key: skill_for(job, step.key) for step in steps},
        machines=machines(job),
        clock=clock,
        begin=clock.first_moment(dt.datetime.combine(start, dt.time())),
        shown=shown(job, steps),
        waits=wait_times(job, rules),
        half_days=job.calendar.half_days,
    )


def _shortest(steps: tuple[Step, ...], means: Means, *, exact: bool) -> tuple[tuple[Placed, ...], dt.date]:
    """Return the order that ends on the earliest day, and the day before which none ends.

    Tried are the order in which work is listed, and what has the most work behind it first; where a day is left between
    them and the day before which none ends, an exact search settles or
    narrows it where the job asks for one.
    """
    place = {step.key: number for number, step in enumerate(steps)}
    best = placed(steps, means, place)
    bound = earliest_end(steps, means)
    if _last(best, means).date() <= bound.date():
        return best, bound.date()
    lengths = [step.minutes for step in steps]
    timed = critical_path(lengths, [[place[key] for key in step.after] for step in steps])
    late = {step.key: timed[number].late_start for number, step in enumerate(steps)}
    best = _sooner(best, placed(steps, means, _ranks(steps, place, late)), means)
    if not exact or _last(best, means).date() <= bound.date():
        return best, bound.date()
    from pavewright.programme._settled import settled  # noqa: PLC0415 - the solver is loaded where a day is open

    day, starts = settled(steps, means, bound, _last(best, means).date())
    if starts is not None:
        late_of_all = {step.key: float(starts.get(step.key, 0)) for step in steps}
        best = _sooner(best, placed(steps, means, _ranks(steps, place, late_of_all), by_rank=True), means)
    return best, day


def _ranks(steps: tuple[Step, ...], place: Mapping[StepKey, int], times: Mapping[StepKey, float]) -> dict[StepKey, int]:
    """Return the rank of each step: by a time of it, then as listed."""
    order = sorted(steps, key=lambda step: (times[step.key], place[step.key]))
    return {step.key: number for number, step in enumerate(order)}


def _sooner(one: tuple[Placed, ...], other: tuple[Placed, ...], means: Means) -> tuple[Placed, ...]:
    """Return the order that ends on an earlier day, the first where both end on one."""
    return other if _last(other, means).date() < _last(one, means).date() else one


def _last(found: Sequence[Placed], means: Means) -> dt.datetime:
    return max((each.finish for each in found if not each.step.wait), default=means.begin)


def _programme(
    job: Job,
    labour: tuple[LabourTask, ...],
    means: Means,
    best: tuple[Placed, ...],
    bound: dt.date,
    rules: Rulebook,
    steps: tuple[Step, ...],
    items: tuple[Item, ...],
) -> Programme:
    figures, times, clock = programme_figures(rules), cure_times(job, rules), means.clock
    slack, order = slack_of(best, means), {step.key: number for number, step in enumerate(steps)}
    tasks = tuple(
        sorted(
            (_task(each, slack[each.step.key], means) for each in best),
            key=lambda task: (task.start, order[task.key]),
        )
    )
    work = [task for task in tasks if not task.wait]
    days = {day for task in work for day in means.clock.days_worked(task.start, task.finish)}
    last = max((task.finish for task in work), default=means.begin)
    walk, drive = walk_cures(job, tasks, figures, times, clock), drive_cures(job, tasks, figures, times, clock)
    cures = (*cures_of(tasks, times, clock), *walk, *drive)
    start, on_hire = min(days, default=means.begin.date()), hires(job, labour, work, clock)
    brought = deliveries(job, work, items, clock, start, figures)
    return Programme(
        tasks=tasks,
        start=start,
        finish=last.date(),
        site_days=len(days),
        foot_ready=ready(walk, last).date(),
        car_ready=ready(drive, last).date() if car_comes(job) else None,
        hires=on_hire,
        deliveries=brought,
        loads=load_days(job, work, items, clock),
        gangs=means.gangs,
        earliest_finish=min(bound, last.date()),
        proven=last.date() <= bound,
        done_up_to=means.shown.up_to,
        cures=cures,
        chance=chance_of_finish(job, labour, best, means, last.date(), figures, rules),
        uncounted=uncounted(steps),
        uncounted_words=uncounted_words(uncounted(steps)),
        findings=(
            *notices(tasks, means, figures),
            *season_notices(job, tasks, cures, rules),
            *delivery_notices(job, brought, on_hire, clock, start, figures),
        ),
    )


def _task(each: Placed, slack: Slack, means: Means) -> Task:
    """Return a step with its dates, whole minutes."""
    step, shown_now = each.step, means.shown
    people = 0 if each.gang is None else means.gangs[each.gang].people
    pin = shown_now.pins.get(step.key.text)
    done = shown_now.is_done(step.key)
    return Task(
        key=step.key,
        description=step.description,
        start=_to_the_minute(each.began or each.start),
        finish=_to_the_minute(each.finish),
        work_min=each.minutes,
        people=people,
        after=step.after,
        weather=step.weather,
        wait=step.wait,
        hold=step.hold,
        gang=each.gang,
        total_float_min=slack.total_min,
        free_float_min=slack.free_min,
        late_finish=_to_the_minute(slack.late_finish),
        critical=slack.critical and not done,
        held_by=each.held_by,
        pinned_on=None if pin is None else pin.on,
        done_percent=shown_now.percent(step.key),
        working=step.working if step.wait else _clock_working(step, people, each, shown_now.left(step.key)),
    )


def _clock_working(step: Step, people: int, each: Placed, left: float) -> Working:
    """Return the sum behind the time on the clock."""
    hours = step.minutes / units.MINUTES_PER_HOUR
    if people == 0:
        return Working(f"done, of {hours:.1f} h", 0.0, "min")
    extra = f" × (1 + {step.lost_percent:g} % weather)" if step.lost_percent else ""
    rest = f" × {left:.2f} left" if left < 1.0 else ""
    return Working(f"crew time = {hours:.1f} h / {people} people{extra}{rest}", each.minutes, "min")


def _to_the_minute(moment: dt.datetime) -> dt.datetime:
    half = dt.timedelta(seconds=units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR / 2.0)
    return (moment + half).replace(second=0, microsecond=0)
