"""Entries of a record, and the one way in which each is written as a line."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.record._chain import START, link

if TYPE_CHECKING:
    from collections.abc import Mapping

_HEX = re.compile(r"[0-9a-f]{64}")
_FIELDS = frozenset({"at", "before", "facts", "kind", "number", "who"})


class EntryKind(StrEnum):
    """What an entry says."""

    BEGUN = "begun"
    STOOD = "stood"
    REVISION = "revision"
    ENTERED = "entered"
    DELIVERY = "delivery"
    PHOTO = "photo"
    PHOTO_DELETED = "photo_deleted"
    QUOTATION_SHOWN = "quotation_shown"
    QUESTION = "question"
    ANSWER = "answer"
    ACCEPTED = "accepted"
    TIMESTAMP = "timestamp"
    JOB_DELETED = "job_deleted"
    JOB_BROUGHT_BACK = "job_brought_back"
    RESTORED = "restored"


class NotAnEntryError(ValueError):
    """A line is no entry, or not written in the one way in which an entry is written."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a record.

    Attributes:
        number: Its number, from 1.
        at: When it was written by the clock of the machine that kept it, UTC.
        kind: What it says.
        who: The page, telephone or person that sent it, as far as known; empty where nobody said.
        facts: What it says, as JSON.
        before: Hash of the entry before it; zeros for the first.
        line: The same as a line of text: this is what is hashed.
        digest: Hash of the entry: SHA-256 of the 32 bytes of `before` and the bytes of `line`.
    """

    number: int
    at: str
    kind: EntryKind
    who: str
    facts: Mapping[str, Any]
    before: str
    line: str
    digest: str


def canonical(value: Any) -> str:  # noqa: ANN401 - any JSON value
    r"""Return JSON in the one way in which a record writes it: names in order, no blanks, ASCII alone.

    >>> canonical({"b": 1.5, "a": "é"})
    '{"a":"\\u00e9","b":1.5}'
    """
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False)


def make_entry(number: int, before: str, at: str, kind: EntryKind, facts: Mapping[str, Any], who: str = "") -> Entry:
    """Return an entry that follows another one.

    Args:
        number: Its number, from 1.
        before: Hash of the entry before it; zeros for the first.
        at: When it is written, UTC.
        kind: What it says.
        facts: What it says, as JSON.
        who: Who sent it, as far as known.
    """
    fields = {"at": at, "before": before, "facts": facts, "kind": kind.value, "number": number, "who": who}
    line = canonical(fields)
    return Entry(number, at, kind, who, facts, before, line, link(before, line))


def read_entry(line: str) -> Entry:
    """Return the entry that a line holds.

    Raises:
        NotAnEntryError: it holds none, or is not written as one is.
    """
    try:
        value = json.loads(line)
        if not isinstance(value, dict) or value.keys() != _FIELDS or canonical(value) != line:
            raise NotAnEntryError
        kind = EntryKind(value["kind"])
    except (ValueError, RecursionError) as problem:
        raise NotAnEntryError from problem
    number, at, who, facts, before = (value[name] for name in ("number", "at", "who", "facts", "before"))
    sound = type(number) is int and isinstance(at, str) and isinstance(who, str) and isinstance(facts, dict)
    if not sound or not isinstance(before, str) or not _HEX.fullmatch(before):
        raise NotAnEntryError
    return Entry(number, at, kind, who, facts, before, line, link(before, line))


def follows(entry: Entry | None) -> tuple[int, str]:
    """Return number and hash with which an entry after this one begins; None for the first of all."""
    return (1, START) if entry is None else (entry.number + 1, entry.digest)
