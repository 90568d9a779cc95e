"""The time before which no order of the work ends."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.programme._gangs import able
from pavewright.programme._placing import crew_minutes

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence

    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Means
    from pavewright.programme._steps import Step


def earliest_end(steps: Sequence[Step], means: Means) -> dt.datetime:
    """Return a time before which no order of the work ends.

    A step begins when the longest chain before it is done, and when all people together have done the work before it:
    of all that comes before, what can begin only from some moment on takes so long from that moment.

    Args:
        steps: Each behind all that it waits for, or not.
        means: With what they are placed.

    Source: definition, path and work
    """
    bound = _Bound(means)
    waiting = list(steps)
    while waiting:
        for step in [each for each in waiting if all(key in bound.finish for key in each.after)]:
            bound.add(step)
        waiting = [step for step in waiting if step.key not in bound.finish]
    work = [step.key for step in steps if not step.wait]
    path = max((bound.finish[key] for key in work), default=bound.begin)
    return max(path, bound.all_done(work))


class _Bound:
    """Earliest times of steps, filled in an order in which each stands behind what it waits for."""

    def __init__(self, means: Means) -> None:
        self.means = means
        self.begin = means.clock.first_moment(max(means.begin, means.shown.resumes or means.begin))
        self.people = sum(gang.people for gang in means.gangs)
        self.finish: dict[StepKey, dt.datetime] = {}
        self.before: dict[StepKey, frozenset[StepKey]] = {}
        self.heads: dict[StepKey, tuple[float, float]] = {}
        """Of work that is left: working time from the beginning to its earliest start, and its share of all people."""

    def add(self, step: Step) -> None:
        """Put in a step of which all that it waits for is there."""
        clock, shown = self.means.clock, self.means.shown
        chain = frozenset(step.after).union(*(self.before[key] for key in step.after))
        self.before[step.key] = chain
        if shown.is_done(step.key):
            self.finish[step.key] = shown.span(step.key, clock)[1]
            return
        ready = max([self.all_done(chain), *(self.finish[key] for key in step.after)], default=self.means.begin)
        if step.wait:
            floor = shown.resumes if step.hold else None
            start = ready if floor is None else max(ready, floor)
            self.finish[step.key] = clock.later(start, self.means.waits(step, start).minutes)
            return
        pin = shown.not_before(step.key)
        start = clock.first_moment(max([self.begin, ready, *([pin] if pin is not None else [])]))
        people = max(self.means.gangs[number].people for number in able(self.means.gangs, self.means.skills[step.key]))
        self.finish[step.key] = clock.after(start, crew_minutes(step, people) * shown.left(step.key))
        share = crew_minutes(step, self.people) * shown.left(step.key)
        self.heads[step.key] = clock.between(self.begin, start), share

    def all_done(self, keys: Iterable[StepKey]) -> dt.datetime:
        """Return when all people together have done some work at the earliest; what is a wait or done takes nobody."""
        left = sorted((self.heads[key] for key in keys if key in self.heads), reverse=True)
        if not left:
            return self.means.begin
        behind, most = 0.0, 0.0
        for head, share in left:
            behind += share
            most = max(most, head + behind)
        return self.means.clock.after(self.begin, most)
