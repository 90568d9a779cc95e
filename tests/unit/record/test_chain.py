"""Chains, trees and lines: what follows what, and what is no entry."""

from __future__ import annotations

import hashlib
import json

import pytest

from pavewright.record import (
    START,
    EntryKind,
    NotAnEntryError,
    RecordFaultKind,
    canonical,
    chain,
    check_record,
    entry_of_head,
    follows,
    make_entry,
    read_entry,
    read_seal,
    record_lines,
    seal_of,
    tree_root,
)


def entries_of(count, words="read"):
    made, last = [], None
    for step in range(count):
        number, before = follows(last)
        facts = {"words": f"{words} {step}", "level_mm": 100.5 + step}
        last = make_entry(number, before, f"2027-05-04T08:{step:02d}:00.000+00:00", EntryKind.ENTERED, facts, "é")
        made.append(last)
    return made


def test_a_link_covers_the_32_bytes_before_and_the_line():
    first, second = chain(("one", "two"))
    assert first == hashlib.sha256(bytes(32) + b"one").hexdigest()
    assert second == hashlib.sha256(bytes.fromhex(first) + b"two").hexdigest()


def _root_as_written(leaves):
    """The definition of RFC 6962 word by word: split at the largest power of two below."""
    if not leaves:
        return hashlib.sha256(b"").digest()
    if len(leaves) == 1:
        return hashlib.sha256(b"\x00" + leaves[0]).digest()
    split = 1
    while split * 2 < len(leaves):
        split *= 2
    return hashlib.sha256(b"\x01" + _root_as_written(leaves[:split]) + _root_as_written(leaves[split:])).digest()


def test_the_root_is_that_of_the_definition_for_every_count():
    for count in range(70):
        leaves = [bytes([step]) * step for step in range(count)]
        assert tree_root(leaves) == _root_as_written(leaves).hex()


def test_a_record_that_nobody_touched_has_no_fault():
    for count in (0, 1, 2, 7):
        entries = entries_of(count)
        content = record_lines("a" * 16, entries)
        checked = check_record(content)
        assert checked.faults == ()
        assert checked.entries == tuple(entries)
        assert checked.seal == seal_of("a" * 16, entries)
        assert content.isascii() and content.endswith(b"}\n")


def test_an_empty_record_has_a_head_of_zeros():
    assert seal_of("j", []).head == START


def test_a_line_is_written_in_one_way_only():
    line = entries_of(1)[0].line
    assert read_entry(line).line == line
    fields = json.loads(line)
    for other in (
        line.replace(",", ", ", 1),
        line.replace("\\u00e9", "é"),
        json.dumps(fields | {"more": 1}, sort_keys=True, separators=(",", ":")),
        canonical(fields | {"kind": "gossip"}),
        canonical(fields | {"number": True}),
        canonical(fields | {"before": "0" * 63}),
        canonical(fields | {"facts": []}),
        line.replace('"number":1', '"number":1,"number":1'),
        "[" * 100_000,
        "",
        "null",
    ):
        with pytest.raises(NotAnEntryError):
            read_entry(other)


def test_what_json_cannot_hold_makes_no_entry():
    with pytest.raises(ValueError, match="JSON"):
        make_entry(1, START, "2027", EntryKind.ENTERED, {"level_mm": float("nan")})


def test_a_seal_is_known_from_an_entry():
    assert read_seal(entries_of(1)[0].line) is None
    assert read_seal('{"entries":1}') is None
    assert read_seal("[") is None


def test_a_clock_that_was_set_back_is_told_and_is_no_fault():
    first = make_entry(1, START, "2027-05-04T09:00:00.000+00:00", EntryKind.BEGUN, {})
    second = make_entry(*follows(first), "2027-05-04T08:00:00.000+00:00", EntryKind.ENTERED, {})
    checked = check_record(record_lines("j", [first, second]))
    assert (checked.faults, checked.clock_back) == ((), (2,))


def test_a_head_that_was_given_out_is_found_among_the_entries():
    entries = tuple(entries_of(5))
    assert entry_of_head(entries, entries[2].digest.upper() + "\n") == 3
    assert entry_of_head(entries, "f" * 64) == 0


@pytest.mark.parametrize("content", [b"", b"\n", b"\xff\xfe", b"{}", b"a\nb\nc"])
def test_what_is_no_record_is_told(content):
    kinds = {fault.kind for fault in check_record(content).faults}
    assert kinds & {RecordFaultKind.NO_SEAL, RecordFaultKind.NOT_LINES}
