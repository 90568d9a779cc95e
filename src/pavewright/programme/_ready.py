"""When a bay may be walked on and driven on: the clocks of all bays that harden."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import TaskKind
from pavewright.job import Bedding, Use
from pavewright.programme._cure_clock import BayCure
from pavewright.programme._keys import WaitKey

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from pavewright.job import Job
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._cure_clock import CureTime
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._types import Task
    from pavewright.programme._waits import CureTimes
    from pavewright.rules import Figure


def cures_of(tasks: Sequence[Task], times: CureTimes, clock: WorkingTime) -> tuple[BayCure, ...]:
    """Return the clock of every wait for hardening."""
    return tuple(
        _cure(
            task.key,
            task.description,
            task.start,
            times(task.working.figures[0], task.key.area, task.start),
            clock,
        )
        for task in tasks
        if isinstance(task.key, WaitKey) and not task.hold and task.working.figures
    )


def _cure(key: WaitKey | None, description: str, begins: dt.datetime, time: CureTime, clock: WorkingTime) -> BayCure:
    return BayCure(key, description, begins, clock.later(begins, time.hours * units.MINUTES_PER_HOUR), time)


def walk_cures(
    job: Job, tasks: Sequence[Task], figures: ProgrammeFigures, times: CureTimes, clock: WorkingTime
) -> tuple[BayCure, ...]:
    """Return the clock of every area laid in mortar, from the end of its pointing until somebody walks on it."""
    return _joint_cures(job, tasks, figures.walk_on_h, times, clock, "Before anybody walks on it")


def drive_cures(
    job: Job, tasks: Sequence[Task], figures: ProgrammeFigures, times: CureTimes, clock: WorkingTime
) -> tuple[BayCure, ...]:
    """Return the clock of every area laid in mortar until a car stands on it; none where no car comes."""
    if not car_comes(job):
        return ()
    return _joint_cures(job, tasks, figures.drive_on_mortar_h, times, clock, "Before a car stands on it")


def _joint_cures(
    job: Job, tasks: Sequence[Task], rule: Figure, times: CureTimes, clock: WorkingTime, words: str
) -> tuple[BayCure, ...]:
    mortar = {number for number, area in enumerate(job.areas) if area.laying.bedding is not Bedding.SAND_ON_SUB_BASE}
    return tuple(
        _cure(
            None,
            f"{words}, {job.areas[task.key.area].name}",
            task.finish,
            times(rule, task.key.area, task.finish),
            clock,
        )
        for task in tasks
        if task.key.kind is TaskKind.POINT and task.key.area is not None and task.key.area in mortar
    )


def car_comes(job: Job) -> bool:
    """Return whether a car will stand on any of it."""
    return any(area.use is not Use.FOOT for area in job.areas)


def ready(cures: Sequence[BayCure], last: dt.datetime) -> dt.datetime:
    """Return when the last of some bays has hardened; the end of work where none hardens."""
    return max([last, *(cure.ends for cure in cures)])
