"""Numbers and dates, written as in a region."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.writing._country import HOUSE_REGIONS
from pavewright.writing._manner import now

if TYPE_CHECKING:
    import datetime as dt

    from babel.core import Locale


def number_text(value: float, places: int = 0) -> str:
    """Return a number with its thousands apart, in the manner of this program: `marked` puts in those of the region.

    Args:
        value: The number, in the unit of the words beside it. [any unit]
        places: Decimals.

    >>> number_text(1234567.891, 2).replace(chr(0x202F), " ")
    '1 234 567.89'
    """
    return units.grouped(value, places)


def day_text(date: dt.date) -> str:
    """Return a date with its day of the week.

    >>> import datetime as dt
    >>> from pavewright.writing._manner import Writing, written_as
    >>> day_text(dt.date(2027, 5, 10))
    'Mon 10 May 2027'
    >>> with written_as(Writing("US")):
    ...     day_text(dt.date(2027, 5, 10))
    'Mon, May 10, 2027'
    """
    if now().region in HOUSE_REGIONS:
        return f"{_WEEKDAYS[date.weekday()]} {date.day} {_MONTHS[date.month - 1]} {date.year}"
    return _by_skeleton("yMMMEd", date)


def short_day_text(date: dt.date) -> str:
    """Return a date without its year and its day of the week.

    >>> import datetime as dt
    >>> short_day_text(dt.date(2027, 5, 10))
    '10 May'
    """
    if now().region in HOUSE_REGIONS:
        return f"{date.day} {_MONTHS[date.month - 1]}"
    return _by_skeleton("MMMd", date)


def hour_text(moment: dt.datetime) -> str:
    """Return a date without its year, with its time of day."""
    if now().region in HOUSE_REGIONS:
        day = f"{_WEEKDAYS[moment.weekday()]} {moment.day} {_MONTHS[moment.month - 1]}"
        return f"{day}, {moment:%H:%M}"
    return f"{_by_skeleton('MMMEd', moment)}, {_clock(moment)}"


def _by_skeleton(skeleton: str, moment: dt.date) -> str:
    from babel.dates import format_date, format_skeleton  # noqa: PLC0415

    locale = _locale()
    if skeleton in locale.datetime_skeletons:
        return format_skeleton(skeleton, moment, locale=locale)
    return format_date(moment, "medium", locale=locale)


def _clock(moment: dt.datetime) -> str:
    from babel.dates import format_time  # noqa: PLC0415

    return format_time(moment, "short", locale=_locale()).replace("\u202f", "\u00a0")


def _locale() -> Locale:
    from babel.core import Locale, UnknownLocaleError  # noqa: PLC0415 - only where a job lies in such a region

    try:
        return Locale.parse(f"en_{now().region}")
    except UnknownLocaleError:
        return Locale.parse("en_001")


_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
