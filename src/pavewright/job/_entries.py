"""Entries of a document by the names that a person knows: which field of which wall, tape or row."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job._field_words import field_words

if TYPE_CHECKING:
    from collections.abc import Sequence


def path_within(document: Any, path: Sequence[str | int]) -> tuple[str | int, ...]:  # noqa: ANN401 - any JSON value
    """Return the part of a path that leads through the document; what follows it names a kind of value, not a place.

    >>> path_within({"walls": [{"dpc": "x"}]}, ("walls", 0, "dpc", "float"))
    ('walls', 0, 'dpc')
    """
    found: list[str | int] = []
    here = document
    for step in path:
        if isinstance(here, dict) and isinstance(step, str):
            here = here.get(step)
        elif isinstance(here, list) and isinstance(step, int):
            here = here[step] if 0 <= step < len(here) else None
        else:
            break
        found.append(step)
    return tuple(found)


def entry_words(document: Any, path: Sequence[str | int]) -> str:  # noqa: ANN401 - any JSON value
    """Return a field in words with the entry that it belongs to, as a sentence begins.

    >>> entry_words({"units": [{"name": "Slab", "kg_each": 0}]}, ("units", 0, "kg_each"))
    'Weight of Slab'
    >>> entry_words({"calendar": {"weekdays": [7]}}, ("calendar", "weekdays", 0))
    'Weekdays, entry 1,'
    """
    if not path:
        return "The document"
    fields = [step for step in path if isinstance(step, str)]
    last = path[-1]
    inside = field_words(fields[-1]) if fields else "the list"
    words = f"{inside}, entry {last + 1}," if isinstance(last, int) else field_words(last)
    owners = _owners(document, path[:-1], but=str(last))
    words = words[:1].upper() + words[1:]
    return f"{words} of {', '.join(owners)}" if owners else words


def _owners(document: Any, path: Sequence[str | int], but: str) -> list[str]:  # noqa: ANN401 - any JSON value
    """Return the names of the entries that a path leads through, the innermost first, up to one that has a name."""
    here, inside, found = document, "", list[tuple[str, bool]]()
    for step in path:
        here = here[step]
        if isinstance(step, int):
            label, named = _label(here, but)
            found.append((label or f"{field_words(inside)}, entry {step + 1}", named))
        else:
            inside = step
    reported: list[str] = []
    for label, named in reversed(found):
        reported.append(label)
        if named:
            break
    return reported


def _label(entry: Any, but: str) -> tuple[str, bool]:  # noqa: ANN401 - any JSON value
    """Return what an entry is called, and whether that is a name of its own."""
    if not isinstance(entry, dict):
        return "", False
    if isinstance(entry.get("name"), str) and entry["name"] and but != "name":
        return entry["name"], True
    if isinstance(entry.get("start"), str) and isinstance(entry.get("end"), str):
        return f"{entry['start']}–{entry['end']}", False
    for field in ("point", "corner", "key", "question", "label", "at"):
        if isinstance(entry.get(field), str) and entry[field] and but != field:
            return entry[field], False
    return "", False
