"""The order book's facts of a job as they are kept, and back."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import TYPE_CHECKING, Any

from pavewright.job.standing import JobState, NotTaken
from pavewright.order_book._states import JobFacts

if TYPE_CHECKING:
    from collections.abc import Mapping

_DAYS = frozenset(field.name for field in dataclasses.fields(JobFacts) if "dt.date" in str(field.type))


def facts_back(kept: Mapping[str, Any]) -> JobFacts:
    """Return the facts of a job as they were kept, a day as ISO text.

    Args:
        kept: The fields that are not left out.
    """
    read: dict[str, Any] = {
        name: dt.date.fromisoformat(value) if name in _DAYS and value is not None else value
        for name, value in kept.items()
    }
    if read.get("by_hand") is not None:
        read["by_hand"] = JobState(read["by_hand"])
    if read.get("not_taken") is not None:
        read["not_taken"] = NotTaken(read["not_taken"])
    return JobFacts(**read)
