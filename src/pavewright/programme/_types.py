"""What the programme room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import Hire
    from pavewright.findings import Finding
    from pavewright.programme._keys import StepKey
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class Task:
    """One task on the calendar.

    Attributes:
        key: Key of the task of labour, or of a wait.
        description: In words.
        start: Local time.
        finish: Local time.
        work_min: Crew time on the clock; zero for a wait. [min]
        people: Hands on it; zero for a wait.
        after: Keys of the tasks that must be finished first.
        weather: Whether rain or frost stops it.
        wait: Whether it is a wait (cure) during which nobody need be there.
        working: The sum behind its length.
    """

    key: StepKey
    description: str
    start: dt.datetime
    finish: dt.datetime
    work_min: float
    people: int
    after: tuple[StepKey, ...]
    weather: bool
    wait: bool
    working: Working


@dataclass(frozen=True)
class Programme:
    """Tasks with dates.

    Attributes:
        tasks: In order of start.
        start: First day.
        finish: Last day of work.
        site_days: Days on which somebody works.
        foot_ready: When it may be walked on.
        car_ready: When a car may stand on it; None where no car will.
        hires: Days on hire of each machine.
        findings: What was noticed.
    """

    tasks: tuple[Task, ...]
    start: dt.date
    finish: dt.date
    site_days: int
    foot_ready: dt.date
    car_ready: dt.date | None
    hires: tuple[Hire, ...]
    findings: tuple[Finding, ...]
