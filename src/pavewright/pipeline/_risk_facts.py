"""What one other fact would do: the whole job is planned again with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange
from pavewright.job import JobInvalid, changed
from pavewright.pipeline._days_later import days_later
from pavewright.pipeline._plan import plan_rooms
from pavewright.pipeline._risk_types import FactChange, FactKind
from pavewright.pipeline._risk_words import fact_words
from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Job
    from pavewright.pipeline._types import Plan
    from pavewright.programme import Programme
    from pavewright.rules import Rulebook

_SLOWER = 0.8
"""A crew that is a fifth slower than the job says. [-]"""
_FARTHER = 2.0
"""A way that is twice as long. [-]"""


def fact_extra(made: Plan, programme: Programme | None, rules: Rulebook, number: int) -> tuple[int, int | None] | None:
    """Return how much dearer and how many days later a job is with one other fact; None where it has no price then.

    Args:
        made: A plan with a price.
        programme: Its dates, where it has any.
        rules: The rulebook.
        number: Place of the fact among the other facts of the job.
    """
    _, change, _ = other_facts(made.job, rules)[number]
    try:
        other = plan_rooms(changed(made.job, (change,)), rules, (Room.COST, Room.PROGRAMME))
    except JobInvalid:
        return None
    if other.cost is None:
        return None
    return other.cost.total_minor - made.cost.total_minor, days_later(made.job.calendar, programme, other.programme)


def fact_changes(
    made: Plan, rules: Rulebook, extras: Sequence[tuple[int, int | None] | None]
) -> tuple[FactChange, ...]:
    """Return what single facts would do if they were others, what costs most first; those that change nothing left out.

    Args:
        made: A plan with a price.
        rules: The rulebook.
        extras: For each of the other facts of the job how much dearer and how many days later it is; None for no price.
    """
    found = []
    for (kind, change, was), both in zip(other_facts(made.job, rules), extras, strict=True):
        if both is None or not any(both):
            continue
        extra, days = both
        now = float(change.value) if isinstance(change.value, int | float) else 0.0
        words = fact_words(kind, now, was, made, extra, days)
        found.append(FactChange(kind, change, was, extra, days, words))
    return tuple(sorted(found, key=lambda each: (-each.extra_minor, each.kind)))


def other_facts(job: Job, rules: Rulebook) -> list[tuple[FactKind, FieldChange, float | None]]:
    """Return the facts that are taken to be others: kind, the change, and what the job says."""
    site, crew = job.site, job.crew
    wide, narrow = rules.value("cost.power_barrow_width_mm"), rules.value("cost.barrow_width_mm")
    width = site.access_width_mm
    other = wide if width is None or width < wide else narrow
    found: list[tuple[FactKind, FieldChange, float | None]] = [
        (FactKind.ACCESS, FieldChange("site.access_width_mm", other), width),
        (FactKind.MACHINE_DIG, FieldChange("crew.machine_dig", not float(crew.machine_dig)), float(crew.machine_dig)),
        (FactKind.PACE, FieldChange("crew.pace", round(crew.pace * _SLOWER, 3)), crew.pace),
    ]
    if site.carry_mm:
        found.append((FactKind.CARRY, FieldChange("site.carry_mm", site.carry_mm * _FARTHER), site.carry_mm))
    if crew.people is not None and crew.people > 1:
        found.append((FactKind.PEOPLE, FieldChange("crew.people", crew.people - 1), float(crew.people)))
    return found
