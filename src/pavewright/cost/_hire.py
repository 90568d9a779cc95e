"""Which plant which work needs, and for how long."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.cost._types import LabourTask
    from pavewright.job import Crew, PlantHire

_NEEDED_FOR = {
    "excavator": ("dig",),
    "dumper": ("dig", "load", "cart"),
    "plate": ("sub_base", "point"),
    "mixer": ("base", "edges_kerb", "edges_edging", "edges_haunch", "lay", "point"),
    "saw": ("cut", "lay"),
    "breaker": ("dig",),
    "laser": ("set_out", "dig", "sub_base", "base"),
    "other": (),
}


def needed_for(plant: str, task: str) -> bool:
    """Return whether a kind of plant is wanted for a task.

    >>> needed_for("saw", "cut.Terrace"), needed_for("saw", "dig.Terrace")
    (True, False)
    """
    kind = task.split(".", maxsplit=1)[0]
    kind = "lay" if kind.startswith("lay_") else kind  # borders and zones
    return kind in _NEEDED_FOR[plant]


def hire_days(hire: PlantHire, tasks: Sequence[LabourTask], crew: Crew) -> tuple[float, Working]:
    """Return days on hire: as entered, else the crew time of the work that needs it in whole days."""
    if hire.days is not None:
        return hire.days, Working(f"days as entered = {hire.days:g}", hire.days, "days")
    hours = sum(task.person_hours for task in tasks if needed_for(hire.key, task.key)) / crew.people
    days = float(math.ceil(hours / crew.hours_per_day - 1e-9))
    words = f"days = {hours:.1f} crew hours / {crew.hours_per_day:g}"
    return days, Working(words, days, "days", (), "crew time of the work that needs it, whole days")
