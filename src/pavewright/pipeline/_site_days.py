"""Days of work, for what is bought by the day."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.quantities import SiteDays

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme import Programme

DAYS_OF_A_WEEK = 7
"""On the calendar. [days]"""


def site_days(job: Job, labour: tuple[LabourTask, ...] | None, programme: Programme | None) -> SiteDays | None:
    """Return the days of work; None while there are no dates."""
    if programme is None or labour is None:
        return None
    weeks = math.ceil(calendar_days(programme) / DAYS_OF_A_WEEK)
    people = sum(task.person_hours for task in labour) / job.crew.hours_per_day
    plant = {hire.key.number: hire.wanted_days or hire.days for hire in programme.hires}
    return SiteDays(float(programme.site_days), float(weeks), people, plant)


def calendar_days(programme: Programme) -> int:
    """Return the days on the calendar from the start to the finish, both counted. [days]."""
    return (programme.finish - programme.start).days + 1
