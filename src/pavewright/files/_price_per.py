"""By what a price is charged: an hour, a day, a week, a load."""

from __future__ import annotations

import re
from enum import StrEnum


class RatePer(StrEnum):
    """By what a price is charged."""

    HOUR = "hour"
    DAY = "day"
    WEEK = "week"
    LOAD = "load"


_PER: tuple[tuple[RatePer, re.Pattern[str]], ...] = (
    (RatePer.WEEK, re.compile(r"\b(weeks?|weekly|wk|pw)\b")),
    (RatePer.DAY, re.compile(r"\b(days?|daily|pd|24\s?h(ou)?rs?)\b")),
    (RatePer.HOUR, re.compile(r"\b(hours?|hourly|hr|hrs|h|ph)\b")),
    (RatePer.LOAD, re.compile(r"\b(loads?|skips?|lifts?|exchange|each|ea|lorry|grab|tip)\b")),
)


def per_in(words: str) -> RatePer | None:
    """Return by what a price is charged, as words say it; None where they do not.

    >>> per_in("Price per day ex VAT")
    <RatePer.DAY: 'day'>
    """
    plain = re.sub(r"[^\w³]+", " ", words.casefold())
    return next((per for per, pattern in _PER if pattern.search(plain)), None)
