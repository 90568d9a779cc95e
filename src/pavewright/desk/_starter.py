"""The document of a new job: a rectangle behind a house wall, to be changed into what is there."""

from __future__ import annotations

import datetime as dt
import json
from importlib.resources import files

from pavewright import rulebook

_WEEKS_OFF = 4


def first_start(today: dt.date) -> dt.date:
    """Return when a new job may begin: a Monday about four weeks on, after the turn of the year where that falls in it.

    Source: common_practice

    >>> first_start(dt.date(2026, 11, 27)), first_start(dt.date(2027, 5, 5))
    (datetime.date(2027, 1, 4), datetime.date(2027, 6, 7))
    """
    start = today + dt.timedelta(weeks=_WEEKS_OFF)
    start += dt.timedelta(days=-start.weekday() % 7)
    while (start.month, start.day) >= (12, 21) or (start.month, start.day) <= (1, 2):
        start += dt.timedelta(weeks=1)
    return start


def starter_document(title: str) -> str:
    """Return the document of a new job, dated today and keeping the newest edition of the rulebook.

    Every price in it is invented and says so.
    """
    job = json.loads((files("pavewright.desk") / "starter.json").read_text("utf-8"))
    today = dt.datetime.now(dt.UTC).date()
    job["identity"]["title"] = title.strip() or "New job"
    job["identity"]["date"] = today.isoformat()
    place = rulebook.load(rulebook.newest(job["identity"]["locality"]))
    job["identity"]["edition"] = place.dated.isoformat()
    job["calendar"]["start"] = first_start(today).isoformat()
    return json.dumps(job, ensure_ascii=False, indent=1)
