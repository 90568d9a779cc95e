"""A text as it is shown where the job is: in the words of the country, with its measures and its marks."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright.writing._beside import beside, in_every_text
from pavewright.writing._country import words_of
from pavewright.writing._manner import kept_now, now
from pavewright.writing._numbers import with_marks
from pavewright.writing._terms import terms_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.writing._manner import Writing


def worded(text: str) -> str:
    """Return a text in the words of the country, imperial measures beside where they are usual; once or twice alike."""
    writing, kept = now(), kept_now()
    return _between(text, kept, writing, lambda part: _worded(part, writing))


def marked(text: str) -> str:
    """Return a text whose numbers have the marks of the region: the last step, once only."""
    writing, kept = now(), kept_now()
    return _between(text, kept, writing, lambda part: with_marks(part, writing.region))


def told(text: str) -> str:
    """Return a text as it is shown where the job is: its words, its measures, its marks; once only.

    >>> from pavewright.writing import Writing, written_as
    >>> with written_as(Writing.of("usa", "USD"), frozenset({"Gully 1.5"})):
    ...     told("Gully 1.5 is a gully; 1\u202f500 mm of kerb.")
    'Gully 1.5 is an area drain; 1,500 mm (4 ft 11 in) of curb.'
    >>> with written_as(Writing("DE")):
    ...     told("9.982 m of kerb at €1\u202f234.50")
    '9,982 m of kerb at €1.234,50'
    """
    writing, kept = now(), kept_now()
    return _between(text, kept, writing, lambda part: with_marks(_worded(part, writing), writing.region))


def told_all(data: Any) -> Any:  # noqa: ANN401 - plain data of a page
    """Return plain data with every text in it as it is shown where the job is; keys of the page stay."""
    return in_every_text(data, told)


def _worded(text: str, writing: Writing) -> str:
    found = _article(terms_of(text, writing.region), writing)
    return beside(found) if writing.imperial else found


_ARTICLE = re.compile(r"\b([Aa])(n?) (\w+)")
_VOWELS = frozenset("aeiouAEIOU")


def _article(text: str, writing: Writing) -> str:
    """Return a text in which the article fits a word that was put in place of another."""
    begins = _begin(writing.region)
    if not begins:
        return text

    def fit(found: re.Match[str]) -> str:
        if found[3].casefold() not in begins:
            return found[0]
        return f"{found[1]}{'n' if found[3][0] in _VOWELS else ''} {found[3]}"

    return _ARTICLE.sub(fit, text)


@lru_cache(maxsize=16)
def _begin(region: str) -> frozenset[str]:
    """Return the first words of what things are called in a region."""
    return frozenset(each.split()[0] for each in words_of(region).values())


def _between(text: str, kept: frozenset[str], writing: Writing, change: Callable[[str], str]) -> str:
    """Return a text changed between what was typed, which stays."""
    pattern = _kept_pattern(kept, writing)
    if pattern is None:
        return change(text)
    parts = pattern.split(text)
    return "".join(part if place % 2 else change(part) for place, part in enumerate(parts))


_TOUCHED = re.compile(r"\d")
_LETTER = re.compile(r"[^\W\d_]")


@lru_cache(maxsize=32)
def _kept_pattern(kept: frozenset[str], writing: Writing) -> re.Pattern[str] | None:
    """Return what finds words that stay: those with a letter that some change would touch."""
    names = [
        name
        for name in kept
        if _LETTER.search(name) and (_TOUCHED.search(name) or terms_of(name, writing.region) != name)
    ]
    if not names:
        return None
    either = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(rf"(?<!\w)({either})(?!\w)")
