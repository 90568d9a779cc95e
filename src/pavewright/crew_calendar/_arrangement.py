"""What an arrangement is, and what weighs in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.crew_calendar._types import NotPlaced, Placed
    from pavewright.job import Skill


@dataclass(frozen=True, slots=True)
class Weighed:
    """What an arrangement weighs, by what weighs in it.

    Attributes:
        done: Days from the first day until each job is done. [job-days]
        late: Days after promised ends, many times over. [job-days]
        rain: Days that rain is likely to take. [job-days]
        moved: Stretches that leave the day on which they stood. [job-days]
        changing: Changes of place. [job-days]
        place_changes: How often somebody works in another place than on their day of work before.
        travel_min: Time on the way of all who are sent, where the way is known. It weighs nothing, as it is the same in
            every arrangement of these jobs: each of their days takes as many hands wherever it stands. [min]
    """

    done: float
    late: float
    rain: float
    moved: float
    changing: float
    place_changes: int
    travel_min: int

    @property
    def job_days(self) -> float:
        """All of it together. [job-days]."""
        return self.done + self.late + self.rain + self.moved + self.changing


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Which stretch on which days by whom, and how good that is.

    Attributes:
        placed: What has a place, by first day, job and stretch.
        not_placed: What has none, and why.
        job_days: What it weighs: days from the first day until each placed job is done, days after a promised end many
            times over, days that rain is likely to take, stretches moved, changes of place. [job-days]
        bound_job_days: No arrangement of the placed jobs weighs less. [job-days]
        skills_nobody_has: Skills that work asks for and nobody of the firm has: they are not asked for.
        weighed: What weighs in it.
    """

    placed: tuple[Placed, ...]
    not_placed: tuple[NotPlaced, ...]
    job_days: float
    bound_job_days: float
    skills_nobody_has: tuple[Skill, ...]
    weighed: Weighed

    @property
    def gap_percent(self) -> float:
        """How much less a better arrangement could weigh at the most. [%]."""
        over = max(0.0, self.job_days - self.bound_job_days)
        return 100.0 * over / self.job_days if over else 0.0
