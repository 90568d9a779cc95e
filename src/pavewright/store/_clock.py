"""The clock of the machine that keeps the jobs."""

from __future__ import annotations

import datetime as dt


def now() -> str:
    """Return the time, UTC."""
    return dt.datetime.now(dt.UTC).isoformat(timespec="milliseconds")
