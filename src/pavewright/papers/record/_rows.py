"""Entries as rows of a table: what, who, and with what it was read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.papers.record._words import ENTERED_WORDS, KIND_WORDS, PART_WORDS, WORDS, moment_text
from pavewright.record import READINGS, EntryKind, stated_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.record import Entry

_UNITS = {"mm": "mm", "m2": "m²", "m3": "m³", "kg": "kg", "deg": "°", "percent": "%", "s": "s", "min": "min"}
_FIRST = frozenset({"label", "name", "point", "number", "title"})
"""Fields by which people call a thing: they are shown before the others."""
_LONG = 420
_ID_SHORT = 12


@dataclass(frozen=True, slots=True)
class EntryRow:
    """An entry as it is shown.

    Attributes:
        number: Its number.
        at: When it was written, UTC, to the second.
        what: What it says, in words.
        who: Who wrote it or read it, as far as known.
        read_with: With what and how well it was read; empty where nothing is read.
        digest: Its hash.
    """

    number: int
    at: str
    what: str
    who: str
    read_with: str
    digest: str


def row_of(entry: Entry) -> EntryRow:
    """Return an entry as it is shown."""
    stated = stated_of(entry.facts)
    who = stated.read_by or entry.who[:_ID_SHORT]
    return EntryRow(entry.number, moment_text(entry.at), _what(entry), who, _read_with(entry), entry.digest)


def _what(entry: Entry) -> str:
    facts = entry.facts
    if entry.kind is EntryKind.ENTERED:
        return _cut(_entered(facts.get("op")))
    sentence = KIND_WORDS[entry.kind]
    said = {name: _value(facts.get(name, "")) for name in sentence.places}
    if entry.kind is EntryKind.BEGUN:
        photos = facts.get("photos")
        said["photos"] = str(len(photos)) if isinstance(photos, list) else "0"
    if entry.kind is EntryKind.STOOD:
        said["part"] = PART_WORDS.get(said["part"], said["part"])
    return _cut(sentence(**said))


def _entered(operation: Any) -> str:  # noqa: ANN401 - as it stands in the record
    if not isinstance(operation, dict) or not isinstance(operation.get("at"), list):
        return _value(operation)
    sentence = ENTERED_WORDS.get(str(operation.get("op")))
    place = _place(operation["at"])
    if sentence is None:
        return place
    field = str(operation["at"][-1]) if operation["at"] else ""
    to, was = (_measured(field, operation[name]) if name in operation else "–" for name in ("to", "was"))
    known = {"place": place, "item": _value(operation.get("item")), "change": WORDS.was(to=to, was=was)}
    return sentence(**{name: known[name] for name in sentence.places})


def _place(at: Sequence[Any]) -> str:
    """Return where in the job something stands: its part, then the names that lead there."""
    part = str(at[0])
    steps = [PART_WORDS.get(part, part)]
    for step in at[1:]:
        if isinstance(step, dict):
            steps.append(", ".join(_value(value) for name, value in step.items() if name != "nth"))
        else:
            steps.append(_named(str(step))[0])
    return ", ".join(steps)


def _named(field: str) -> tuple[str, str]:
    """Return the name of a field in words, and its unit."""
    head, _, last = field.rpartition("_")
    unit = _UNITS.get(last, "") if head else ""
    return (head if unit else field).replace("_", " "), unit


def _measured(field: str, value: Any) -> str:  # noqa: ANN401 - any JSON value
    unit = _named(field)[1]
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return f"{_value(value)} {unit}" if unit and is_number else _value(value)


def _value(value: Any) -> str:  # noqa: ANN401 - any JSON value
    if isinstance(value, dict):
        fields = sorted(value.items(), key=lambda field: field[0] not in _FIRST)
        return "; ".join(f"{_named(name)[0]} {_measured(name, each)}" for name, each in fields if each != "")
    if isinstance(value, list):
        return ", ".join(f"({_value(each)})" if isinstance(each, dict | list) else _value(each) for each in value)
    if value is None or isinstance(value, bool):
        return {None: "–", True: "yes", False: "no"}[value]
    return str(value).removesuffix(".0") if isinstance(value, float) else str(value)


def _cut(words: str) -> str:
    return words if len(words) <= _LONG else words[:_LONG] + WORDS.longer


def _read_with(entry: Entry) -> str:
    """Return with what and how well something was read; what nobody stated is said to be not stated."""
    facts: Mapping[str, Any] = entry.facts
    operation = facts.get("op")
    at = operation.get("at") if isinstance(operation, dict) else None
    is_reading = isinstance(at, list) and bool(at) and at[0] in READINGS
    if entry.kind is not EntryKind.ENTERED or not is_reading:
        return ""
    stated = stated_of(facts)
    spread = WORDS.not_uncertainty if stated.sd_mm is None else WORDS.uncertainty(sd=f"{stated.sd_mm:g}")
    day = (WORDS.on_day(day=stated.on),) if stated.on else ()
    return ", ".join((stated.instrument or WORDS.not_instrument, spread, *day))
