"""Search: sums and words of the trade found by what people call them, misspelt or not."""

from __future__ import annotations

import difflib
import math
import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from pavewright import catalogue

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.sums import Sum

_ALSO, _IN_NAME, _IN_TITLE, _IN_INPUTS, _BY_SAME, _BY_SPELLING = 12.0, 8.0, 6.0, 3.0, 0.7, 0.5
"""What a word counts by where it stands; the last two make a word count less that means the same or looks alike."""
_ALIKE = 0.78
"""So alike two words have to be, from 0 to 1, that one may be the other misspelt."""
_SHORTEST_ALIKE = 4
_WORDS_MAX = 12


@dataclass(frozen=True, slots=True)
class _Entry:
    """Something that can be found: where its words stand, and how much a word counts there."""

    key: str
    counts: Mapping[str, float]


def find_sums(words: str) -> tuple[str, ...]:
    """Return the names of the sums that have to do with all words, or with their likes, the best first.

    >>> find_sums("soakway")[0].startswith("soakaway")
    True
    >>> find_sums("slope")[0], find_sums("3-4-5")[0]
    ('fall', 'three-four-five')
    """
    return _found(_sums(), words)


def find_terms(words: str) -> tuple[tuple[str, str], ...]:
    """Return the words of the trade that fit, each with what it means here, the best first."""
    terms = _terms()
    return tuple((key, terms[key]) for key in _found(_term_entries(), words))


def search(words: str) -> dict[str, Any]:
    """Return what a search shows beside jobs: sums with their titles, and words of the trade."""
    titles = {entry.name: entry.title for entry in catalogue.SUMS}
    return {
        "sums": [{"name": name, "title": titles[name]} for name in find_sums(words)],
        "words": [{"word": word, "meaning": meaning} for word, meaning in find_terms(words)],
    }


def _found(entries: tuple[_Entry, ...], words: str) -> tuple[str, ...]:
    """Return the keys of the entries that every word fits, the best first."""
    asked = _asked(words)
    if not asked:
        return ()
    known = sorted({word for entry in entries for word in entry.counts})
    ways = [_ways(word, known) for word in asked]
    scores = [(sum(_best(entry, way) for way in ways), entry.key) for entry in entries if _fits(entry, ways)]
    scores = [(math.inf if _plain(key) == _plain(words) else score, key) for score, key in scores]  # its own name
    return tuple(key for _, key in sorted(scores, key=lambda each: (-each[0], each[1])))


def _fits(entry: _Entry, ways: list[dict[str, float]]) -> bool:
    return all(_best(entry, way) > 0.0 for way in ways)


def _best(entry: _Entry, way: dict[str, float]) -> float:
    """Return how much the best of several words that may stand for one another counts in an entry."""
    return max((entry.counts.get(word, 0.0) * weight for word, weight in way.items()), default=0.0)


def _ways(word: str, known: list[str]) -> dict[str, float]:
    """Return the words that may be meant by a word, each with how surely: itself, its beginnings, likes, spellings."""
    found = {word: 1.0} | {other: 0.9 for other in known if other.startswith(word) and other != word}
    likes = _likes()
    if not found.keys() & set(known) and word not in likes and len(word) >= _SHORTEST_ALIKE:
        for other in difflib.get_close_matches(word, [*known, *likes], n=3, cutoff=_ALIKE):
            found.setdefault(other, _BY_SPELLING)
    for other, weight in tuple(found.items()):
        for like in likes.get(other, ()):
            found[like] = max(found.get(like, 0.0), _BY_SAME * weight)
    return found


def _asked(words: str) -> list[str]:
    """Return the words of a question, those of a phrase that is known kept together."""
    text = " ".join(_plain(_FALL.sub(" fall ", words)).split()[:_WORDS_MAX])
    for phrase in sorted((each for each in _likes() if "_" in each), key=len, reverse=True):
        text = f" {text} ".replace(f" {phrase.replace('_', ' ')} ", f" {phrase} ").strip()
    asked = [_root(word) for word in text.split()]
    telling = [word for word in asked if word not in _dull() and not word.isdecimal()]
    return telling or [word for word in asked if word not in _dull()]


_FALL = re.compile(r"\b\d+ ?(?:in|:|/) ?\d+\b|\d ?%")
"""A fall as people write it: 1 in 60, 1:60, 1/60, 2 %."""


def _plain(words: str) -> str:
    return "".join(sign if sign.isalnum() else " " for sign in words.casefold())


def _root(word: str) -> str:
    """Return a word without the ending of more than one."""
    return word[:-1] if len(word) > _SHORTEST_ALIKE and word.endswith("s") and not word.endswith("ss") else word


def _key(phrase: str) -> str:
    return "_".join(_root(word) for word in _plain(phrase).split())


@cache
def _trade_words() -> dict[str, Any]:
    return tomllib.loads((files("pavewright.desk") / "trade_words.toml").read_text("utf-8"))


@cache
def _dull() -> frozenset[str]:
    """Return the words that say nothing of what is looked for."""
    return frozenset(_trade_words()["dull"])


@cache
def _likes() -> dict[str, frozenset[str]]:
    """Return, for each word or phrase that has likes, what is said with them."""
    found: dict[str, set[str]] = {}
    for group in _trade_words()["same"]:
        keys = {_key(phrase) for phrase in group}
        for key in keys:
            found.setdefault(key, set()).update(each for each in keys if each != key)
    for phrases in _trade_words()["also"].values():
        for phrase in phrases:
            found.setdefault(_key(phrase), set())
    return {key: frozenset(likes) for key, likes in found.items()}


@cache
def _sums() -> tuple[_Entry, ...]:
    return tuple(_Entry(entry.name, _counts(_parts_of(entry))) for entry in catalogue.SUMS)


def _parts_of(entry: Sum) -> Iterable[tuple[str, float]]:
    for phrase in _trade_words()["also"].get(entry.name, ()):
        yield _key(phrase), _ALSO
    yield entry.name, _IN_NAME
    yield entry.title, _IN_TITLE
    for quantity in (*entry.inputs, *entry.outputs):
        yield f"{quantity.name} {quantity.meaning}", _IN_INPUTS


def _counts(parts: Iterable[tuple[str, float]]) -> dict[str, float]:
    """Return how much each word counts: where it counts most, and more where fewer words stand around it."""
    found: dict[str, float] = {}
    for text, count in parts:
        words = [_root(word) for word in _plain(text.replace("_", " ")).split()]
        flat = f"_{'_'.join(words)}_"
        for word in {*words, *(phrase for phrase in _likes() if "_" in phrase and f"_{phrase}_" in flat), _key(text)}:
            if word not in _dull():
                found[word] = max(found.get(word, 0.0), count / (1.0 + 0.1 * len(words)))
    return found


@cache
def _terms() -> dict[str, str]:
    found: dict[str, str] = tomllib.loads((files("pavewright.desk") / "terms.toml").read_text("utf-8"))["terms"]
    return found


@cache
def _term_entries() -> tuple[_Entry, ...]:
    return tuple(_Entry(word, _counts(((word, _IN_NAME), (meaning, _IN_INPUTS)))) for word, meaning in _terms().items())
