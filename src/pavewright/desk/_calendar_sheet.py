"""The day of one person on one sheet: where, when, what, what to bring, who else is there; no money."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.units import MINUTES_PER_HOUR

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterator, Mapping

    from pavewright.crew_calendar import Booking, CalendarDocument


def sheet_of(
    document: CalendarDocument, needs: Mapping[str, Any], name: Callable[[str], str], person: str, on: dt.date
) -> dict[str, Any]:
    """Return what somebody does on a day.

    Args:
        document: The calendar.
        needs: What each job needs, as it was taken from its plan.
        name: Takes the number of a person, returns what they are called.
        person: Whose sheet it is.
        on: The day.
    """
    own = next((each for each in document.people if each.id == person), None)
    away = own is not None and any(each.first <= on <= each.last for each in own.away)
    jobs = [_work(needs[job], place, name, crew, person) for job, place, crew in _there(document, person, on, needs)]
    return {"person": person, "name": name(person), "on": on.isoformat(), "away": away, "jobs": jobs}


def _there(
    document: CalendarDocument, person: str, on: dt.date, needs: Mapping[str, Any]
) -> Iterator[tuple[str, tuple[int, int], tuple[str, ...]]]:
    """Give the jobs of somebody on a day, with stretch and day in it and who is there."""
    for booking in document.bookings:
        for place, day in enumerate(booking.days):
            if day.on == on and person in day.crew and booking.job in needs:
                yield booking.job, (booking.stretch, place), day.crew


def _work(
    need: Mapping[str, Any],
    place: tuple[int, int],
    name: Callable[[str], str],
    crew: tuple[str, ...],
    person: str,
) -> dict[str, Any]:
    known = need.get("sheet", [])
    sheet = next((each for each in known if tuple(each["at"]) == place), None)
    begins = need.get("day_starts_min")
    return {
        "title": need["title"],
        "number": need.get("number", ""),
        "address": need.get("address", ""),
        "from": None if begins is None else clock_text(begins),
        "until": None if begins is None else clock_text(begins + need["hours_per_day"] * MINUTES_PER_HOUR),
        "tasks": [] if sheet is None else sheet["tasks"],
        "known": sheet is not None,
        "holds": [] if sheet is None else sheet["holds"],
        "machines": [] if sheet is None else sheet["machines"],
        "materials": [] if sheet is None else sheet["materials"],
        "weather_known": need.get("weather_known", False),
        "cautions": need.get("cautions", []),
        "with": sorted(name(each) for each in crew if each != person),
    }


def clock_text(minutes: float) -> str:
    """Return minutes after midnight as the clock shows them.

    >>> clock_text(450.0)
    '07:30'
    """
    hours, rest = divmod(round(minutes), round(MINUTES_PER_HOUR))
    return f"{hours:02}:{rest:02}"


def work_days(document: CalendarDocument, person: str) -> Iterator[tuple[Booking, int]]:
    """Give the bookings of somebody with the place of each of their days."""
    for booking in document.bookings:
        for place, day in enumerate(booking.days):
            if person in day.crew:
                yield booking, place
