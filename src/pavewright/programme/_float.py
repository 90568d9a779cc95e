"""How much later placed steps may begin or end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Means, Placed

_HALF_MINUTE = 0.5


@dataclass(frozen=True, slots=True)
class Slack:
    """How much later a step may begin or end.

    Attributes:
        total_min: And the job ends on time: working time for work, time on the clock for a wait. [min]
        free_min: And nothing after it begins later. [min]
        late_finish: The latest end with which the job ends on time.
    """

    total_min: float
    free_min: float
    late_finish: dt.datetime

    @property
    def critical(self) -> bool:
        """Whether a delay of it delays the end."""
        return self.total_min < _HALF_MINUTE


def slack_of(steps: Sequence[Placed], means: Means) -> dict[StepKey, Slack]:
    """Return the float of every step, with the order in which gangs and machines go from task to task kept.

    Args:
        steps: In an order in which each stands behind all that it waits for.
        means: With what they were placed.

    Source: definition, backward pass over the calendar
    """
    followers: dict[StepKey, list[Placed]] = {each.step.key: [] for each in steps}
    for each in steps:
        if means.shown.is_done(each.step.key):
            continue
        for before in dict.fromkeys((*each.step.after, *each.turns)):
            followers[before].append(each)
    work_ends = max((each.finish for each in steps if not each.step.wait), default=means.begin)
    all_ends = max((each.finish for each in steps), default=means.begin)
    late_start: dict[StepKey, dt.datetime] = {}
    found: dict[StepKey, Slack] = {}
    for each in reversed(steps):
        then = followers[each.step.key]
        ends = all_ends if each.step.wait else work_ends
        late = min([ends, *(late_start[next_.step.key] for next_ in then)])
        first = min([next_.start for next_ in then], default=ends)
        late_start[each.step.key] = _starts_by(each, late, means)
        found[each.step.key] = _slack(each, late, min(first, late), means)
    return found


def _starts_by(each: Placed, late: dt.datetime, means: Means) -> dt.datetime:
    if each.step.wait or means.shown.is_done(each.step.key):
        return means.clock.later(late, -means.clock.elapsed(each.start, each.finish))
    return means.clock.before(late, each.minutes)


def _slack(each: Placed, late: dt.datetime, first: dt.datetime, means: Means) -> Slack:
    if each.step.wait:
        total, free = (means.clock.elapsed(each.finish, until) for until in (late, first))
        return Slack(max(total, 0.0), max(free, 0.0), max(late, each.finish))
    total, free = means.clock.between(each.finish, late), means.clock.between(each.finish, first)
    return Slack(total, free, max(late, each.finish))
