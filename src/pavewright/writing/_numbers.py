"""The marks of a region in the numbers of a text: the last step before it is shown."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from pavewright.writing._country import HOUSE_REGIONS, marks_of

if TYPE_CHECKING:
    from collections.abc import Callable

_QUOTED = (
    r"(?:\b(?:table|clause|section|figure|equation|part|annex|chapter|edition|version|page|p\.)s? [\w.]*\d[\w.]*)"
    r"|(?:\b(?:BS|EN|ISO|AS|NZS|AS/NZS|ASTM|DIN|SR|IS) (?:EN )?[A-Z]?\d[\w.:/-]*)"
)
"""Places in a source and names of standards: they are written as they stand there."""
_NUMBER = (
    r"(?<![A-Za-z0-9_.,])(?P<whole>\d{1,3}(?:[\u202f,]\d{3})+|\d+)(?:\.(?P<part>\d+))?"
    r"(?P<power>e[+-]?\d+)?(?![A-Za-z0-9_]|[.,]\d)"
)
_FOUND = re.compile(f"(?:{_QUOTED})|{_NUMBER}", re.IGNORECASE)


def with_marks(text: str, region: str) -> str:
    """Return a text whose numbers have the marks of a region; it must be in the manner of this program before.

    >>> with_marks("9.982 m, 1\u202f234.50, 5.0 %, table 5.1", "DE")
    '9,982 m, 1.234,50, 5,0 %, table 5.1'
    >>> with_marks("1\u202f234.5 m²", "US")
    '1,234.5 m²'
    """
    if region in HOUSE_REGIONS:
        return text
    return _FOUND.sub(_change(region), text)


@lru_cache(maxsize=16)
def _change(region: str) -> Callable[[re.Match[str]], str]:
    group, point = marks_of(region)

    def change(found: re.Match[str]) -> str:
        if found["whole"] is None:
            return found[0]
        whole = found["whole"].replace("\u202f", group) if "\u202f" in found["whole"] else found["whole"]
        if "," in found["whole"]:
            whole = found["whole"].replace(",", group)
        return whole + (point + found["part"] if found["part"] else "") + (found["power"] or "")

    return change
