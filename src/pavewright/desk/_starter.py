"""The document of a new job: a rectangle behind a house wall, to be changed into what is there."""

from __future__ import annotations

import datetime as dt
import json
from importlib.resources import files


def starter_document(title: str) -> str:
    """Return the document of a new job, dated today; every price in it is invented and says so."""
    job = json.loads((files("pavewright.desk") / "starter.json").read_text("utf-8"))
    today = dt.datetime.now(dt.UTC).date()
    job["identity"]["title"] = title.strip() or "New job"
    job["identity"]["date"] = today.isoformat()
    job["calendar"]["start"] = (today + dt.timedelta(days=28)).isoformat()
    return json.dumps(job, ensure_ascii=False, indent=1)
