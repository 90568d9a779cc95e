"""Work on stone layer by layer: each is compacted, may be looked at and shown as done, before the next covers it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import TaskKey, TaskKind
from pavewright.job import HoldKind
from pavewright.programme._keys import WaitKey, WaitKind
from pavewright.programme._steps import hold, work
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost import LabourTask, WorkLayer
    from pavewright.job import Job
    from pavewright.programme._keys import StepKey
    from pavewright.programme._steps import Step

_WHOLE = 100.0


def by_layer(job: Job, task: LabourTask, after: tuple[StepKey, ...]) -> list[Step]:
    """Return a task as one step, or as one for each of its layers from the bottom, which share its hours.

    Where the job asks for it somebody looks at each layer before it is covered.
    """
    whole = work(job, task, after)
    if not task.layers:
        return [whole]
    looked_at = any(each.key is HoldKind.LAYER for each in job.holds)
    area = task.key.area
    found: list[Step] = []
    for number, layer in enumerate(task.layers):
        key = TaskKey(TaskKind.SUB_BASE_LAYER, area, number)
        found.append(_layer(job, replace(whole, key=key, after=after), task, layer))
        if looked_at:
            found.append(hold(job, HoldKind.LAYER, WaitKey(WaitKind.HOLD_LAYER, area, number), (key,)))
        after = (found[-1].key,)
    return found


def _layer(job: Job, step: Step, task: LabourTask, layer: WorkLayer) -> Step:
    place = "" if task.key.area is None else f", {job.areas[task.key.area].name}"
    words = (
        f"Spread and compact {layer.course.words}, layer {layer.number} of {layer.of}, "
        f"{layer.thickness_mm:.0f} mm{place}"
    )
    hours = task.person_hours * layer.share
    working = Working(
        f"{task.person_hours:.2f} h × {layer.share:.3f}", hours, "h", task.working.figures, "its part of the volume"
    )
    return replace(step, description=words, minutes=hours * units.MINUTES_PER_HOUR, working=working)


def parts_done(steps: tuple[Step, ...], done_percent: float) -> list[float]:
    """Return how much of each layer is done where an entry says it of all of them: the lowest were laid first. [%].

    Args:
        steps: The layers from the bottom.
        done_percent: How much of all of them is done. [%]
    """
    left = sum(step.minutes for step in steps) * done_percent / _WHOLE
    found = []
    for step in steps:
        part = min(1.0, left / step.minutes) if done_percent < _WHOLE else 1.0
        left = max(0.0, left - step.minutes)
        found.append(part * _WHOLE)
    return found
