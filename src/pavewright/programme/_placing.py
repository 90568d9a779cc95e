"""Places for steps on the calendar: of the tasks that may begin, the one that can begin first, by a gang that can."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import crew_hours
from pavewright.programme._clock import LONGEST_DAYS, EndlessWorkError
from pavewright.programme._gangs import able
from pavewright.programme._held import HeldBy, HeldKind, latest

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import PlantKind, Skill
    from pavewright.programme._clock import WorkingTime
    from pavewright.programme._gangs import WorkGang
    from pavewright.programme._keys import StepKey
    from pavewright.programme._shown import Shown
    from pavewright.programme._steps import Step
    from pavewright.programme._waits import WaitTimes


@dataclass(frozen=True)
class Means:
    """What work is placed with: who, machines, hours, what is shown as done or pinned."""

    gangs: tuple[WorkGang, ...]
    skills: Mapping[StepKey, Skill]
    machines: Mapping[PlantKind, int]
    clock: WorkingTime
    begin: dt.datetime
    shown: Shown
    waits: WaitTimes
    half_days: bool


@dataclass(frozen=True, slots=True)
class Placed:
    """A step with its place.

    Attributes:
        step: The step.
        start: When it begins, or what is left of it.
        finish: When it ends.
        minutes: Time of the gang on the clock for what is left. [min]
        gang: Who does it; None for a wait.
        held_by: Why it does not begin earlier.
        turns: What its gang and its machines did before.
        began: When it began, where part of it is done.
    """

    step: Step
    start: dt.datetime
    finish: dt.datetime
    minutes: float
    gang: int | None
    held_by: HeldBy
    turns: tuple[StepKey, ...] = ()
    began: dt.datetime | None = None


@dataclass
class _Turns:
    """Who and what is free from when, after what."""

    gangs: list[tuple[dt.datetime, StepKey | None]]
    machines: dict[PlantKind, list[tuple[dt.datetime, StepKey | None]]]
    found: dict[StepKey, Placed] = field(default_factory=dict)


def placed(
    steps: Sequence[Step], means: Means, rank: Mapping[StepKey, int], *, by_rank: bool = False
) -> tuple[Placed, ...]:
    """Return steps with places: of those that may begin, the one that can begin first, then the one of lower rank.

    Args:
        steps: What is to be done.
        means: By whom, with what, when.
        rank: Which of two goes first.
        by_rank: Whether the one of lower rank goes first even where another could begin earlier.

    Raises:
        EndlessWorkError: the work takes more than ten years.
        NoWorkingDayError: no day is a working day.
    """
    turns = _Turns(
        [(means.begin, None) for _ in means.gangs],
        {kind: [(means.begin, None)] * count for kind, count in means.machines.items()},
    )
    waiting = []
    for step in steps:
        if means.shown.is_done(step.key):
            start, finish = means.shown.span(step.key, means.clock)
            turns.found[step.key] = Placed(step, start, finish, 0.0, None, HeldBy(HeldKind.DONE))
        else:
            waiting.append(step)
    while waiting:
        ready = [step for step in waiting if all(key in turns.found for key in step.after)]
        waits = [step for step in ready if step.wait]
        if waits:
            for step in waits:
                turns.found[step.key] = _wait_placed(step, means, turns)
        else:
            first = min(ready, key=lambda step: rank[step.key])
            _put_first([first] if by_rank else ready, means, turns, rank)
        waiting = [step for step in waiting if step.key not in turns.found]
    return tuple(turns.found.values())


def _wait_placed(step: Step, means: Means, turns: _Turns) -> Placed:
    """Return a wait from the end of what comes before; nobody has looked yet at what is not shown as done."""
    held = latest((turns.found[key].finish, HeldBy(HeldKind.TASK, key)) for key in step.after) or (
        means.begin,
        HeldBy(HeldKind.START),
    )
    start, why = held
    resumes = means.shown.resumes if step.hold else None
    if resumes is not None and resumes > start:
        start, why = resumes, HeldBy(HeldKind.DONE)
    timed = means.waits(step, start)
    return Placed(timed, start, means.clock.later(start, timed.minutes), 0.0, None, why)


def _put_first(ready: Sequence[Step], means: Means, turns: _Turns, rank: Mapping[StepKey, int]) -> None:
    """Place the one task that can begin first."""
    offers = [_offer(step, means, turns) for step in ready]
    one = min(offers, key=lambda offer: (offer.start, rank[offer.step.key]))
    if one.finish - means.begin > dt.timedelta(days=LONGEST_DAYS):
        message = "the work takes more than ten years"
        raise EndlessWorkError(message)
    turns.found[one.step.key] = one
    assert one.gang is not None  # noqa: S101 - work is done by a gang
    turns.gangs[one.gang] = (one.finish, one.step.key)
    for kind in one.step.plant:
        if turns.machines.get(kind):
            soonest = min(range(len(turns.machines[kind])), key=lambda number: turns.machines[kind][number][0])
            turns.machines[kind][soonest] = (one.finish, one.step.key)


def _offer(step: Step, means: Means, turns: _Turns) -> Placed:
    """Return the place of a task with the gang that would be done with it first."""
    offers = [_with_gang(step, gang, means, turns) for gang in able(means.gangs, means.skills[step.key])]
    return min(offers, key=lambda offer: (offer.finish, turns.gangs[offer.gang or 0][0], offer.gang))


def _with_gang(step: Step, gang: int, means: Means, turns: _Turns) -> Placed:
    clock, shown = means.clock, means.shown
    holds = [(turns.found[key].finish, HeldBy(HeldKind.TASK, key)) for key in step.after]
    free, before = turns.gangs[gang]
    taken = [
        (*min(turns.machines[kind], key=lambda each: each[0]), kind) for kind in step.plant if turns.machines.get(kind)
    ]
    if before is not None:
        holds.append((free, HeldBy(HeldKind.GANG, before)))
    holds += [(until, HeldBy(HeldKind.PLANT, key, kind)) for until, key, kind in taken if key is not None]
    if shown.resumes is not None:
        holds.append((shown.resumes, HeldBy(HeldKind.DONE)))
    pin = shown.not_before(step.key)
    if pin is not None:
        holds.append((pin, HeldBy(HeldKind.PIN)))
    moments = [(clock.first_moment(max(moment, means.begin)), why) for moment, why in holds]
    start, why = latest(moments) or (means.begin, HeldBy(HeldKind.START))
    if means.half_days and before is not None and before.area != step.key.area and before.area is not None:
        start = clock.half_day(start)
    minutes = crew_minutes(step, means.gangs[gang].people) * shown.left(step.key)
    began = shown.span(step.key, clock)[0] if shown.percent(step.key) else None
    turn = tuple(key for key in (before, *(key for _, key, _ in taken)) if key is not None)
    return Placed(step, start, clock.after(start, minutes), minutes, gang, why, tuple(dict.fromkeys(turn)), began)


def crew_minutes(step: Step, people: int) -> float:
    """Return how long a gang takes for a task. [min]."""
    return crew_hours(step.minutes / units.MINUTES_PER_HOUR, people, step.lost_percent) * units.MINUTES_PER_HOUR
