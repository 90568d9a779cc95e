"""What an hour of each skill costs, by the book."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.job import LabourRate, Skill

if TYPE_CHECKING:
    from pavewright.firm._book import FirmBook


def skill_rates(book: FirmBook) -> tuple[LabourRate, ...]:
    """Return the price of an hour by skill: as the rates say it, else the mean of the people who have the skill.

    A person whose hour has no price says nothing; of a skill that nobody has there is no price.
    """
    said = {each.skill for each in book.rates.labour}
    found = list(book.rates.labour)
    for skill in Skill:
        costs = [
            each.cost_minor_per_hour
            for each in book.people
            if each.skill is skill and each.cost_minor_per_hour is not None
        ]
        if costs and skill not in said:
            found.append(LabourRate(skill=skill, minor_per_hour=math.floor(sum(costs) / len(costs) + 0.5)))
    return tuple(found)
