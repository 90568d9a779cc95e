"""What an hour of a task costs: by the skills that share it, or one price for all hours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKind
from pavewright.cost._money import to_minor
from pavewright.job import Skill

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from pavewright.job import Job, Rates

_GROUND = (Skill.GROUNDWORKER, Skill.LABOURER)
_DRAINS = (Skill.DRAINAGE, Skill.LABOURER)
_LAYS = (Skill.LAYER, Skill.LABOURER)
_BY_KIND: dict[TaskKind, tuple[Skill, ...]] = {
    TaskKind.SET_OUT: (Skill.LAYER, Skill.LABOURER),
    TaskKind.DIG: _GROUND,
    TaskKind.SIDES: _GROUND,
    TaskKind.LOAD: (Skill.LABOURER,),
    TaskKind.CART: (Skill.LABOURER,),
    TaskKind.TOPSOIL_PROVISIONAL: _GROUND,
    TaskKind.BREAK_OUT: _GROUND,
    TaskKind.DIG_FREE: _GROUND,
    TaskKind.FOUND_PIPE: _DRAINS,
    TaskKind.CARRY_IN: (Skill.LABOURER,),
    TaskKind.WALL_TRENCH: _GROUND,
    TaskKind.EDGE_TRENCH: _GROUND,
    TaskKind.WALL_FOOTING: _GROUND,
    TaskKind.WALL: _LAYS,
    TaskKind.GUARD: (Skill.GROUNDWORKER,),
    TaskKind.FILL: _GROUND,
    TaskKind.DRAINS: _DRAINS,
    TaskKind.CHANNEL_PIPES: _DRAINS,
    TaskKind.CHANNEL_FILL: _DRAINS,
    TaskKind.GULLIES: _DRAINS,
    TaskKind.GULLY_PIPES: _DRAINS,
    TaskKind.GULLY_FILL: _DRAINS,
    TaskKind.GRATINGS: _DRAINS,
    TaskKind.FRAMES: _DRAINS,
    TaskKind.PIT_DIG: _GROUND,
    TaskKind.PIT_LOAD: (Skill.LABOURER,),
    TaskKind.PIT_FILL: _DRAINS,
    TaskKind.SILT_TRAPS: _DRAINS,
    TaskKind.SUB_BASE: _GROUND,
    TaskKind.SUB_BASE_LAYER: _GROUND,
    TaskKind.BASE: _GROUND,
    TaskKind.EDGES_KERB: _LAYS,
    TaskKind.EDGES_EDGING: _LAYS,
    TaskKind.EDGES_HAUNCH: _LAYS,
    TaskKind.CUT: (Skill.LAYER,),
    TaskKind.LAY_BORDER: _LAYS,
    TaskKind.LAY_ZONE: _LAYS,
    TaskKind.LAY: _LAYS,
    TaskKind.POINT: _LAYS,
    TaskKind.STEPS: _LAYS,
    TaskKind.CLEAR: (Skill.LABOURER,),
}
"""The skills that share the hours of a kind of work, each the same part of them."""
_BY_MACHINE = (Skill.DRIVER, Skill.GROUNDWORKER)
_DUG = frozenset({TaskKind.DIG, TaskKind.SIDES, TaskKind.TOPSOIL_PROVISIONAL, TaskKind.PIT_DIG})


@dataclass(frozen=True, slots=True)
class HourPrice:
    """What an hour of one kind of work costs.

    Attributes:
        minor: Cost of an hour of one person, the mean of those who share it. [minor units an hour]
        words: How it is made, in words; empty where one price stands for all hours.
    """

    minor: int
    words: str = ""


def skills_for(kind: TaskKind, *, machine_dig: bool) -> tuple[Skill, ...]:
    """Return the skills that share the hours of a kind of work, each the same part of them.

    >>> [each.value for each in skills_for(TaskKind.DIG, machine_dig=True)]
    ['driver', 'groundworker']
    """
    return _BY_MACHINE if machine_dig and kind in _DUG else _BY_KIND[kind]


def mean_hour(minor: Sequence[float]) -> float:
    """Return what an hour costs that skills share in equal parts, in the money of their hours.

    Args:
        minor: What an hour of each of them costs; at least one. [any money]

    Source: definition, mean
    """
    return sum(minor) / len(minor)


def hour_price(job: Job, kind: TaskKind) -> HourPrice | None:
    """Return what an hour of a kind of work costs; None where a skill that shares it has no price, or one of zero.

    A skill without a price of its own has that of any skill, else the one price for all hours.
    """
    rates = job.rates
    if not rates.labour:
        return None if rates.labour_minor_per_hour is None else HourPrice(rates.labour_minor_per_hour)
    skills = skills_for(kind, machine_dig=job.crew.machine_dig)
    each = [_of_skill(rates, skill) for skill in skills]
    known = [minor for minor in each if minor]
    if len(known) < len(each):
        return None
    said = " and ".join(f"{skill.value} {minor}" for skill, minor in zip(skills, known, strict=True))
    return HourPrice(to_minor(mean_hour(known)), f"an hour of it: {said}{', in equal parts' if len(known) > 1 else ''}")


def unpriced_skills(job: Job, kind: TaskKind) -> tuple[Skill, ...]:
    """Return the skills that share a kind of work and of which no hour has a price; none where skills do not count."""
    rates = job.rates
    if not rates.labour:
        return ()
    skills = skills_for(kind, machine_dig=job.crew.machine_dig)
    return tuple(skill for skill in skills if not _of_skill(rates, skill))


def hour_day(job: Job, kind: TaskKind) -> dt.date | None:
    """Return the day of the oldest of the prices that an hour of a kind of work hangs on; None where none has a day."""
    skills = skills_for(kind, machine_dig=job.crew.machine_dig)
    own = {each.skill: each.priced_on for each in job.rates.labour}
    days = [own.get(skill, own.get(Skill.ANY)) for skill in skills]
    return min((day for day in days if day is not None), default=None)


def any_hour_price(job: Job) -> bool:
    """Return whether an hour of any work has a price."""
    return bool(job.rates.labour_minor_per_hour) or any(each.minor_per_hour for each in job.rates.labour)


def _of_skill(rates: Rates, skill: Skill) -> int | None:
    own = {each.skill: each.minor_per_hour for each in rates.labour}
    return own.get(skill, own.get(Skill.ANY, rates.labour_minor_per_hour))
