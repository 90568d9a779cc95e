"""Who works: gangs with their skills, and how many machines of a kind there are."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost import TaskKey, TaskKind
from pavewright.job import PlantKind, Skill

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import Job
    from pavewright.programme._keys import StepKey

_LIMITED = frozenset(
    {PlantKind.EXCAVATOR, PlantKind.DUMPER, PlantKind.PLATE, PlantKind.MIXER, PlantKind.SAW, PlantKind.BREAKER}
)
"""Machines that work for one gang at a time; a laser serves all."""

_SKILLS: dict[TaskKind, Skill] = {
    **dict.fromkeys(
        (
            *(TaskKind.DRAINS, TaskKind.CHANNEL_PIPES, TaskKind.GULLIES, TaskKind.GULLY_PIPES, TaskKind.GRATINGS),
            *(TaskKind.FRAMES, TaskKind.PIT_FILL, TaskKind.SILT_TRAPS, TaskKind.CHANNEL_FILL, TaskKind.GULLY_FILL),
            TaskKind.FOUND_PIPE,
        ),
        Skill.DRAINAGE,
    ),
    **dict.fromkeys(
        (
            *(TaskKind.CUT, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.LAY, TaskKind.POINT, TaskKind.STEPS),
            TaskKind.WALL,
        ),
        Skill.LAYER,
    ),
    **dict.fromkeys(
        (
            *(TaskKind.SUB_BASE, TaskKind.BASE, TaskKind.EDGES_KERB, TaskKind.EDGES_EDGING, TaskKind.EDGES_HAUNCH),
            *(TaskKind.FILL, TaskKind.WALL_TRENCH, TaskKind.WALL_FOOTING, TaskKind.SET_OUT, TaskKind.GUARD),
            *(TaskKind.EDGE_TRENCH, TaskKind.SUB_BASE_LAYER, TaskKind.BREAK_OUT, TaskKind.DIG_FREE),
        ),
        Skill.GROUNDWORKER,
    ),
    **dict.fromkeys((TaskKind.DIG, TaskKind.SIDES, TaskKind.TOPSOIL_PROVISIONAL, TaskKind.PIT_DIG), Skill.DRIVER),
}
"""The skill that one of a gang has to have; work that is not listed takes anybody."""


@dataclass(frozen=True, slots=True)
class WorkGang:
    """People who work together on one thing at a time.

    Attributes:
        name: As entered; empty for the whole crew.
        people: How many.
        skills: What they can do between them, each once.
    """

    name: str
    people: int
    skills: tuple[Skill, ...]


def gangs_of(job: Job, people: int) -> tuple[WorkGang, ...]:
    """Return the gangs of a job; where none is entered the crew is one, and can do everything."""
    if not job.crew.gangs:
        return (WorkGang("", people, (Skill.ANY,)),)
    return tuple(WorkGang(each.name, len(each.people), tuple(sorted(set(each.people)))) for each in job.crew.gangs)


def skill_for(job: Job, key: StepKey) -> Skill:
    """Return the skill that a task takes; digging by hand takes a groundworker, no driver."""
    if not isinstance(key, TaskKey):
        return Skill.ANY
    skill = _SKILLS.get(key.kind, Skill.ANY)
    return Skill.GROUNDWORKER if skill is Skill.DRIVER and not job.crew.machine_dig else skill


def able(gangs: tuple[WorkGang, ...], skill: Skill) -> tuple[int, ...]:
    """Return the gangs that can do what takes a skill: all of them where none has it, and a finding says so."""
    having = tuple(number for number, gang in enumerate(gangs) if has(gang, skill))
    return having or tuple(range(len(gangs)))


def has(gang: WorkGang, skill: Skill) -> bool:
    """Return whether somebody of a gang has a skill."""
    return skill is Skill.ANY or bool({skill, Skill.ANY} & set(gang.skills))


def machines(job: Job) -> Mapping[PlantKind, int]:
    """Return how many machines of a kind there are: on hire and the crew's own; of others nobody says."""
    found = Counter(hire.key for hire in job.rates.plant if hire.key in _LIMITED)
    if job.crew.own_mixer:
        found[PlantKind.MIXER] += 1
    return found
