"""Where a figure or a published example was read, so that somebody else can look it up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Source:
    """One book, page, sheet or table.

    Attributes:
        key: Key by which figures, sums and cases name it; empty for words that a case file gives instead of a key.
        title: Title that a person can look up.
        remark: How it was read.
        body: Author or publisher.
        year: Year of the edition, as printed; empty where none is printed.
        find: Where to find it: book or document number, digital identifier or address.
        findable: Whether a stranger can look it up with what stands here.
    """

    key: str
    title: str
    remark: str = ""
    body: str = ""
    year: str = ""
    find: str = ""
    findable: bool = False

    @property
    def citation(self) -> str:
        """Say title, body, year and place to find it."""
        by = ", ".join(part for part in (self.body, self.year) if part)
        return " – ".join(part for part in (self.title, by, self.find) if part)


_WORDS = ("title", "remark", "body", "year", "find")


def read_source(key: str, entry: Mapping[str, Any]) -> Source:
    """Return a source from its table in a file.

    Raises:
        ValueError: the table lacks its title, holds an entry that no source has, or calls itself findable without
            author or publisher and without a place to find it.
    """
    stray = sorted(set(entry) - {*_WORDS, "findable"})
    if stray:
        message = f"source {key} has no entry {', '.join(stray)}; it takes {', '.join((*_WORDS, 'findable'))}"
        raise ValueError(message)
    words = {name: entry.get(name, "") for name in _WORDS}
    findable = entry.get("findable", False)
    if not isinstance(findable, bool) or not all(isinstance(word, str) for word in words.values()):
        message = f"source {key}: findable is true or false, every other entry is in quotation marks"
        raise ValueError(message)
    if not words["title"]:
        message = f"source {key} has no title"
        raise ValueError(message)
    if findable and not (words["body"] and words["find"]):
        message = f"source {key} is called findable: give its body (author or publisher) and where to find it (find)"
        raise ValueError(message)
    return Source(key, findable=findable, **words)
