"""What the log says of one task."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.site_log._expected import expected_hours
from pavewright.site_log._types import TaskLog, TaskPace
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.cost import LabourTask
    from pavewright.rules import Rulebook
    from pavewright.site_log._expected import ExpectedHours
    from pavewright.site_log._types import LoggedDay

_ALL_PERCENT = 100.0


def task_log(task: LabourTask, days: Sequence[LoggedDay], whole: Mapping[str, str], rules: Rulebook) -> TaskLog:
    """Return what the log says of a task; hours on a layer of stone are hours on all of it.

    Args:
        task: The task of the plan.
        days: The days.
        whole: The text of the key of the task that has the price, by that of each step of the programme.
        rules: The rulebook.
    """
    own = [(day.on, each) for day in days for each in day.hours if whole.get(each.task, each.task) == task.key.text]
    logged = math.fsum(each.person_h for _, each in own)
    done = _done(task, {each.task: each.done_percent for _, each in own if each.done_percent is not None})
    sd = rules.figure("site_log.done_sd_percent")
    early = rules.figure("site_log.judge_from_percent")
    found = None if done is None or done < early.value else expected_hours(logged, done, sd.value)
    working = None
    if found is not None and done is not None:
        expression = f"{logged:.1f} h / {done:g} %"
        note = (
            f"{found.low_h:.1f} to {found.high_h:.1f} h; the plan has {task.low_hours:.1f} to {task.high_hours:.1f} h"
        )
        working = Working(expression, found.likely_h, "h", (sd, early), note)
    return TaskLog(
        key=task.key,
        words=task.description,
        planned_h=task.person_hours,
        low_h=task.low_hours,
        high_h=task.high_hours,
        logged_h=logged,
        done_percent=done,
        expected_h=None if found is None else found.likely_h,
        expected_low_h=None if found is None else found.low_h,
        expected_high_h=None if found is None else found.high_h,
        pace=_pace(task, found, done, begun=bool(own)),
        began=min((on for on, _ in own), default=None),
        last=max((on for on, _ in own), default=None),
        working=working,
    )


def _done(task: LabourTask, said: Mapping[str, float]) -> float | None:
    """Return how much of a task is done by what was said last; of stone in layers by the parts of the layers."""
    if task.key.text in said:
        return said[task.key.text]
    if not task.layers or not said:
        return None
    keys = [TaskKey(TaskKind.SUB_BASE_LAYER, task.key.area, number).text for number in range(len(task.layers))]
    return math.fsum(layer.share * said.get(key, 0.0) for key, layer in zip(keys, task.layers, strict=True))


def _pace(task: LabourTask, found: ExpectedHours | None, done: float | None, *, begun: bool) -> TaskPace:
    if not begun:
        return TaskPace.NOT_BEGUN
    if done is None:
        return TaskPace.NOT_KNOWN
    if found is None:
        return TaskPace.TOO_EARLY
    if found.low_h > task.high_hours:
        return TaskPace.SLOWER
    return TaskPace.QUICKER if found.high_h < task.low_hours else TaskPace.AS_PLANNED
