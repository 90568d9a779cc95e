"""How many working days later a job is done with something changed."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import Calendar
    from pavewright.programme import Programme

_DAY = dt.timedelta(days=1)


def days_later(calendar: Calendar, before: Programme | None, after: Programme | None) -> int | None:
    """Return how many working days later a job is done; None where one of the two has no dates. [days]."""
    if before is None or after is None:
        return None
    first, last = before.finish, after.finish
    step = 1 if last >= first else -1
    days, on = 0, first
    while on != last:
        on += step * _DAY
        days += step * (on.weekday() in calendar.weekdays and on not in calendar.days_off)
    return days


def days_words(days: int) -> str:
    """Return more or fewer days in words.

    >>> days_words(1), days_words(-2)
    ('1 day more', '2 days fewer')
    """
    return f"{abs(days)} day{'s' if abs(days) > 1 else ''} {'more' if days > 0 else 'fewer'}"
