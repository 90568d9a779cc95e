"""Which source a case names: a key of the register, of its own file, or words that cannot be looked up."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from pavewright.catalogue._faults import CaseFault
from pavewright.rules import Source, read_source

if TYPE_CHECKING:
    from collections.abc import Mapping


def sources_of(document: Mapping[str, Any], register: Mapping[str, Source]) -> Mapping[str, Source]:
    """Return the sources that the cases of a file may name: those of the register and of the file's own tables.

    Raises:
        CaseFault: a source of the file is not sound, or is described otherwise than in the register.
    """
    known = dict(register)
    for key, entry in document.get("sources", {}).items():
        try:
            source = read_source(key, entry)
        except ValueError as problem:
            raise CaseFault(str(problem)) from None
        if known.setdefault(key, source) != source:
            message = f"source {key} is described otherwise in the register: take another key"
            raise CaseFault(message)
    return MappingProxyType(known)


def source_named(words: str, known: Mapping[str, Source]) -> Source:
    """Return the source of a key; words that are no key make a source that nobody can look up."""
    return known.get(words, Source("", words, "not in the register of sources"))


def source_words(source: Source, place: str, status: str) -> str:
    """Say where a case was printed, and where it cannot be looked up."""
    where = ", ".join(part for part in (source.title, place) if part)
    if source.findable or source.key in _NEEDS_NO_PLACE:
        return f"{where} [{status}]"
    doubt = "cannot be looked up" if source.key else "not in the register of sources: cannot be looked up"
    return f"{where} ({doubt}) [{status}]"


_NEEDS_NO_PLACE = frozenset({"definition", "common_practice"})
"""What follows by arithmetic, or is known to the trade, has no page to look up."""
