"""Checking a record: whether every entry follows the one before it, and whether the seal fits them."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.record._entry import NotAnEntryError, follows, read_entry
from pavewright.record._lines import read_seal, seal_of

if TYPE_CHECKING:
    from pavewright.record._entry import Entry
    from pavewright.record._lines import Seal


class RecordFaultKind(StrEnum):
    """What is wrong with a record."""

    NOT_LINES = "not_lines"
    NO_SEAL = "no_seal"
    NOT_AN_ENTRY = "not_an_entry"
    OUT_OF_ORDER = "out_of_order"
    NOT_AFTER = "not_after"
    OTHER_COUNT = "other_count"
    OTHER_HEAD = "other_head"
    OTHER_ROOT = "other_root"
    HEAD_NOT_IN_IT = "head_not_in_it"
    FILE_DIFFERS = "file_differs"
    FILE_UNKNOWN = "file_unknown"
    LIST_DIFFERS = "list_differs"
    TOKEN_UNREADABLE = "token_unreadable"  # noqa: S105 - a kind of fault
    TOKEN_OF_ANOTHER = "token_of_another"  # noqa: S105 - a kind of fault


@dataclass(frozen=True, slots=True)
class RecordFault:
    """One thing that is wrong with a record.

    Attributes:
        kind: What it is.
        number: Line or entry; 0 where it is about the whole.
        name: Name of the file; empty where it is about none.
    """

    kind: RecordFaultKind
    number: int = 0
    name: str = ""


@dataclass(frozen=True, slots=True)
class CheckedRecord:
    """A record, as far as it can be read, and what is wrong with it.

    Attributes:
        entries: Its entries.
        seal: Its last line; None where it has none.
        faults: What is wrong with it; empty where nothing is.
        clock_back: Entries whose time lies before that of the entry before: a clock was set back.
    """

    entries: tuple[Entry, ...]
    seal: Seal | None
    faults: tuple[RecordFault, ...]
    clock_back: tuple[int, ...]


def check_record(content: bytes) -> CheckedRecord:
    """Return the record in a file of lines, with what is wrong with it.

    Args:
        content: The file, as it was written.
    """
    try:
        *lines, end = content.decode("ascii").split("\n")
    except UnicodeDecodeError:
        return CheckedRecord((), None, (RecordFault(RecordFaultKind.NOT_LINES),), ())
    faults = [] if not end else [RecordFault(RecordFaultKind.NOT_LINES)]
    seal = read_seal(lines[-1]) if lines else None
    if seal is None:
        faults.append(RecordFault(RecordFaultKind.NO_SEAL))
    else:
        del lines[-1]
    entries, within = _entries(lines)
    faults += within
    if seal is not None:
        faults += _against(seal, entries)
    back = (one.number for before, one in itertools.pairwise(entries) if one.at < before.at)
    return CheckedRecord(tuple(entries), seal, tuple(faults), tuple(back))


def _entries(lines: list[str]) -> tuple[list[Entry], list[RecordFault]]:
    entries: list[Entry] = []
    faults: list[RecordFault] = []
    last: Entry | None = None
    for number, line in enumerate(lines, start=1):
        try:
            entry = read_entry(line)
        except NotAnEntryError:
            faults.append(RecordFault(RecordFaultKind.NOT_AN_ENTRY, number))
            continue
        should, before = follows(last)
        if entry.number != should:
            faults.append(RecordFault(RecordFaultKind.OUT_OF_ORDER, number))
        if entry.before != before:
            faults.append(RecordFault(RecordFaultKind.NOT_AFTER, number))
        entries.append(entry)
        last = entry
    return entries, faults


def _against(seal: Seal, entries: list[Entry]) -> list[RecordFault]:
    """Return where the seal is that of another record."""
    found = seal_of(seal.job, entries)
    pairs = (
        (RecordFaultKind.OTHER_COUNT, seal.entries, found.entries),
        (RecordFaultKind.OTHER_HEAD, seal.head, found.head),
        (RecordFaultKind.OTHER_ROOT, seal.root, found.root),
    )
    return [RecordFault(kind) for kind, said, ours in pairs if said != ours]


def entry_of_head(entries: tuple[Entry, ...], head: str) -> int:
    """Return the number of the entry whose hash this is; 0 where it is none of them."""
    return next((each.number for each in entries if each.digest == head.strip().lower()), 0)
