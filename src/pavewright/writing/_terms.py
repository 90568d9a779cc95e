"""Words of the trade by region."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from pavewright.writing._country import COUNTRY_WORDS, words_of

if TYPE_CHECKING:
    from collections.abc import Callable


def terms_of(text: str, region: str) -> str:
    """Return a text with the words of the trade that are called otherwise in a region; what has no other name stays.

    Args:
        text: The text.
        region: The region, two letters.

    >>> terms_of("Gully and soakaway; kerb at the end.", "US")
    'Area drain and dry well; curb at the end.'
    >>> terms_of("Gully and soakaway.", "GB")
    'Gully and soakaway.'
    """
    swap = _swapper(region)
    return text if swap is None else swap(text)


def terms() -> dict[str, dict[str, str]]:
    """Return what words of the glossary are called, by region."""
    return {region: words_of(region) for region in COUNTRY_WORDS}


def _like(word: str, words: dict[str, str]) -> str:
    other = words[word.casefold()]
    return other[0].upper() + other[1:] if word[0].isupper() else other


_ALREADY = {"slab": r"concrete ", "slabs": r"concrete "}
"""Before these a word means something else: a slab of concrete is one in every country."""


@lru_cache(maxsize=16)
def _swapper(region: str) -> Callable[[str], str] | None:
    """Return what puts a text into the words of a region; none where that has none of its own."""
    words = words_of(region)
    if not words:
        return None
    each = (
        (f"(?<!{_ALREADY[word]})" if word in _ALREADY else "") + re.escape(word)
        for word in sorted(words, key=len, reverse=True)
    )
    pattern = re.compile(rf"(?<![\w-])(?:{'|'.join(each)})(?![\w-])", re.IGNORECASE)
    return lambda text: pattern.sub(lambda found: _like(found[0], words), text)
