"""The sentences of the findings on the programme, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded
from pavewright.job import Skill
from pavewright.writing import day_text

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.findings import Option


def cold_season(min_temperature_c: float) -> tuple[str, tuple[Option, ...]]:
    """Say that mortar and concrete fall in the cold months. [°C]."""
    words = (
        f"Mortar and concrete fall in the cold months. Nothing is mixed below {min_temperature_c:g} °C, and fresh work "
        f"is covered against frost for a day."
    )
    return words, worded(("Watch the forecast and add days.", "Move the start."))


def no_skill(skill: Skill, tasks: int) -> tuple[str, tuple[Option, ...]]:
    """Say that no gang has a skill that work takes."""
    words = f"{tasks} tasks take a {_SKILLS[skill]}, and no gang has one: they are planned as if every gang could."
    return words, worded(("Name the skill of somebody in a gang.", "Have that work done by somebody else."))


_SKILLS = {
    Skill.LAYER: "layer",
    Skill.GROUNDWORKER: "groundworker",
    Skill.LABOURER: "labourer",
    Skill.DRIVER: "driver of machines",
    Skill.DRAINAGE: "drainage hand",
    Skill.ANY: "hand",
}


def no_such_task(keys: tuple[str, ...]) -> tuple[str, tuple[Option, ...]]:
    """Say that something was entered for tasks that the programme does not hold."""
    words = f"What is pinned or shown as done for {', '.join(keys)} is left out: the programme holds no such task now."
    return words, worded(("Delete the entry, or show the same of the task that took its place.",))


def out_of_order(before: tuple[str, ...]) -> tuple[str, tuple[Option, ...]]:
    """Say that something is done although what comes before it is not shown as done."""
    words = f"This is shown as done, and what comes before it is not: {'; '.join(before)}."
    return words, worded(("Show what comes before as done too, or correct the entry.",))


def pin_late(on: dt.date, start: dt.date) -> tuple[str, tuple[Option, ...]]:
    """Say that a task cannot begin on the day to which it is pinned."""
    words = f"This is pinned to {day_text(on)} and cannot begin before {day_text(start)}."
    return words, worded(("Pin it to a later day, or free its gang, its machine or what comes before.",))
