"""What the record of a job says, in English."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.record import EntryKind, RecordFaultKind
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.record import RecordFault, Stamp


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """The sentences of a record."""

    title: str = "Record"
    lead: Sentence = Sentence("{entries} entries, from {first} to {last}.")
    empty: str = "This record holds no entry."
    shows: tuple[str, ...] = (
        "What was written down, in which order, by the clock of the machine that kept it (times are UTC).",
        "Whether one entry was changed, deleted, swapped or re-dated since a hash was given out or stamped.",
        "With what each reading was taken and how well, as far as its reader stated it.",
    )
    shows_not: tuple[str, ...] = (
        "That what was written down is true, or who held the staff.",
        "That nothing else happened.",
        "Without a hash that was given out or stamped: that the whole record was not written anew later.",
    )
    give_out: str = "Hash of the last entry. Send it to the customer: from then on no entry up to it can change unseen"
    changed: Sentence = Sentence("This record was changed after it was written. {faults}")
    late: Sentence = Sentence(
        "The record begins with revision {rev}: what came before was not recorded as it happened."
    )
    clock_back: Sentence = Sentence(
        "Entries {entries} bear a time before that of the entry before: a clock was set back."
    )
    not_instrument: str = "instrument not stated"
    not_uncertainty: str = "uncertainty not stated"
    uncertainty: Sentence = Sentence("± {sd} mm")
    spread_means: str = "± is one standard deviation of one reading, as its reader stated it."
    on_day: Sentence = Sentence("on {day}")
    longer: str = " … (whole in the data)"
    was: Sentence = Sentence("{to} (was {was})")
    stamped: Sentence = Sentence("Entry {of_entry} existed by {at}, as authority number {serial} says; {accuracy}.")
    accuracy: Sentence = Sentence("its time may be off by {seconds} s")
    accuracy_unknown: str = "it does not say how far its time may be off"
    stamp_unread: Sentence = Sentence("The token in entry {entry} stamps no entry of this record, or cannot be read.")
    no_stamps: str = "No timestamp of an authority stands in this record."
    more_entries: Sentence = Sentence("{more} more entries stand in the attached record.jsonl.")
    photo_deleted: Sentence = Sentence("deleted, entry {entry}")
    steps: tuple[str, ...] = (
        "Save the attachments of this PDF into one folder: behind the paper clip, or by pdfdetach -saveall.",
        "Open instructions.txt. It holds commands for bash with sha256sum, and for Python 3. Run one of the two.",
        "It works out every hash anew from record.jsonl and says which entry does not fit.",
        "Compare the hash of the last entry with the first page; find the one that you were given among all.",
        "Where you have the photos: sha256sum --check photos.sha256 says whether each is the file that was recorded.",
        "Where there is a timestamp: openssl ts -verify says whether its signature holds.",
    )
    commands: str = (
        "The hash of an entry is the SHA-256 of 32 bytes and its line as it stands, without the end of the line. The "
        "32 bytes are the hash of the entry before; before the first entry stand 32 bytes of zero. This program "
        "checks the same with: pavewright verify-record record.pdf"
    )


WORDS = Words()
"""In English."""

ATTACHED: Mapping[str, str] = {
    "record.jsonl": "The record: one entry a line, and a last line that seals them",
    "photos.sha256": "Hashes of the photos",
    "instructions.txt": "How to check the record with common tools",
}

HEADS: Mapping[str, str] = {
    "shows": "What it shows",
    "shows_not": "What it does not show",
    "stamps": "Timestamps",
    "for_checking": "For who checks",
    "job": "Job in the store",
    "root": "Root of the tree (RFC 6962)",
    "entries": "Entries",
    "photos": "Photos",
    "checking": "How to check this record",
    "what": "What",
    "who": "Who",
    "read_with": "Read with",
    "begins": "Hash begins",
    "entry": "Entry",
    "photo": "Photo",
    "kept_hash": "SHA-256 of the file as kept",
}

KIND_WORDS: Mapping[EntryKind, Sentence] = {
    EntryKind.BEGUN: Sentence("The record begins. Revision {rev} of the job stands; photos: {photos}."),
    EntryKind.STOOD: Sentence("Stood in the job then, {part}: {value}"),
    EntryKind.REVISION: Sentence("Revision {rev} was kept: {note}"),
    EntryKind.DELIVERY: Sentence("Sent from site, kept in revision {rev}: {note}"),
    EntryKind.PHOTO: Sentence("Photo {id}: {note}"),
    EntryKind.PHOTO_DELETED: Sentence("Photo {id} was deleted; its hash stays."),
    EntryKind.QUOTATION_SHOWN: Sentence("The quotation was opened to the customer, until {expires}."),
    EntryKind.QUESTION: Sentence("The customer asked: {words}"),
    EntryKind.ANSWER: Sentence("The customer was answered: {words}"),
    EntryKind.ACCEPTED: Sentence("The customer accepted the quotation: {accepted}"),
    EntryKind.TIMESTAMP: Sentence("Timestamp of an authority on entry {entry}: {at}"),
    EntryKind.JOB_DELETED: Sentence("The job was deleted."),
    EntryKind.JOB_BROUGHT_BACK: Sentence("The job was brought back."),
    EntryKind.RESTORED: Sentence("A backup was brought back: the job is revision {rev} again."),
}
ENTERED_WORDS: Mapping[str, Sentence] = {
    "add": Sentence("{place}, added: {item}"),
    "remove": Sentence("{place}, deleted: {item}"),
    "move": Sentence("{place}: the order was changed"),
    "set": Sentence("{place}: {change}"),
}
PART_WORDS: Mapping[str, str] = {
    "measurements": "Measurements",
    "tools": "Tools at hand",
    "strings_set": "String as set",
    "set_ups": "Instrument set up",
    "hold_checks": "Hold point",
    "dig_found": "Dig as found",
    "units_read": "Unit as read",
    "bags_used": "Bags used",
    "photo_planes": "Photo with known points",
    "phone_slopes": "Slope by telephone",
    "as_laid": "As laid",
    "held_to": "Tolerances held to",
    "hose_tests": "Hose test",
    "drain_marks": "Drain as set",
    "snags": "Snag",
    "site_days": "Day on site",
    "handed_over": "Handover",
    "accepted": "Accepted",
    "variations": "Variation",
    "settled": "Sum settled",
    "bills": "Bill",
    "received": "Payment",
    "done": "Task done",
    "tolerance": "Tolerance",
}
FAULT_WORDS: Mapping[RecordFaultKind, Sentence] = {
    RecordFaultKind.NOT_LINES: Sentence("The file is not made of whole lines of a record.{where}"),
    RecordFaultKind.NO_SEAL: Sentence("The last line, which seals the record, is missing.{where}"),
    RecordFaultKind.NOT_AN_ENTRY: Sentence("A line is no entry as it was written.{where}"),
    RecordFaultKind.OUT_OF_ORDER: Sentence("An entry is out of order.{where}"),
    RecordFaultKind.NOT_AFTER: Sentence("An entry does not follow the one before it.{where}"),
    RecordFaultKind.OTHER_COUNT: Sentence("The last line counts other entries than there are.{where}"),
    RecordFaultKind.OTHER_HEAD: Sentence("The last line names another last hash.{where}"),
    RecordFaultKind.OTHER_ROOT: Sentence("The last line names another root of the tree.{where}"),
    RecordFaultKind.HEAD_NOT_IN_IT: Sentence("The hash that was given out is that of no entry of this record.{where}"),
    RecordFaultKind.FILE_DIFFERS: Sentence("A file is not the one that was recorded.{where}"),
    RecordFaultKind.FILE_UNKNOWN: Sentence("A file was never recorded, or was deleted.{where}"),
    RecordFaultKind.LIST_DIFFERS: Sentence("A list of hashes differs from the record.{where}"),
    RecordFaultKind.TOKEN_UNREADABLE: Sentence("A token of time cannot be read.{where}"),
    RecordFaultKind.TOKEN_OF_ANOTHER: Sentence("A token of time stamps no entry of this record.{where}"),
}
_LINE, _FILE = Sentence(" Line {number}."), Sentence(" File {name}.")


def fault_words(fault: RecordFault) -> str:
    """Return what is wrong, in a sentence."""
    line = _LINE(number=fault.number) if fault.number else ""
    return FAULT_WORDS[fault.kind](where=f"{line}{_FILE(name=fault.name) if fault.name else ''}")


def head_text(head: str) -> str:
    """Return a hash in groups that can be read out."""
    return " ".join(head[start : start + 8] for start in range(0, len(head), 8))


def moment_text(at: str) -> str:
    """Return a time of an entry to the second.

    >>> moment_text("2027-05-04T08:01:02.345+00:00")
    '2027-05-04 08:01:02'
    """
    return at[:19].replace("T", " ")


def stamp_words(stamp: Stamp) -> str:
    """Return what a token of time shows."""
    token = stamp.token
    if token is None or not stamp.of_entry:
        return WORDS.stamp_unread(entry=stamp.entry)
    known = token.accuracy_s
    accuracy = WORDS.accuracy_unknown if known is None else WORDS.accuracy(seconds=f"{known:g}")
    at = moment_text(token.at.isoformat())
    return WORDS.stamped(of_entry=stamp.of_entry, at=f"{at} UTC", serial=str(token.serial), accuracy=accuracy)
