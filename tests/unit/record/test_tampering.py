"""Ten thousand changes of one entry each: deleted, swapped, edited, re-dated, put in between. Every one is found."""

from __future__ import annotations

import json
import random

import pytest

from pavewright.record import (
    START,
    EntryKind,
    canonical,
    check_record,
    entry_of_head,
    follows,
    make_entry,
    record_lines,
    seal_of,
)

CHANGES = 10_000
KINDS = ("delete", "swap", "edit", "re-date", "insert", "repeat", "one sign", "other seal")


def _record(chance, count):
    made, last = [], None
    for step in range(count):
        number, before = follows(last)
        at = f"2027-05-{1 + step // 20:02d}T08:{step % 60:02d}:{chance.randrange(60):02d}.000+00:00"
        facts = {"at": ["as_laid", "readings"], "item": {"label": f"L{step}", "level_mm": chance.randrange(9000) / 10}}
        last = make_entry(number, before, at, EntryKind.ENTERED, facts, chance.choice(("", "phone", "office")))
        made.append(last)
    return made


def _edited(chance, line, part):
    """Return a line with another reading or another time, written as an entry is."""
    fields = json.loads(line)
    if part == "edit":
        fields["facts"]["item"]["level_mm"] += chance.choice((-3.0, -0.1, 0.1, 5.0))
    else:
        fields["at"] = fields["at"].replace("2027-05", "2027-04")
    return canonical(fields)


def _changed(chance, lines, kind):
    """Return the lines of a record, the seal among them, with one change."""
    lines = list(lines)
    here = chance.randrange(len(lines) - 1)
    if kind == "delete":
        del lines[here]
    elif kind == "swap":
        other = chance.choice([each for each in range(len(lines) - 1) if each != here])
        lines[here], lines[other] = lines[other], lines[here]
    elif kind in {"edit", "re-date"}:
        lines[here] = _edited(chance, lines[here], kind)
    elif kind == "insert":
        fields = json.loads(lines[here])
        fields["facts"]["item"]["label"] = "X"
        lines.insert(here, canonical(fields))
    elif kind == "repeat":
        lines.insert(here, lines[here])
    elif kind == "one sign":
        line = lines[here]
        place = chance.randrange(len(line))
        lines[here] = (
            line[:place] + chance.choice([each for each in '0a1",}' if each != line[place]]) + line[place + 1 :]
        )
    else:
        seal = json.loads(lines[-1])
        name = chance.choice(("head", "root", "entries"))
        seal[name] = seal[name] + 1 if name == "entries" else chance.choice((START, seal[name][::-1]))
        lines[-1] = canonical(seal)
    return lines


def _forged(chance, entries, kind):
    """Return the record of somebody who changes one entry and then works out every later hash and the seal anew."""
    lines = [each.line for each in entries]
    changed = _changed(chance, [*lines, canonical({})], kind)[:-1]
    made, last = [], None
    for line in changed:
        fields = json.loads(line)
        number, before = follows(last)
        last = make_entry(number, before, fields["at"], EntryKind(fields["kind"]), fields["facts"], fields["who"])
        made.append(last)
    return made


@pytest.mark.slow
def test_ten_thousand_single_changes_are_all_found():
    chance = random.Random(18)
    missed = []
    for number in range(CHANGES):
        entries = _record(chance, chance.randrange(2, 14))
        lines = record_lines("j" * 16, entries).decode().splitlines()
        kind = KINDS[number % len(KINDS)]
        changed = _changed(chance, lines, kind)
        assert changed != lines
        content = "".join(f"{line}\n" for line in changed).encode()
        if not check_record(content).faults:
            missed.append((kind, number))
    assert missed == []


def test_who_works_out_the_whole_chain_anew_is_found_by_a_hash_that_was_given_out():
    chance = random.Random(3161)
    for number in range(500):
        entries = _record(chance, chance.randrange(2, 14))
        given_out = seal_of("j", entries).head
        forged = _forged(chance, entries, ("delete", "swap", "edit", "re-date", "insert")[number % 5])
        content = record_lines("j", forged)
        assert check_record(content).faults == ()  # by itself nothing can show it: this is why a hash is given out
        assert entry_of_head(check_record(content).entries, given_out) == 0


def test_what_was_added_later_leaves_an_earlier_hash_in_the_chain():
    entries = _record(random.Random(1), 9)
    assert entry_of_head(tuple(entries), seal_of("j", entries[:4]).head) == 4
