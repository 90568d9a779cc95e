"""What was entered of the course of the work: what is done, and what is pinned to a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import DoneTask, Job, PinnedTask
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._keys import StepKey

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


def shown(job: Job) -> Shown:
    """Return what was entered of the course of the work."""
    done = {each.task: each for each in job.done}
    return Shown(done, {each.task: each for each in job.pins}, max((each.on for each in job.done), default=None))
