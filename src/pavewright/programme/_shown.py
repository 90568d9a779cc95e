"""What was entered of the course of the work: what is done, and what is pinned to a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.programme._by_layer import parts_done
from pavewright.programme._keys import priced

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import DoneTask, Job, PinnedTask
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._keys import StepKey
    from pavewright.programme._steps import Step

_WHOLE = 100.0


@dataclass(frozen=True)
class Shown:
    """What is done and what is pinned, by the key of the task.

    Attributes:
        done: What is done.
        pins: What is pinned.
        up_to: The last day of which something is shown as done; what is left begins after it.
    """

    done: Mapping[str, DoneTask]
    pins: Mapping[str, PinnedTask]
    up_to: dt.date | None

    def is_done(self, key: StepKey) -> bool:
        """Return whether nothing is left of a task."""
        return self.percent(key) >= _WHOLE

    def percent(self, key: StepKey) -> float:
        """Return how much of a task is done. [%]."""
        return self.done[key.text].done_percent if key.text in self.done else 0.0

    def left(self, key: StepKey) -> float:
        """Return the part of a task that is left, from 0 to 1."""
        return 1.0 - self.percent(key) / _WHOLE

    def span(self, key: StepKey, clock: WorkingTime) -> tuple[dt.datetime, dt.datetime]:
        """Return from when to when work went on for a task of which something is done."""
        entry = self.done[key.text]
        return clock.day(min(entry.since or entry.on, entry.on))[0], clock.day(entry.on)[1]

    def not_before(self, key: StepKey) -> dt.datetime | None:
        """Return the day to which a task is pinned."""
        return dt.datetime.combine(self.pins[key.text].on, dt.time()) if key.text in self.pins else None

    @property
    def resumes(self) -> dt.datetime | None:
        """The midnight after the last day of which something is shown as done."""
        if self.up_to is None:
            return None
        return dt.datetime.combine(self.up_to + dt.timedelta(days=1), dt.time())


def shown(job: Job, steps: Sequence[Step] = ()) -> Shown:
    """Return what was entered of the course of the work; what is said of stone as a whole holds for its layers.

    Args:
        job: The job.
        steps: The steps of the programme.
    """
    done = {each.task: each for each in job.done}
    pins = {each.task: each for each in job.pins}
    for whole, layers in _layered(steps).items():
        if whole in done:
            entry = done.pop(whole)
            for step, percent in zip(layers, parts_done(tuple(layers), entry.done_percent), strict=True):
                if percent > 0.0:
                    done.setdefault(
                        step.key.text, entry.model_copy(update={"task": step.key.text, "done_percent": percent})
                    )
        if whole in pins:
            pin, first = pins.pop(whole), layers[0].key.text
            pins.setdefault(first, pin.model_copy(update={"task": first}))
    return Shown(done, pins, max((each.on for each in job.done), default=None))


def _layered(steps: Sequence[Step]) -> dict[str, list[Step]]:
    """Return the layers of each task that is done in layers, by the key of the whole."""
    found: dict[str, list[Step]] = {}
    for step in steps:
        whole = priced(step.key)
        if whole != step.key:
            found.setdefault(whole.text, []).append(step)
    return found
