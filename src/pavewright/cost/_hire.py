"""Which plant which work needs, and for how long."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKind
from pavewright.job import PlantKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost._types import LabourTask
    from pavewright.job import Crew, PlantHire

_LAYING = frozenset({TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE})
_NEEDED_FOR = {
    PlantKind.EXCAVATOR: frozenset({TaskKind.DIG}),
    PlantKind.DUMPER: frozenset({TaskKind.DIG, TaskKind.LOAD, TaskKind.CART}),
    PlantKind.PLATE: frozenset({TaskKind.SUB_BASE, TaskKind.POINT}),
    PlantKind.MIXER: frozenset(
        {
            TaskKind.BASE,
            TaskKind.EDGES_KERB,
            TaskKind.EDGES_EDGING,
            TaskKind.EDGES_HAUNCH,
            TaskKind.POINT,
            *_LAYING,
        }
    ),
    PlantKind.SAW: frozenset({TaskKind.CUT, *_LAYING}),
    PlantKind.BREAKER: frozenset({TaskKind.DIG}),
    PlantKind.LASER: frozenset({TaskKind.SET_OUT, TaskKind.DIG, TaskKind.SUB_BASE, TaskKind.BASE}),
    PlantKind.OTHER: frozenset[TaskKind](),
}


def needed_for(plant: PlantKind, task: TaskKind) -> bool:
    """Return whether a kind of plant is wanted for a kind of work.

    >>> needed_for(PlantKind.SAW, TaskKind.CUT), needed_for(PlantKind.SAW, TaskKind.DIG)
    (True, False)
    """
    return task in _NEEDED_FOR[plant]


def hire_days(hire: PlantHire, tasks: Sequence[LabourTask], crew: Crew) -> tuple[float, Working]:
    """Return days on hire: as entered, else the crew time of the work that needs it in whole days."""
    if hire.days is not None:
        return hire.days, Working(f"days as entered = {hire.days:g}", hire.days, "days")
    hours = sum(task.person_hours for task in tasks if needed_for(hire.key, task.key.kind)) / crew.people
    days = float(math.ceil(hours / crew.hours_per_day - 1e-9))
    words = f"days = {hours:.1f} crew hours / {crew.hours_per_day:g}"
    return days, Working(words, days, "days", (), "crew time of the work that needs it, whole days")
