"""Words of the trade by region."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright.writing._beside import in_every_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

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
    swap = _swapper(region, frozenset(names))
    return text if swap is None else swap(text)


def terms_all(data: Any, region: str, names: Iterable[str] = ()) -> Any:  # noqa: ANN401 - plain data of a page
    """Return plain data with every text in it in the words of a region.

    Args:
        data: Texts in lists and mappings.
        region: The region, two letters.
        names: What the user typed: it stays as it is.
    """
    swap = _swapper(region, frozenset(names))
    return data if swap is None else in_every_text(data, swap)


def terms() -> dict[str, dict[str, str]]:
    """Return what words of the glossary are called, by region."""
    return {region: dict(words) for region, words in _TERMS.items()}


def _like(word: str, words: dict[str, str]) -> str:
    other = words[word.casefold()]
    return other[0].upper() + other[1:] if word[0].isupper() else other


@lru_cache(maxsize=16)
def _swapper(region: str, names: frozenset[str]) -> Callable[[str], str] | None:
    """Return what puts a text into the words of a region; none where that has none of its own."""
    words = _TERMS.get(region)
    if words is None:
        return None
    any_word = re.compile("|".join(map(re.escape, words)), re.IGNORECASE)
    touched = sorted((name for name in names if any_word.search(name)), key=len, reverse=True)
    kept = "|".join(map(re.escape, touched)) or "(?!)"
    swapped = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    pattern = re.compile(rf"(?<![\w-])(?:(?P<kept>{kept})|(?i:{swapped}))(?![\w-])")
    return lambda text: pattern.sub(lambda found: found[0] if found["kept"] else _like(found[0], words), text)
