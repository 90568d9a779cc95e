"""The days of one person as a calendar for phones: where, when and what, and nothing else."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from icalendar import Calendar, Event


@dataclass(frozen=True, slots=True)
class FeedDay:
    """A day of work of somebody.

    Attributes:
        uid: Its name, the same wherever it is moved to.
        on: The day.
        begins_min: When work begins, after midnight. [min]
        ends_min: When it ends. [min]
        title: What the job is called.
        place: The address.
        work: What is to be done, one line each.
    """

    uid: str
    on: dt.date
    begins_min: float
    ends_min: float
    title: str
    place: str
    work: tuple[str, ...]


def crew_feed(days: tuple[FeedDay, ...], revision: int, stamp: dt.datetime) -> bytes:
    """Return the days of somebody as a calendar: the same bytes for the same days.

    Hours are those of the clock on the wall at the site.

    Args:
        days: The days.
        revision: Number of the issue: a later one is higher, so that entries move.
        stamp: When the calendar was kept, UTC.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//pavewright//crew calendar//EN")
    calendar.add("version", "2.0")
    for day in sorted(days, key=lambda each: (each.on, each.uid)):
        begin = dt.datetime.combine(day.on, dt.time())
        event = Event()
        event.add("uid", f"{day.uid}@pavewright.invalid")
        event.add("sequence", revision)
        event.add("dtstamp", stamp)
        event.add("summary", day.title)
        event.add("dtstart", begin + dt.timedelta(minutes=day.begins_min))
        event.add("dtend", begin + dt.timedelta(minutes=day.ends_min))
        if day.place:
            event.add("location", day.place)
        if day.work:
            event.add("description", "\n".join(day.work))
        calendar.add_component(event)
    return bytes(calendar.to_ical())
