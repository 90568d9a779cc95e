"""Time that goes by where the clock on the wall is put forward in spring and back in autumn."""

from __future__ import annotations

import datetime as dt

from pavewright import units

_SECONDS_PER_MINUTE = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR


def later(moment: dt.datetime, minutes: float, zone: dt.tzinfo | None) -> dt.datetime:
    """Return what the clock on the wall shows when so much time has gone by since it showed a moment.

    Concrete that is laid at noon before the clocks go forward is 24 hours old at one o'clock the day after. Where the
    zone is not known the clock is taken never to be changed.

    Args:
        moment: What the clock on the wall shows.
        minutes: How much time goes by; before the moment where it is negative. [min]
        zone: The zone of the site; None where it is not known.

    Source: definition

    >>> from zoneinfo import ZoneInfo
    >>> later(dt.datetime(2027, 3, 27, 12), 24 * 60.0, ZoneInfo("Europe/London"))
    datetime.datetime(2027, 3, 28, 13, 0)
    >>> later(dt.datetime(2027, 10, 30, 12), 24 * 60.0, ZoneInfo("Europe/London"))
    datetime.datetime(2027, 10, 31, 11, 0)
    """
    span = dt.timedelta(minutes=minutes)
    if zone is None:
        return moment + span
    return (moment.replace(tzinfo=zone).astimezone(dt.UTC) + span).astimezone(zone).replace(tzinfo=None)


def minutes_between(start: dt.datetime, finish: dt.datetime, zone: dt.tzinfo | None) -> float:
    """Return how much time goes by between two moments of the clock on the wall. [min].

    Args:
        start: The first.
        finish: The second.
        zone: The zone of the site; None where it is not known.

    Source: definition

    >>> from zoneinfo import ZoneInfo
    >>> minutes_between(dt.datetime(2027, 3, 27, 12), dt.datetime(2027, 3, 28, 12), ZoneInfo("Europe/London")) / 60.0
    23.0
    """
    if zone is None:
        return (finish - start).total_seconds() / _SECONDS_PER_MINUTE
    gone = finish.replace(tzinfo=zone).astimezone(dt.UTC) - start.replace(tzinfo=zone).astimezone(dt.UTC)
    return gone.total_seconds() / _SECONDS_PER_MINUTE
