"""What the commands of records say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.desk import VerifiedRecord


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """The sentences of these commands."""

    no_store: Sentence = Sentence("No jobs are kept in {file}.")
    stamp_unread: str = (
        "The timestamp cannot be read: give the answer of the authority (.tsr) or its token, as it came."
    )
    stamp_of_another: str = (
        "The timestamp is not that of an entry of this record: ask for one by the hash that is printed."
    )
    which: Sentence = Sentence(
        "{count} jobs are found by {words}: give more words of the title, or the name in its address."
    )
    removed: Sentence = Sentence(
        "This job was removed for good, {at} UTC. Its record had {entries} entries; hash of the last one: {head}"
    )
    stamped: Sentence = Sentence("The timestamp of entry {entry} stands in the record.")
    written: Sentence = Sentence("{file}: {entries} entries.")
    head: Sentence = Sentence("Hash of the last entry: {head}")
    changed: str = "Somebody changed this record by hand where it is kept: the file says where."
    holds: str = "The entries hang together."
    fails: Sentence = Sentence("FAILS: {words}")
    counted: Sentence = Sentence("{entries} entries, the last of {last} UTC. Hash of the last entry: {head}")
    photos: Sentence = Sentence(
        "Photos: {right} beside the record are those that were recorded; {absent} are not beside it."
    )
    given_out: Sentence = Sentence(
        "The hash that was given out is that of entry {entry}: nothing up to it was changed since."
    )
    not_given_out: str = "No hash that was given out was compared: a record written anew as a whole would not be found."
    clock: str = "Times of entries are those of the clock of the machine that kept the record."
    clock_back: Sentence = Sentence(
        "Entries {entries} bear a time before that of the entry before: a clock was set back."
    )
    openssl: str = "Whether the signature of a timestamp holds is not looked at here: openssl ts -verify does that."


WORDS = Words()
"""In English."""


def verified_lines(found: VerifiedRecord, *, asked_head: bool) -> Iterator[str]:
    """Give what was found in a record, in lines."""
    record = found.found.record
    yield from (WORDS.fails(words=each) for each in found.faults)
    if not found.faults:
        yield WORDS.holds
    if record.entries and record.seal is not None:
        last = record.entries[-1].at[:19].replace("T", " ")
        yield WORDS.counted(entries=len(record.entries), last=last, head=record.seal.head)
    if found.found.photos_right or found.found.photos_absent:
        yield WORDS.photos(right=found.found.photos_right, absent=found.found.photos_absent)
    if found.of_entry:
        yield WORDS.given_out(entry=found.of_entry)
    if not asked_head:
        yield WORDS.not_given_out
    yield WORDS.clock
    if record.clock_back:
        yield WORDS.clock_back(entries=", ".join(map(str, record.clock_back[:20])))
    yield from found.stamps
    if found.stamps:
        yield WORDS.openssl
