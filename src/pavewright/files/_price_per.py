"""By what a price is charged: an hour, a day, a week, a load."""

from __future__ import annotations

import re

from pavewright.firm import ListPer

_PER: tuple[tuple[ListPer, re.Pattern[str]], ...] = (
    (ListPer.WEEK, re.compile(r"\b(weeks?|weekly|wk|pw)\b")),
    (ListPer.DAY, re.compile(r"\b(days?|daily|pd|24\s?h(ou)?rs?)\b")),
    (ListPer.HOUR, re.compile(r"\b(hours?|hourly|hr|hrs|h|ph)\b")),
    (ListPer.LOAD, re.compile(r"\b(loads?|skips?|lifts?|exchange|each|ea|lorry|grab|tip)\b")),
)


def per_in(words: str) -> ListPer | None:
    """Return by what a price is charged, as words say it; None where they do not.

    >>> per_in("Price per day ex VAT")
    <ListPer.DAY: 'day'>
    """
    plain = re.sub(r"[^\w³]+", " ", words.casefold())
    return next((per for per, pattern in _PER if pattern.search(plain)), None)
