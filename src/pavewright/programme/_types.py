"""What the programme room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import Hire
    from pavewright.findings import Finding
    from pavewright.programme._cure_clock import BayCure
    from pavewright.programme._finish_chance import FinishChance
    from pavewright.programme._gangs import WorkGang
    from pavewright.programme._held import HeldBy
    from pavewright.programme._keys import StepKey
    from pavewright.programme._supply_types import Delivery, LoadDay
    from pavewright.programme._uncounted import Uncounted
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
        hold: Whether that wait ends when somebody has looked.
        gang: Place of its gang among those of the programme; None for a wait, and for work that is done.
        total_float_min: How much later it may be done and the job ends on time: working time for work, time on the
            clock for a wait. [min]
        free_float_min: How much later it may be done and nothing after it begins later. [min]
        late_finish: The latest end with which the job ends on time.
        critical: Whether a delay of it delays the end.
        held_by: Why it does not begin earlier.
        pinned_on: The day before which it is not to begin, as entered; None where it is not pinned.
        done_percent: How much of it is shown as done. [%]
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
    hold: bool
    gang: int | None
    total_float_min: float
    free_float_min: float
    late_finish: dt.datetime
    critical: bool
    held_by: HeldBy
    pinned_on: dt.date | None
    done_percent: float
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
        deliveries: What has to be delivered, by when, of whom, and by when it has to be ordered.
        loads: Days on which spoil leaves.
        gangs: Who works, one gang of the whole crew where none is entered.
        earliest_finish: No order of the work ends before this day.
        proven: Whether no order of the work ends on an earlier day.
        done_up_to: The last day of which something is shown as done; None where nothing is.
        cures: The clock of every bay that hardens, those before walking and driving at the end.
        chance: When the work ends with its chance; None where no weather is known.
        uncounted: Work that may come with it and has no known hours: neither dates nor price hold any.
        uncounted_words: The same in a sentence; empty where there is none.
        findings: What was noticed.
    """

    tasks: tuple[Task, ...]
    start: dt.date
    finish: dt.date
    site_days: int
    foot_ready: dt.date
    car_ready: dt.date | None
    hires: tuple[Hire, ...]
    deliveries: tuple[Delivery, ...]
    loads: tuple[LoadDay, ...]
    gangs: tuple[WorkGang, ...]
    earliest_finish: dt.date
    proven: bool
    done_up_to: dt.date | None
    cures: tuple[BayCure, ...]
    chance: FinishChance | None
    uncounted: tuple[Uncounted, ...]
    uncounted_words: str
    findings: tuple[Finding, ...]
