"""The question that the calendar asks: its document, the people of the book and what each job needs, put together."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pavewright.crew_calendar import (
    CalendarAsked,
    CalendarJob,
    CrewMember,
    DayNeed,
    DaySpan,
    DeliveryNeed,
    HireNeed,
    Pin,
    Placed,
    Stretch,
    WaitLink,
)
from pavewright.crew_calendar import read as read_calendar
from pavewright.job import PlantKind, Skill
from pavewright.order_book import place_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.crew_calendar import Booking, CalendarDocument
    from pavewright.firm import FirmBook

STAY_JOB_DAYS = 0.5
"""What it weighs, while the calendar settles round a change, that a stretch leaves its day. Our convention.
[job-days]"""
CHANGE_JOB_DAYS = 0.1
"""What it weighs that somebody works in another place than on their day of work before: tools and goods go along.
Our convention. [job-days]"""
WEEKS = 26
"""How far ahead jobs are placed. [weeks]"""
_BACK_DAYS = 60
"""How far back a stretch may have begun that is still on the calendar. [days]"""


def bookings_of(document: CalendarDocument) -> tuple[Placed, ...]:
    """Return what stands in a calendar, by first day, job and stretch."""
    found = (
        Placed(
            each.job,
            each.stretch,
            tuple(day.on for day in each.days),
            tuple(tuple(sorted(day.crew)) for day in each.days),
        )
        for each in document.bookings
    )
    return tuple(sorted(found, key=lambda each: (each.days[0], each.job, each.stretch)))


def crew_of(document: CalendarDocument, book: FirmBook | None) -> tuple[CrewMember, ...]:
    """Return the people of the firm's book who have a number and have not left, with their days."""
    said = {each.id: each for each in document.people}
    found = []
    for person in () if book is None else book.people:
        if person.id is None or (person.id in said and said[person.id].left):
            continue
        own = said.get(person.id)
        skills = {person.skill, *(() if own is None else own.skills)}
        found.append(
            CrewMember(
                id=person.id,
                skills=tuple(sorted(skills)),
                weekdays=(0, 1, 2, 3, 4) if own is None else own.weekdays,
                away=() if own is None else tuple(DaySpan(each.first, each.last) for each in own.away),
                cost_minor_per_hour=person.cost_minor_per_hour,
            )
        )
    return tuple(sorted(found, key=lambda each: each.id))


def asked_of(
    document: CalendarDocument, book: FirmBook | None, needs: Mapping[str, Any], today: dt.date
) -> CalendarAsked:
    """Return what is asked as it stands, to look what breaks.

    Args:
        document: The calendar.
        book: The firm's book; None where there is none.
        needs: What each job needs, as it was taken from its plan.
        today: The day.
    """
    said = {each.job: each for each in document.jobs}
    jobs = tuple(
        replace(job, promised=own.promised, earliest=own.earliest, travel_min=own.travel_min)
        if (own := said.get(job.id))
        else job
        for job in (job_of(name, need) for name, need in sorted(needs.items()) if need.get("known"))
        if not (job.id in said and said[job.id].left_out)
    )
    placed = [each for each in document.bookings if each.job in needs]
    earliest = today - dt.timedelta(days=_BACK_DAYS)
    first = min([today, *(each.days[0].on for each in placed if each.days[0].on >= earliest)])
    return CalendarAsked(
        first=first,
        last=today + dt.timedelta(weeks=WEEKS),
        people=crew_of(document, book),
        plant={each.kind: each.count for each in document.plant},
        closed=document.closed,
        jobs=tuple(job for job in jobs if job.stretches),
        pins=tuple(_pin(each) for each in placed if each.pinned),
        currency="" if book is None else book.currency,
    )


def to_settle(asked: CalendarAsked, document: CalendarDocument, today: dt.date) -> CalendarAsked:
    """Return what is asked of the search: what is pinned, locked or begun stays, the rest stays near its days."""
    names = {job.id for job in asked.jobs}
    standing = [each for each in document.bookings if each.job in names]
    pins = []
    for each in standing:
        locked = any(_monday(day.on) in document.locked_weeks for day in each.days)
        if each.pinned or locked or each.days[0].on < today:
            pins.append(_pin(each))
    jobs = tuple(replace(job, earliest=max(today, job.earliest or today)) for job in asked.jobs)
    return replace(
        asked,
        jobs=jobs,
        pins=tuple(pins),
        present={(each.job, each.stretch): each.days[0].on for each in standing},
        stay_job_days=STAY_JOB_DAYS if standing else 0.0,
        change_job_days=CHANGE_JOB_DAYS,
    )


def _pin(each: Booking) -> Pin:
    first = each.days[0]
    return Pin(each.job, each.stretch, first.on, tuple(sorted(first.crew)) if each.pinned_crew else ())


def _monday(day: dt.date) -> dt.date:
    return day - dt.timedelta(days=day.weekday())


def job_of(name: str, need: Mapping[str, Any]) -> CalendarJob:
    """Return a job as the calendar sees it, out of what was taken from its plan."""
    return CalendarJob(
        id=name,
        stretches=tuple(Stretch(tuple(_day(day) for day in each["days"])) for each in need["stretches"]),
        links=tuple(
            WaitLink(_at(each["before"]), _at(each["after"]), each["days"], each["key"], each["hold"])
            for each in need["links"]
        ),
        deliveries=tuple(
            DeliveryNeed(_at(each["at"]), each["key"], _date(each["earliest"]), each["pinned"])
            for each in need["deliveries"]
        ),
        hires=tuple(
            HireNeed(
                each["number"],
                PlantKind(each["kind"]),
                tuple(_at(day) for day in each["days"]),
                each["day_minor"],
                each["min_days"],
            )
            for each in need["hires"]
        ),
        weekdays=tuple(need["weekdays"]),
        shut=tuple(dt.date.fromisoformat(day) for day in need["shut"]),
        wet_share={int(month): share for month, share in need["wet_share"].items()},
        weather_known=need["weather_known"],
        hours_per_day=need["hours_per_day"],
        currency=need.get("currency") or "",
        place=place_of(need.get("address") or ""),
    )


def _day(day: Mapping[str, Any]) -> DayNeed:
    return DayNeed(
        day["hands"],
        tuple(Skill(each) for each in day["skills"]),
        tuple(PlantKind(each) for each in day["machines"]),
        day["rain"],
        tuple(day["shut_months"]),
    )


def _at(pair: list[int]) -> tuple[int, int]:
    return pair[0], pair[1]


def _date(text: str | None) -> dt.date | None:
    return None if text is None else dt.date.fromisoformat(text)


def booked(document: CalendarDocument, placed: tuple[Placed, ...]) -> CalendarDocument:
    """Return a calendar with an arrangement in it; what was pinned stays so, and jobs not at hand stay."""
    pinned = {(each.job, each.stretch): each for each in document.bookings}
    arranged = {each.job for each in placed}
    bookings = [each.model_dump(mode="json") for each in document.bookings if each.job not in arranged]
    for each in placed:
        before = pinned.get((each.job, each.stretch))
        days = [{"on": day.isoformat(), "crew": list(crew)} for day, crew in zip(each.days, each.crew, strict=True)]
        own = {"job": each.job, "stretch": each.stretch, "days": days}
        if before is not None:
            own |= {"pinned": before.pinned, "pinned_crew": before.pinned_crew}
        bookings.append(own)
    bookings.sort(key=lambda each: (each["days"][0]["on"], each["job"], each["stretch"]))
    return read_calendar(document.model_dump(mode="json") | {"bookings": bookings})
