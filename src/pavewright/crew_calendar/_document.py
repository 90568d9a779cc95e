"""The calendar document of a firm: who is away, what machines there are, closed days, and what stands where."""

from __future__ import annotations

import datetime as dt
import json
from itertools import pairwise
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from pavewright.job import Fault, JobInvalid, Part, PlantKind, Skill, field_faults, load_document

CALENDAR_FORMAT = "pavewright.calendar"
CALENDAR_VERSION = 1

PersonId = Annotated[str, Field(pattern="^[0-9a-f]{12}$")]
JobId = Annotated[str, Field(pattern="^[A-Za-z0-9_-]{1,64}$")]
Day = Annotated[dt.date, Field(strict=False)]


class AwayDays(Part):
    """Days on which somebody is not there, both counted; why is nobody's business here."""

    first: dt.date = Field(strict=False)
    last: dt.date = Field(strict=False)


class PersonDays(Part):
    """When somebody of the firm's book works, and what they can do beside what they are paid for."""

    id: PersonId = Field(description="Who, as the firm's book numbers them.")
    skills: tuple[Skill, ...] = Field((), max_length=6, description="What they can do beside what they are paid for.")
    weekdays: tuple[Annotated[int, Field(ge=0, le=6)], ...] = Field(
        (0, 1, 2, 3, 4), max_length=7, description="Days of the week on which they work, Monday 0."
    )
    away: tuple[AwayDays, ...] = Field((), max_length=200)
    left: bool = Field(default=False, description="Whether they no longer work for the firm: they are sent nowhere.")


class PlantCount(Part):
    """How many machines of a kind the firm has."""

    kind: PlantKind
    count: Annotated[int, Field(ge=0, le=100)]


class JobDays(Part):
    """What is said of the dates of a job."""

    job: JobId
    earliest: dt.date | None = Field(None, strict=False, description="It does not begin before this day.")
    promised: dt.date | None = Field(None, strict=False, description="By when it is promised to be done.")
    pencilled: bool = Field(default=False, description="Whether it is placed though nobody has accepted it yet.")
    left_out: bool = Field(default=False, description="Whether it is not to be placed.")
    travel_min: Annotated[int, Field(ge=0, le=600)] | None = Field(
        None, description="How long the way there is, one way, in minutes; empty where nobody entered it."
    )


class BookedDay(Part):
    """A day of a stretch and who is there."""

    on: dt.date = Field(strict=False)
    crew: tuple[PersonId, ...] = Field((), max_length=50)


class Booking(Part):
    """A stretch of work of a job where it stands."""

    job: JobId
    stretch: Annotated[int, Field(ge=0, le=500)] = Field(description="Which stretch of the job, from 0.")
    days: tuple[BookedDay, ...] = Field(min_length=1, max_length=400)
    pinned: bool = Field(default=False, description="Whether it stays where it is when the rest is arranged.")
    pinned_crew: bool = Field(default=False, description="Whether those who are there on its first day stay on it.")


class CalendarDocument(Part):
    """The calendar of a firm. People and their names stand in the firm's book; here stands when they work."""

    format: Literal["pavewright.calendar"]
    version: Literal[1]
    people: tuple[PersonDays, ...] = Field((), max_length=200)
    plant: tuple[PlantCount, ...] = Field((), max_length=20)
    closed: tuple[Day, ...] = Field((), max_length=1000, description="Days on which nobody works.")
    locked_weeks: tuple[Day, ...] = Field(
        (), max_length=200, description="Mondays of weeks in which everything stays where it is."
    )
    jobs: tuple[JobDays, ...] = Field((), max_length=10_000)
    bookings: tuple[Booking, ...] = Field((), max_length=50_000)


EMPTY_CALENDAR = CalendarDocument(format="pavewright.calendar", version=1)
"""The calendar of a firm that has entered nothing."""


def read(document: str | bytes | dict[str, Any]) -> CalendarDocument:
    """Return the calendar in a document.

    Raises:
        JobInvalid: it is no calendar; carries every fault.
    """
    if not isinstance(document, dict):
        document = load_document(document, "calendar")
    if document.get("format") != CALENDAR_FORMAT or document.get("version") != CALENDAR_VERSION:
        words = f"This is not a calendar that this program knows: its format should be {CALENDAR_FORMAT}, version 1."
        raise JobInvalid((Fault("format", words),))
    try:
        found = CalendarDocument.model_validate_json(json.dumps(document))
    except ValidationError as problem:
        raise JobInvalid(field_faults(problem, document)) from None
    faults = tuple(_twice(found))
    if faults:
        raise JobInvalid(faults)
    return found


def _twice(found: CalendarDocument) -> list[Fault]:
    lists: tuple[tuple[str, str, list[Any]], ...] = (
        ("people", "this person", [each.id for each in found.people]),
        ("plant", "this kind of machine", [each.kind for each in found.plant]),
        ("jobs", "this job", [each.job for each in found.jobs]),
        ("bookings", "this stretch", [(each.job, each.stretch) for each in found.bookings]),
    )
    faults = [
        Fault(f"{path}.{number}", f"There is {what} already: keep one of the two.")
        for path, what, keys in lists
        for number, key in enumerate(keys)
        if key in keys[:number]
    ]
    for number, person in enumerate(found.people):
        faults += [
            Fault(f"people.{number}.away.{place}.last", "The last day away is before the first.")
            for place, away in enumerate(person.away)
            if away.last < away.first
        ]
    for number, booking in enumerate(found.bookings):
        days = [each.on for each in booking.days]
        if any(later <= day for day, later in pairwise(days)):
            faults.append(Fault(f"bookings.{number}.days", "The days of a stretch are to follow each other."))
    return faults


def to_text(document: CalendarDocument) -> str:
    """Return a calendar as a document, keys in the order of the schema."""
    return document.model_dump_json(indent=1, exclude_none=True) + "\n"
