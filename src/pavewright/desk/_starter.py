"""The document of a new job, which knows nothing."""

from __future__ import annotations

import datetime as dt
import json
from importlib.resources import files

from pavewright import rulebook


def starter_document(title: str) -> str:
    """Return the document of a new job, dated today and keeping the newest edition of the rulebook.

    It knows nothing else: no point, level, soil, price or person.
    """
    job = json.loads((files("pavewright.desk") / "starter.json").read_text("utf-8"))
    today = dt.datetime.now(dt.UTC).date()
    job["identity"]["title"] = title.strip() or "New job"
    job["identity"]["date"] = today.isoformat()
    place = rulebook.load(rulebook.newest(job["identity"]["locality"]))
    job["identity"]["edition"] = place.dated.isoformat()
    return json.dumps(job, ensure_ascii=False, indent=1)
