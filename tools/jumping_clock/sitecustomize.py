"""A clock that jumps: each Python that starts with this folder on its path adds what a file says to the time of day.

The file is named by ``JUMPING_CLOCK`` and holds seconds, forwards or back; it is read whenever the time is asked for.
The clock that only counts (``time.monotonic``) stays as it is, as that of a machine does when somebody sets its time.
"""

from __future__ import annotations

import datetime as dt
import os
import time
from datetime import datetime as Real  # noqa: N812 - the type as it was
from pathlib import Path

_FILE = Path(os.environ.get("JUMPING_CLOCK", ""))
_TIME = time.time


def _ahead_s() -> float:
    try:
        return float(_FILE.read_text("ascii"))
    except (OSError, ValueError):
        return 0.0


class _Kind(type):
    def __instancecheck__(cls, value: object) -> bool:
        return isinstance(value, Real)


class _Jumping(Real, metaclass=_Kind):
    """The type of times, but for what it says is now."""

    def __new__(cls, *parts: object, **named: object) -> Real:  # type: ignore[misc]
        return Real(*parts, **named)  # type: ignore[arg-type]  # noqa: DTZ001 - as it was asked for

    @classmethod
    def now(cls, tz: dt.tzinfo | None = None) -> Real:  # type: ignore[override]
        """Return the time, as far ahead as the file says."""
        return Real.now(tz) + dt.timedelta(seconds=_ahead_s())


dt.datetime = _Jumping  # type: ignore[misc]
time.time = lambda: _TIME() + _ahead_s()
