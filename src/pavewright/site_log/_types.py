"""What the room of the site log hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import TaskKey
    from pavewright.findings import Finding
    from pavewright.job.on_site import SiteDay
    from pavewright.sums import Working


class TaskPace(StrEnum):
    """How the hours of a task go against the plan."""

    NOT_BEGUN = "not_begun"
    NOT_KNOWN = "not_known"
    TOO_EARLY = "too_early"
    QUICKER = "quicker"
    AS_PLANNED = "as_planned"
    SLOWER = "slower"


@dataclass(frozen=True, slots=True)
class LoggedPerson:
    """Somebody who was there on a day.

    Attributes:
        name: Their name as written.
        there_h: Hours on site; None where nobody counted them, or two logs say otherwise. [h]
    """

    name: str
    there_h: float | None


@dataclass(frozen=True, slots=True)
class LoggedHours:
    """Hours on one task on one day, of all logs.

    Attributes:
        task: Key of the task as it was logged.
        words: What it is; the bare key where the plan holds no such task now.
        person_h: Hours of all who worked on it. [h]
        done_percent: How much was done at the end of the day; None where nobody looked. [%]
    """

    task: str
    words: str
    person_h: float
    done_percent: float | None


@dataclass(frozen=True, slots=True)
class LoggedDay:
    """A day on site: all logs of its date together.

    Attributes:
        on: Its date.
        logs: The logs as they were written.
        people: Who was there.
        hours: Hours by task, in the order of the plan.
        person_h: All hours that are booked on tasks. [h]
        there_h: All hours of those who were there; None where those of somebody are not known. [h]
        lost_h: How long work stood, as far as it was noted; None where it stopped and nobody noted how long. [h]
    """

    on: dt.date
    logs: tuple[SiteDay, ...]
    people: tuple[LoggedPerson, ...]
    hours: tuple[LoggedHours, ...]
    person_h: float
    there_h: float | None
    lost_h: float | None


@dataclass(frozen=True, slots=True)
class TaskLog:
    """What the log says of one task of the plan.

    Attributes:
        key: Its key; a layer of stone counts for all of it.
        words: What it is.
        planned_h: Person-hours of the plan. [h]
        low_h: Lower end of those. [h]
        high_h: Upper end of those. [h]
        logged_h: Person-hours that are booked on it. [h]
        done_percent: How much of it is done by the log; None where nobody said. [%]
        expected_h: What it will take in all at this pace; None where that cannot be said. [h]
        expected_low_h: Lower end, how much is done being judged by eye. [h]
        expected_high_h: Upper end of the same. [h]
        pace: How that goes against the plan.
        began: The first day with hours on it; None where there is none.
        last: The last day with hours on it, or on which somebody said how much is done.
        working: The sum behind what is expected; None where nothing is.
    """

    key: TaskKey
    words: str
    planned_h: float
    low_h: float
    high_h: float
    logged_h: float
    done_percent: float | None
    expected_h: float | None
    expected_low_h: float | None
    expected_high_h: float | None
    pace: TaskPace
    began: dt.date | None
    last: dt.date | None
    working: Working | None


@dataclass(frozen=True, slots=True)
class SiteLog:
    """All days of a job, and what they say of its tasks.

    Attributes:
        days: In their order.
        tasks: Every task of the plan in its order; none where the plan has no hours yet.
        person_h: All hours that are booked. [h]
        findings: What was noticed.
    """

    days: tuple[LoggedDay, ...]
    tasks: tuple[TaskLog, ...]
    person_h: float
    findings: tuple[Finding, ...]
