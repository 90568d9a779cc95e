"""Working time: hours of the day, days of the week, days off."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.programme import _elapsed

if TYPE_CHECKING:
    from pavewright.job import Calendar, Crew

LONGEST_DAYS = 3700
"""No job waits ten years for a working day, and none takes ten years."""
_TINY_MIN = 1e-6
_SECONDS_PER_MINUTE = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR


class NoWorkingDayError(ValueError):
    """The calendar has no working day in sight."""


class EndlessWorkError(ValueError):
    """At so many hours a day the work takes more years than any job."""


@dataclass(frozen=True)
class WorkingTime:
    """When the crew works, and in which zone; without one the clock on the wall is taken never to be changed."""

    weekdays: frozenset[int]
    days_off: frozenset[dt.date]
    day_starts_min: float
    day_min: float
    zone: dt.tzinfo | None = None

    def works_on(self, day: dt.date) -> bool:
        """Return whether anybody works on a day."""
        return day.weekday() in self.weekdays and day not in self.days_off

    def first_moment(self, not_before: dt.datetime) -> dt.datetime:
        """Return the first working moment at or after a time.

        Raises:
            NoWorkingDayError: no day for years is a working day.
        """
        moment = not_before
        for _ in range(LONGEST_DAYS):
            opens = dt.datetime.combine(moment.date(), dt.time()) + dt.timedelta(minutes=self.day_starts_min)
            closes = opens + dt.timedelta(minutes=self.day_min)
            if self.works_on(moment.date()) and moment < closes - dt.timedelta(minutes=_TINY_MIN):
                return max(moment, opens)
            moment = dt.datetime.combine(moment.date() + dt.timedelta(days=1), dt.time())
        message = "the calendar has no working day"
        raise NoWorkingDayError(message)

    def after(self, start: dt.datetime, work_min: float) -> dt.datetime:
        """Return when so much work is done that begins at a working moment, nights and days off skipped.

        Raises:
            NoWorkingDayError: no day for years is a working day.
            EndlessWorkError: it takes ten years.
        """
        left, moment = work_min, self.first_moment(start)
        while moment - start <= dt.timedelta(days=LONGEST_DAYS):
            opens = dt.datetime.combine(moment.date(), dt.time()) + dt.timedelta(minutes=self.day_starts_min)
            closes = opens + dt.timedelta(minutes=self.day_min)
            today = (closes - moment).total_seconds() / _SECONDS_PER_MINUTE
            if left <= today + _TINY_MIN:
                return moment + dt.timedelta(minutes=left)
            left -= today
            moment = self.first_moment(closes)
        message = "the work takes more than ten years"
        raise EndlessWorkError(message)

    def before(self, finish: dt.datetime, work_min: float) -> dt.datetime:
        """Return the latest working moment at which so much work may begin and be done by a time.

        Raises:
            EndlessWorkError: it takes ten years.
        """
        left, day = work_min, finish.date()
        while finish.date() - day <= dt.timedelta(days=LONGEST_DAYS):
            opens, closes = self.day(day)
            today = (min(closes, finish) - opens).total_seconds() / _SECONDS_PER_MINUTE
            if self.works_on(day) and today > _TINY_MIN:
                if left <= today + _TINY_MIN:
                    return min(closes, finish) - dt.timedelta(minutes=left)
                left -= today
            day -= dt.timedelta(days=1)
        message = "the work takes more than ten years"
        raise EndlessWorkError(message)

    def between(self, start: dt.datetime, finish: dt.datetime) -> float:
        """Return how much working time lies between two moments, zero where the second comes first. [min]."""
        found, day = 0.0, start.date()
        while day <= finish.date():
            if self.works_on(day):
                opens, closes = self.day(day)
                found += max((min(closes, finish) - max(opens, start)).total_seconds() / _SECONDS_PER_MINUTE, 0.0)
            day += dt.timedelta(days=1)
        return found

    def later(self, moment: dt.datetime, minutes: float) -> dt.datetime:
        """Return what the clock on the wall shows when so many minutes have gone by, nights and days off too."""
        return _elapsed.later(moment, minutes, self.zone)

    def elapsed(self, start: dt.datetime, finish: dt.datetime) -> float:
        """Return how much time goes by between two moments, nights and days off too. [min]."""
        return _elapsed.minutes_between(start, finish, self.zone)

    def day(self, day: dt.date) -> tuple[dt.datetime, dt.datetime]:
        """Return when work begins and ends on a day, whether anybody works on it or not."""
        opens = dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=self.day_starts_min)
        return opens, opens + dt.timedelta(minutes=self.day_min)

    def half_day(self, not_before: dt.datetime) -> dt.datetime:
        """Return the first beginning of a half of a working day at or after a time.

        Raises:
            NoWorkingDayError: no day for years is a working day.
        """
        moment = self.first_moment(not_before)
        opens, closes = self.day(moment.date())
        noon = opens + (closes - opens) / 2
        halves = (opens, noon, self.first_moment(closes))
        return next(each for each in halves if each >= moment - dt.timedelta(minutes=_TINY_MIN))

    def days_worked(self, start: dt.datetime, finish: dt.datetime) -> set[dt.date]:
        """Return the working days that a stretch of work touches."""
        days = set()
        day = start.date()
        while day <= finish.date():
            if self.works_on(day):
                days.add(day)
            day += dt.timedelta(days=1)
        return days


def working_time(calendar: Calendar, crew: Crew, zone: dt.tzinfo | None = None) -> WorkingTime:
    """Return the working time of a crew."""
    return WorkingTime(
        frozenset(calendar.weekdays),
        frozenset(calendar.days_off),
        float(calendar.day_starts_min),
        crew.hours_per_day * units.MINUTES_PER_HOUR,
        zone,
    )
