"""The days of one person for the calendar of a phone."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from pavewright.crew_calendar import read
from pavewright.desk._calendar_sheet import work_days
from pavewright.papers import FeedDay, crew_feed
from pavewright.units import MINUTES_PER_HOUR

if TYPE_CHECKING:
    from collections.abc import Mapping


def feed_of(document: str, needs: Mapping[str, Any], person: str, revision: int, at: str) -> bytes:
    """Return the days of somebody as a calendar for phones.

    Args:
        document: The calendar; empty where there is none.
        needs: What each job needs, as it was taken from its plan.
        person: Whose days.
        revision: Revision of the calendar.
        at: When it was kept, UTC; empty where there is none.
    """
    days = []
    for booking, place in () if not document else work_days(read(document), person):
        need = needs.get(booking.job)
        if need is None or "day_starts_min" not in need:
            continue
        at_place = [booking.stretch, place]
        sheet = next((each for each in need["sheet"] if each["at"] == at_place), None)
        days.append(
            FeedDay(
                uid=f"{person}-{booking.job}-{booking.stretch}-{place}",
                on=booking.days[place].on,
                begins_min=need["day_starts_min"],
                ends_min=need["day_starts_min"] + need["hours_per_day"] * MINUTES_PER_HOUR,
                title=need["title"],
                place=need["address"],
                work=() if sheet is None else tuple(each["words"] for each in sheet["tasks"]),
            )
        )
    stamp = dt.datetime.fromisoformat(at) if at else dt.datetime(2027, 1, 1, tzinfo=dt.UTC)
    return crew_feed(tuple(days), revision, stamp)
