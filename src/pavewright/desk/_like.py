"""A new job like another one: the firm's own things are taken along, everything of the other house stays there."""

from __future__ import annotations

import json
from typing import Any

from pavewright.desk._starter import starter_document

_OF_THE_FIRM = ("units", "rates", "crew", "terms", "tolerance")
"""Parts of a document that go along from house to house."""
_OF_THE_PLACE = ("locality", "currency", "region", "measure", "contractor", "invented")
"""Fields of who and where that go along."""
_OF_THE_CALENDAR = ("day_starts_min", "weekdays", "weather_percent")


def like_document(other: dict[str, Any], title: str) -> str:
    """Return the document of a new job with units, prices, crew and working days of another, and nothing measured.

    Prices that were invented stay marked as invented.

    Args:
        other: The fields of the other job, as far as they can be read.
        title: What the new job is called.
    """
    job = json.loads(starter_document(title))
    place = job["identity"]["locality"]
    job.update({part: other[part] for part in _OF_THE_FIRM if part in other})
    identity, calendar = other.get("identity"), other.get("calendar")
    if isinstance(identity, dict):
        job["identity"].update({field: identity[field] for field in _OF_THE_PLACE if field in identity})
        if job["identity"]["locality"] != place:
            job["identity"].pop("edition", None)  # it is one of another place: the newest is taken
    if isinstance(calendar, dict) and isinstance(job.get("calendar"), dict):
        job["calendar"].update({field: calendar[field] for field in _OF_THE_CALENDAR if field in calendar})
    return json.dumps(job, ensure_ascii=False, indent=1)
