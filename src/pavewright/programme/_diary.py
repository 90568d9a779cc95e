"""When somebody is on site, and by when materials have to be there."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.programme._clock import working_time
from pavewright.quantities import ItemGroup, ItemKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._types import Programme, Task
    from pavewright.quantities import Item, Quantities

_FIRST_USED = {
    ItemGroup.DIG: (TaskKind.DIG,),
    ItemGroup.BASE: (TaskKind.SUB_BASE, TaskKind.BASE),
    ItemGroup.BED: (TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.LAY),
    ItemGroup.UNITS: (TaskKind.CUT, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.LAY),
    ItemGroup.JOINTS: (TaskKind.POINT,),
    ItemGroup.EDGES: (TaskKind.EDGES_KERB, TaskKind.EDGES_EDGING, TaskKind.EDGES_HAUNCH, TaskKind.STEPS),
    ItemGroup.DRAINAGE: (
        *(TaskKind.DRAINS, TaskKind.CHANNEL_PIPES, TaskKind.GULLIES, TaskKind.GULLY_PIPES, TaskKind.PIT_FILL),
        *(TaskKind.SILT_TRAPS, TaskKind.GRATINGS, TaskKind.FRAMES),
    ),
    ItemGroup.SUNDRIES: (),
}
"""The work that needs each part of the order first; where there is none of it, the first work on site does."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """Materials that have to be on site.

    Attributes:
        group: Part of the work that needs them.
        on: The day: the working day before the work begins.
        items: What is delivered.
    """

    group: ItemGroup
    on: dt.date
    items: tuple[Item, ...]


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


def deliveries(job: Job, programme: Programme, quantities: Quantities) -> tuple[Delivery, ...]:
    """Return what has to be delivered by when, each part of the order on the working day before it is needed."""
    clock = working_time(job.calendar, job.crew)
    found = []
    for group in ItemGroup:
        items = tuple(
            item
            for item in quantities.items
            if item.group is group and item.key.bought and item.key.kind not in _LEAVES and item.ordered > 0.0
        )
        if items:
            found.append(Delivery(group, _day_before(clock, _needed(programme, group)), items))
    return tuple(sorted(found, key=lambda each: each.on))


def _needed(programme: Programme, group: ItemGroup) -> dt.date:
    """Return the day on which a part of the order is needed first."""
    kinds = _FIRST_USED[group]
    starts = [task.start.date() for task in programme.tasks if isinstance(task.key, TaskKey) and task.key.kind in kinds]
    return min(starts, default=programme.start)


def _day_before(clock: WorkingTime, day: dt.date) -> dt.date:
    """Return the working day before a day; the day itself where a month before it has none."""
    for back in range(1, _MONTH + 1):
        before = day - dt.timedelta(days=back)
        if clock.works_on(before):
            return before
    return day


_MONTH = 31
_LEAVES = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL, ItemKind.CATALOGUE})
"""Items that leave the site, and what the crew brings along."""
