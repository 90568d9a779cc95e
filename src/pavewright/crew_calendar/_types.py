"""What the calendar arranges, and what an arrangement is."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from pavewright.job import PlantKind, Skill

EVERY_DAY = (0, 1, 2, 3, 4, 5, 6)
"""Monday 0 to Sunday 6."""
LATE_JOB_DAYS = 10.0
"""What a day after the promised end weighs against one on which a job is not finished yet. [job-days]"""


@dataclass(frozen=True, slots=True)
class DaySpan:
    """Days from a first to a last, both counted."""

    first: dt.date
    last: dt.date

    def holds(self, day: dt.date) -> bool:
        """Return whether a day is one of them."""
        return self.first <= day <= self.last


@dataclass(frozen=True, slots=True)
class CrewMember:
    """Somebody who works, by a name of the program; never by the name that people call them.

    Attributes:
        id: Who it is.
        skills: What they can do; ``any`` is everything.
        weekdays: Days of the week on which they work, Monday 0.
        away: When they are not there.
        cost_minor_per_hour: What an hour of theirs costs; None where it is not known. [minor units]
    """

    id: str
    skills: tuple[Skill, ...]
    weekdays: tuple[int, ...]
    away: tuple[DaySpan, ...] = ()
    cost_minor_per_hour: int | None = None

    def works_on(self, day: dt.date) -> bool:
        """Return whether they work on a day."""
        return day.weekday() in self.weekdays and not any(span.holds(day) for span in self.away)


@dataclass(frozen=True, slots=True)
class DayNeed:
    """What a day of work on a job takes.

    Attributes:
        hands: How many people.
        skills: Skills, each of which one of them has to have.
        machines: Machines of the firm that stand there all day.
        rain: Whether rain stops it.
        shut_months: Months in which a gate of temperature asks to stop it, as far as temperatures are known.
    """

    hands: int
    skills: tuple[Skill, ...] = ()
    machines: tuple[PlantKind, ...] = ()
    rain: bool = False
    shut_months: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Stretch:
    """Work on days that follow each other, one need for each day."""

    days: tuple[DayNeed, ...]


@dataclass(frozen=True, slots=True)
class WaitLink:
    """A wait between two days of work of a job: something hardens, or somebody has to look.

    Attributes:
        before: Stretch and day in it after which the wait begins, both from 0.
        after: Stretch and day in it that waits.
        days: The second is so many days after the first at the earliest, nights and days off counted. [days]
        key: Which wait of the programme.
        hold: Whether it ends when somebody has looked.
    """

    before: tuple[int, int]
    after: tuple[int, int]
    days: int
    key: str
    hold: bool


@dataclass(frozen=True, slots=True)
class DeliveryNeed:
    """Materials without which a day of work does not begin.

    Attributes:
        at: Stretch and day in it that need them, both from 0.
        key: Which delivery of the programme.
        earliest: The first day of that work, as its lead time allows; None where no lead time is known.
        pinned: Whether it is no delivery, but a day before which the work is not to begin, as entered in its job.
    """

    at: tuple[int, int]
    key: str
    earliest: dt.date | None
    pinned: bool = False


@dataclass(frozen=True, slots=True)
class HireNeed:
    """A machine on hire for a job, from the first day of need to the last.

    Attributes:
        number: Which entry of plant of the job.
        kind: Which machine.
        days: Stretches and days that need it, each from 0.
        day_minor: Price of a day; None where it is not known. [minor units]
        min_days: Shortest hire that is charged. [days]
    """

    number: int
    kind: PlantKind
    days: tuple[tuple[int, int], ...]
    day_minor: int | None
    min_days: float = 0.0


@dataclass(frozen=True, slots=True)
class CalendarJob:
    """A job as the calendar sees it.

    Attributes:
        id: Which job.
        stretches: Its work that is left, in order.
        links: Its waits.
        deliveries: What has to come first.
        hires: Machines on hire.
        weekdays: Days of the week on which there may be work on it.
        shut: Days on which there may be none.
        earliest: Its first day at the earliest; None where nobody said.
        promised: The day by which it is promised to be done; None where nothing is promised.
        wet_share: Share of days of a month on which rain stops work, for the months that are known. [-]
        weather_known: Whether the weather of any month is known.
        hours_per_day: Hours of work a day. [h]
        currency: The money in which its hire is priced; empty where nothing says it.
        place: In which place it is, as far as its address says it; empty where it does not.
        travel_min: How long the way there is, one way, as somebody entered it; None where nobody did. [min]
    """

    id: str
    stretches: tuple[Stretch, ...]
    links: tuple[WaitLink, ...] = ()
    deliveries: tuple[DeliveryNeed, ...] = ()
    hires: tuple[HireNeed, ...] = ()
    weekdays: tuple[int, ...] = EVERY_DAY
    shut: tuple[dt.date, ...] = ()
    earliest: dt.date | None = None
    promised: dt.date | None = None
    wet_share: Mapping[int, float] = field(default_factory=lambda: MappingProxyType({}))
    weather_known: bool = False
    hours_per_day: float = 8.0
    currency: str = ""
    place: str = ""
    travel_min: int | None = None

    def open_on(self, day: dt.date) -> bool:
        """Return whether there may be work on it on a day."""
        return day.weekday() in self.weekdays and day not in self.shut


@dataclass(frozen=True, slots=True)
class Pin:
    """A stretch that stays where somebody put it.

    Attributes:
        job: Which job.
        stretch: Which stretch, from 0.
        first: Its first day.
        people: Who has to be there every day of it.
    """

    job: str
    stretch: int
    first: dt.date
    people: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CalendarAsked:
    """What is to be arranged.

    Attributes:
        first: The first day that is arranged.
        last: The last one.
        people: Who works.
        plant: How many machines of a kind the firm has; of others nobody says.
        closed: Days on which nobody works.
        jobs: The jobs.
        pins: What stays where it is.
        present: First days of the stretches as they stand, by job and stretch.
        stay_job_days: What it weighs that a stretch does not begin on the day on which it stands. [job-days]
        late_job_days: What a day after the promised end weighs. [job-days]
        change_job_days: What it weighs that somebody works in another place than on their day of work before.
            [job-days]
        currency: Money in which people are priced; empty where nothing says it.
    """

    first: dt.date
    last: dt.date
    people: tuple[CrewMember, ...]
    plant: Mapping[PlantKind, int]
    closed: tuple[dt.date, ...]
    jobs: tuple[CalendarJob, ...]
    pins: tuple[Pin, ...] = ()
    present: Mapping[tuple[str, int], dt.date] = field(default_factory=lambda: MappingProxyType({}))
    stay_job_days: float = 0.0
    late_job_days: float = LATE_JOB_DAYS
    change_job_days: float = 0.0
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """A stretch on its days, with who is there.

    Attributes:
        job, stretch: Which job, and which stretch of it, from 0.
        days: Its days.
        crew: Who is there, day for day.
    """

    job: str
    stretch: int
    days: tuple[dt.date, ...]
    crew: tuple[tuple[str, ...], ...]


class WhyNot(StrEnum):
    """Why a job is not placed."""

    LENGTH_UNKNOWN = "length_unknown"
    TOO_FEW_PEOPLE = "too_few_people"
    NO_CREW_WITH_SKILLS = "no_crew_with_skills"
    TOO_FEW_MACHINES = "too_few_machines"
    PIN_CANNOT_HOLD = "pin_cannot_hold"
    DELIVERY_AFTER_END = "delivery_after_end"
    HORIZON_TOO_SHORT = "horizon_too_short"
    NO_ROOM_FOUND = "no_room_found"


@dataclass(frozen=True, slots=True)
class NotPlaced:
    """A job without a place.

    Attributes:
        job: Which job.
        why: Why.
        stretch: The first stretch that finds none, from 0; None where no stretch is known.
        skills, machine, hands: Skills that nobody at hand has together; the machine; how many people it takes.
    """

    job: str
    why: WhyNot
    stretch: int | None = None
    skills: tuple[Skill, ...] = ()
    machine: PlantKind | None = None
    hands: int = 0
