"""Whether any order of the work ends on an earlier day: an exact search over parts of the working day."""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING

from pavewright.programme._cpm import in_order
from pavewright.programme._exact import within
from pavewright.programme._gangs import able
from pavewright.programme._limited import Activity
from pavewright.programme._placing import crew_minutes

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Means
    from pavewright.programme._steps import Step

_PARTS_OF_A_DAY = 8
_MAX_NODES = 40
_MAX_PLACES = 4000
_MAX_TRIES = 40
_TINY = 1e-6


def settled(
    steps: Sequence[Step], means: Means, bound: dt.datetime, best: dt.date
) -> tuple[dt.date, Mapping[StepKey, int] | None]:
    """Return the day before which no order ends, and starts of an order that may end earlier than the best.

    Work is counted in whole parts of a day, rounded down, and each task takes no more people than its smallest gang: so
    whatever does not fit here fits nowhere. Day after day is tried; the search stops after a number of branches, not of
    seconds.

    Source: definition, whole-number programme over starts
    """
    model = _Model(steps, means)
    day = bound.date()
    if (best - day).days > _MAX_TRIES:
        return day, None
    while day < best:
        ends = means.clock.day(day)[1]
        starts, sure = within(model.activities, model.room, model.slot_up(ends), _MAX_NODES, _MAX_PLACES)
        if starts is not None:
            return day, {step.key: start for step, start in zip(model.steps, starts, strict=True)}
        if not sure:
            return day, None
        day = means.clock.first_moment(dt.datetime.combine(day + dt.timedelta(days=1), dt.time())).date()
    return best, None


def _before_work(steps: Sequence[Step]) -> Iterator[Step]:
    """Give work, and the waits that some work comes after."""
    wanted: set[StepKey] = set()
    for step in reversed(in_turn(steps)):
        if not step.wait or step.key in wanted:
            wanted.update(step.after)
    for step in steps:
        if not step.wait or step.key in wanted:
            yield step


def in_turn(steps: Sequence[Step]) -> list[Step]:
    """Return steps so that each stands behind those that it waits for."""
    place = {step.key: number for number, step in enumerate(steps)}
    order = in_order([[place[key] for key in step.after if key in place] for step in steps])
    return [steps[number] for number in order]


class _Model:
    """Steps that are left as activities in parts of a working day."""

    def __init__(self, steps: Sequence[Step], means: Means) -> None:
        self.means = means
        self.begin = means.clock.first_moment(max(means.begin, means.shown.resumes or means.begin))
        self.part_min = means.clock.day_min / _PARTS_OF_A_DAY
        self.steps = tuple(_before_work([step for step in steps if not means.shown.is_done(step.key)]))
        self.kinds = tuple(means.machines)
        self.room = (sum(gang.people for gang in means.gangs), *(means.machines[kind] for kind in self.kinds))
        place = {step.key: number for number, step in enumerate(self.steps)}
        self.horizon = self._horizon()
        self.activities = tuple(self._activity(step, place) for step in self.steps)

    def _horizon(self) -> int:
        work = sum(crew_minutes(step, 1) for step in self.steps if not step.wait)
        waits = sum(step.minutes for step in self.steps if step.wait)
        return math.ceil((work + waits) / self.part_min) + _PARTS_OF_A_DAY

    def _activity(self, step: Step, place: Mapping[StepKey, int]) -> Activity:
        after = tuple(place[key] for key in step.after if key in place)
        release = max((self.slot(each) for each in self._releases(step)), default=0)
        if step.wait:
            ready = tuple(self._ready(step)) if after else (self._ready_already(step),)
            return Activity(0, after, (0,) * len(self.room), release, ready)
        gangs = [self.means.gangs[number].people for number in able(self.means.gangs, self.means.skills[step.key])]
        minutes = crew_minutes(step, max(gangs)) * self.means.shown.left(step.key)
        uses = (min(gangs), *(int(kind in step.plant) for kind in self.kinds))
        return Activity(int((minutes + _TINY) / self.part_min), after, uses, release)

    def _releases(self, step: Step) -> Iterator[dt.datetime]:
        """Give the moments before which a step cannot begin whatever the order of what is left."""
        pin = self.means.shown.not_before(step.key)
        if pin is not None:
            yield pin

    def _ready(self, step: Step) -> Iterator[int]:
        """Give, for each part of a day in which a wait begins, the one in which it ends at the earliest."""
        for start in range(self.horizon):
            begins = self.means.clock.after(self.begin, start * self.part_min) if start else self.begin
            timed = self.means.waits(step, begins)
            yield max(start, self.slot(self.means.clock.later(begins, timed.minutes)))

    def _ready_already(self, step: Step) -> int:
        """Return when a wait ends of which all that comes before is done."""
        shown, clock = self.means.shown, self.means.clock
        ends = [shown.span(key, clock)[1] for key in step.after if shown.is_done(key)]
        begins = max([self.begin] if step.hold else ends, default=self.begin)
        return self.slot(clock.later(begins, self.means.waits(step, begins).minutes))

    def slot(self, moment: dt.datetime) -> int:
        """Return the whole parts of a day that have gone by."""
        return int((self.means.clock.between(self.begin, moment) + _TINY) / self.part_min)

    def slot_up(self, moment: dt.datetime) -> int:
        """Return the parts of a day until a moment, rounded up."""
        return math.ceil(self.means.clock.between(self.begin, moment) / self.part_min - _TINY)
