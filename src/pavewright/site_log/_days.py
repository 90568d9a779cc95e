"""Days: all logs of a date together."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.site_log._types import LoggedDay, LoggedHours, LoggedPerson

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from pavewright.job import Job
    from pavewright.job.on_site import SiteDay


def days_of(job: Job, words: Mapping[str, str]) -> tuple[LoggedDay, ...]:
    """Return the days of a job in their order.

    Args:
        job: The job.
        words: The tasks of the plan in words, by the text of their keys, in their order.
    """
    by_date: dict[dt.date, list[SiteDay]] = {}
    for each in job.site_days:
        by_date.setdefault(each.date, []).append(each)
    return tuple(_day(on, by_date[on], words) for on in sorted(by_date))


def _day(on: dt.date, logs: Sequence[SiteDay], words: Mapping[str, str]) -> LoggedDay:
    people = _people(logs)
    hours = _hours(logs, words)
    there = [each.there_h for each in people]
    known = [each for each in there if each is not None]
    stopped = [stop.lost_h for log in logs for stop in log.stops]
    lost = [each for each in stopped if each is not None]
    return LoggedDay(
        on=on,
        logs=tuple(logs),
        people=people,
        hours=hours,
        person_h=math.fsum(each.person_h for each in hours),
        there_h=math.fsum(known) if known and len(known) == len(there) else None,
        lost_h=math.fsum(lost) if len(lost) == len(stopped) else None,
    )


def said_of(logs: Sequence[SiteDay]) -> dict[str, list[float]]:
    """Return the hours that logs give each person, by their name; none where nobody counted them."""
    said: dict[str, list[float]] = {}
    for log in logs:
        for person in log.present:
            given = said.setdefault(person.name, [])
            if person.there_h is not None and person.there_h not in given:
                given.append(person.there_h)
    return said


def _people(logs: Sequence[SiteDay]) -> tuple[LoggedPerson, ...]:
    """Return who was there, each once; hours that two logs give otherwise are not known."""
    return tuple(LoggedPerson(name, given[0] if len(given) == 1 else None) for name, given in said_of(logs).items())


def _hours(logs: Sequence[SiteDay], words: Mapping[str, str]) -> tuple[LoggedHours, ...]:
    """Return the hours by task; of two logs that say how much is done the one that says more holds."""
    booked: dict[str, list[float]] = {}
    done: dict[str, float] = {}
    for log in logs:
        for each in log.worked:
            booked.setdefault(each.task, []).append(each.person_h)
            if each.done_percent is not None:
                done[each.task] = max(each.done_percent, done.get(each.task, 0.0))
    order = {key: place for place, key in enumerate(words)}
    keys = sorted(booked, key=lambda key: (order.get(key, len(order)), key))
    return tuple(LoggedHours(key, words.get(key, key), math.fsum(booked[key]), done.get(key)) for key in keys)
