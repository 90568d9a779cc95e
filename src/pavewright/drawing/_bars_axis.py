"""Days of a programme across a sheet: working hours take more room than nights, days on which nobody works are grey."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import HAIR, THIN, Element, Hatch, Path, Region, Words
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.writing import short_day_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.pipeline import Plan

Row = tuple[str, bool, Callable[[float], Iterable[Element]]]
"""Name of a row, whether it is bold, and what draws it at a height."""

_WORKING = 0.7
"""Part of the width of a day that its working hours take. [-]"""
_NUMBERED_MM = 4.4
"""A day as wide as that has its number. [mm]"""
_DATED_MM = 15.0
"""Room of a day and its month in words. [mm]"""
_MONDAY = 0
_DAYS_OF_A_WEEK = 7


@dataclass(frozen=True)
class Axis:
    """Days across a sheet.

    Attributes:
        first: The first day.
        days: How many.
        left_mm: Where they begin. [mm]
        right_mm: Where they end. [mm]
        opens_min: When work begins, from midnight. [min]
        day_min: How long work goes on. [min]
        off: Days on which nobody works.
    """

    first: dt.date
    days: int
    left_mm: float
    right_mm: float
    opens_min: float
    day_min: float
    off: frozenset[dt.date]

    @property
    def day_mm(self) -> float:
        """Width of a day. [mm]."""
        return (self.right_mm - self.left_mm) / self.days

    def x(self, moment: dt.datetime) -> float:
        """Return where a moment stands. [mm]."""
        minute = moment.hour * units.MINUTES_PER_HOUR + moment.minute
        whole = units.HOURS_PER_DAY * units.MINUTES_PER_HOUR
        night = (1.0 - _WORKING) / 2.0
        closes = min(self.opens_min + self.day_min, whole)
        if minute <= self.opens_min:
            part = night * minute / self.opens_min if self.opens_min else night
        elif minute <= closes:
            part = night + _WORKING * (minute - self.opens_min) / self.day_min
        else:
            part = 1.0 - night + night * (minute - closes) / (whole - closes)
        return self.left_mm + ((moment.date() - self.first).days + part) * self.day_mm

    def middle(self, day: dt.date) -> float:
        """Return where the middle of a day stands. [mm]."""
        return self.left_mm + ((day - self.first).days + 0.5) * self.day_mm

    def holds(self, day: dt.date) -> bool:
        """Return whether a day stands on the sheet."""
        return 0 <= (day - self.first).days < self.days

    def grid(self, high_mm: float, low_mm: float) -> Iterator[Element]:
        """Give the days from top to foot, with dates above them."""
        weeks = max(1, -(-_DATED_MM // (self.day_mm * _DAYS_OF_A_WEEK)))
        mondays = 0
        for number in range(self.days + 1):
            day = self.first + dt.timedelta(days=number)
            x = self.left_mm + number * self.day_mm
            if number < self.days and day in self.off:
                box = ((x, low_mm), (x + self.day_mm, low_mm), (x + self.day_mm, 0.0), (x, 0.0))
                yield Region((box,), Hatch.GREY)
            monday = day.weekday() == _MONDAY
            yield Path(((x, low_mm), (x, high_mm / 2.0 if monday else 0.0)), THIN if monday else HAIR)
            if number == self.days:
                break
            if monday or number == 0:
                dated = mondays % weeks == 0 and self.right_mm - x > _DATED_MM
                if dated and not (number == 0 and not monday and self._near_monday()):
                    yield Words((x + 0.6, high_mm * 0.75), short_day_text(day), MIN_TYPE_MM, "start", bold=True)
                mondays += monday
            if self.day_mm >= _NUMBERED_MM:
                yield Words((x + self.day_mm / 2.0, high_mm * 0.25), str(day.day), MIN_TYPE_MM)
        yield Path(((0.0, 0.0), (self.right_mm, 0.0)), THIN)

    def _near_monday(self) -> bool:
        """Return whether the date of the first Monday would stand over that of the first day."""
        return (-self.first.weekday() % _DAYS_OF_A_WEEK) * self.day_mm < _DATED_MM


def axis_of(plan: Plan, left_mm: float, right_mm: float) -> Axis:
    """Return the days of a programme, from the first that something of it stands on to the last."""
    programme, calendar = plan.programme, plan.job.calendar
    starts = [task.start.date() for task in programme.tasks]
    ends = [task.finish.date() for task in programme.tasks]
    paid = [hire.paid_until for hire in programme.hires if hire.paid_until is not None]
    comes = [each.on for each in programme.deliveries]
    first = min([programme.start, *starts, *comes])
    last = max([programme.finish, *ends, *paid])
    days = (last - first).days + 1
    every = (first + dt.timedelta(days=number) for number in range(days))
    off = frozenset(day for day in every if day.weekday() not in calendar.weekdays or day in calendar.days_off)
    hours = plan.job.crew.hours_per_day * units.MINUTES_PER_HOUR
    return Axis(first, days, left_mm, right_mm, float(calendar.day_starts_min), hours, off)
