"""Words of the trade by region."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

_US = {
    "skips": "dumpsters",
    "skip": "dumpster",
    "yard gullies": "area drains",
    "yard gully": "area drain",
    "gullies": "area drains",
    "gully": "area drain",
    "soakaways": "dry wells",
    "soakaway": "dry well",
    "kerbs": "curbs",
    "kerb": "curb",
    "footways": "sidewalks",
    "footway": "sidewalk",
    "quotation": "bid",
    "snagging": "punch list",
    "sub-base": "aggregate base",
    "laying course": "setting bed",
}
"""What a word of the glossary is called in the United States: common practice, the trade's own words there."""
_TERMS = {"US": _US}


def terms_of(text: str, region: str, names: Iterable[str] = ()) -> str:
    """Return a text with the words of the trade that are called otherwise in a region; what has no other name stays.

    Args:
        text: The text.
        region: The region, two letters.
        names: What the user typed: it stays as it is.

    >>> terms_of("Gully and soakaway; kerb at the end.", "US")
    'Area drain and dry well; curb at the end.'
    >>> terms_of("Yard gully at Gully A.", "US", ["Gully A"])
    'Area drain at Gully A.'
    >>> terms_of("Gully and soakaway.", "GB")
    'Gully and soakaway.'
    """
    words = _TERMS.get(region)
    if words is None:
        return text
    kept = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True) if name)
    swapped = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    pattern = rf"(?<![\w-])(?:(?P<kept>{kept or '(?!)'})|(?i:{swapped}))(?![\w-])"
    return re.sub(pattern, lambda found: found[0] if found["kept"] else _like(found[0], words), text)


def terms() -> dict[str, dict[str, str]]:
    """Return what words of the glossary are called, by region."""
    return {region: dict(words) for region, words in _TERMS.items()}


def _like(word: str, words: dict[str, str]) -> str:
    other = words[word.casefold()]
    return other[0].upper() + other[1:] if word[0].isupper() else other
