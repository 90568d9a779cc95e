"""The files that go with a record: hashes of its photos, tokens of time, and how to check it all."""

from __future__ import annotations

import base64
import binascii
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.record._chain import sha256
from pavewright.record._check import RecordFault, RecordFaultKind, check_record
from pavewright.record._entry import EntryKind
from pavewright.record._instructions_words import instructions
from pavewright.record._token import TimeToken, TokenRefusedError, read_token

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.record._check import CheckedRecord
    from pavewright.record._entry import Entry

RECORD, PHOTO_LIST, INSTRUCTIONS = "record.jsonl", "photos.sha256", "instructions.txt"
PHOTO_FOLDER = "photos/"
_PHOTO = re.compile(r"[A-Za-z0-9_-]{1,64}")


@dataclass(frozen=True, slots=True)
class RecordedPhoto:
    """A photo of a record.

    Attributes:
        id: Its name.
        hash: SHA-256 of the file that was kept.
        note: What it shows, as written with it.
        entry: Number of the entry that records it.
        deleted: Number of the entry that records that it was deleted; 0 where it was not.
    """

    id: str
    hash: str
    note: str
    entry: int
    deleted: int

    @property
    def file_name(self) -> str:
        """Return the name of its file beside the record."""
        return f"{PHOTO_FOLDER}{self.id}.jpg"


@dataclass(frozen=True, slots=True)
class Stamp:
    """A token of time that stands in a record.

    Attributes:
        entry: Number of the entry that holds the token.
        of_entry: Number of the entry whose hash it stamps; 0 where that is none of the record.
        token: What it says; None where it cannot be read.
        content: The token as it was given.
        is_answer: Whether it stands in the answer of its authority, and not alone.
    """

    entry: int
    of_entry: int
    token: TimeToken | None
    content: bytes
    is_answer: bool

    @property
    def file_name(self) -> str:
        """Return the name of its file beside the record."""
        return f"timestamp-{self.entry}.{'tsr' if self.is_answer else 'tst'}"


def photos_of(entries: Sequence[Entry]) -> tuple[RecordedPhoto, ...]:
    """Return the photos of a record in the order of its entries, those that were deleted among them."""
    found: dict[str, RecordedPhoto] = {}
    for entry in entries:
        listed = entry.facts.get("photos") if entry.kind is EntryKind.BEGUN else None
        shown = [entry.facts] if entry.kind is EntryKind.PHOTO else listed if isinstance(listed, list) else []
        for each in shown:
            name, digest, note = (str(each.get(field, "")) for field in ("id", "sha256", "note"))
            if _PHOTO.fullmatch(name):
                found[f"{name}/{entry.number}"] = RecordedPhoto(name, digest, note, entry.number, 0)
        if entry.kind is EntryKind.PHOTO_DELETED:
            _delete(found, str(entry.facts.get("id", "")), entry.number)
    return tuple(found.values())


def _delete(found: dict[str, RecordedPhoto], name: str, number: int) -> None:
    for key, each in found.items():
        if each.id == name and not each.deleted:
            found[key] = RecordedPhoto(each.id, each.hash, each.note, each.entry, number)


def photo_list(entries: Sequence[Entry]) -> bytes:
    """Return the hashes of the photos that were not deleted, as `sha256sum --check` takes them."""
    lines = (f"{each.hash}  {each.file_name}\n" for each in photos_of(entries) if not each.deleted)
    return "".join(lines).encode("ascii")


def stamps_of(entries: Sequence[Entry]) -> tuple[Stamp, ...]:
    """Return the tokens of time that stand in a record."""
    return tuple(_stamp(entry, entries) for entry in entries if entry.kind is EntryKind.TIMESTAMP)


def _stamp(entry: Entry, entries: Sequence[Entry]) -> Stamp:
    try:
        content = base64.b64decode(str(entry.facts.get("token", "")), validate=True)
    except binascii.Error:
        return Stamp(entry.number, 0, None, b"", is_answer=False)
    try:
        token = read_token(content)
    except TokenRefusedError:
        return Stamp(entry.number, 0, None, content, is_answer=False)
    of_entry = next((each.number for each in entries[: entry.number - 1] if each.digest == token.imprint), 0)
    return Stamp(entry.number, of_entry, token, content, is_answer=token.is_answer)


def stamp_beside(content: bytes, entries: Sequence[Entry]) -> Stamp:
    """Return a token of time that was kept beside a record.

    Raises:
        TokenRefusedError: it cannot be read.
    """
    token = read_token(content)
    of_entry = next((each.number for each in entries if each.digest == token.imprint), 0)
    return Stamp(0, of_entry, token, content, is_answer=token.is_answer)


def files_beside(content: bytes) -> dict[str, bytes]:
    """Return the files that go with a record, the record itself first, by name."""
    entries = check_record(content).entries
    stamps = stamps_of(entries)
    commands = [(each.file_name, entries[each.of_entry - 1].digest, each.is_answer) for each in stamps if each.of_entry]
    found = {RECORD: content, PHOTO_LIST: photo_list(entries), INSTRUCTIONS: instructions(commands).encode("utf-8")}
    return found | {each.file_name: each.content for each in stamps}


@dataclass(frozen=True, slots=True)
class CheckedFiles:
    """A record and the files beside it, with everything that is wrong with them.

    Attributes:
        record: The record.
        faults: What is wrong with it or a file; empty where nothing is.
        photos_right: Photos whose files lie beside it and are those that were recorded.
        photos_absent: Photos whose files do not lie beside it: nothing is said of them.
        stamps: Tokens of time in it.
    """

    record: CheckedRecord
    faults: tuple[RecordFault, ...]
    photos_right: int
    photos_absent: int
    stamps: tuple[Stamp, ...]


def check_files(files: Mapping[str, bytes]) -> CheckedFiles:
    """Return a record with what is wrong with it or the files beside it.

    Args:
        files: The files by name, the record among them.
    """
    checked = check_record(files.get(RECORD, b""))
    stamps = stamps_of(checked.entries)
    photos = {each.file_name: each for each in photos_of(checked.entries) if not each.deleted}
    given = {name: content for name, content in files.items() if name.startswith(PHOTO_FOLDER)}
    faults = [*checked.faults, *_photo_faults(photos, given), *_stamp_faults(stamps, files)]
    if PHOTO_LIST in files and files[PHOTO_LIST] != photo_list(checked.entries):
        faults.append(RecordFault(RecordFaultKind.LIST_DIFFERS, name=PHOTO_LIST))
    right = sum(name in photos and sha256(content) == photos[name].hash for name, content in given.items())
    return CheckedFiles(checked, tuple(faults), right, len(photos.keys() - given.keys()), stamps)


def _photo_faults(photos: Mapping[str, RecordedPhoto], given: Mapping[str, bytes]) -> Iterator[RecordFault]:
    for name, content in given.items():
        if name not in photos:
            yield RecordFault(RecordFaultKind.FILE_UNKNOWN, name=name)
        elif sha256(content) != photos[name].hash:
            yield RecordFault(RecordFaultKind.FILE_DIFFERS, photos[name].entry, name)


def _stamp_faults(stamps: Sequence[Stamp], files: Mapping[str, bytes]) -> Iterator[RecordFault]:
    for each in stamps:
        if each.token is None:
            yield RecordFault(RecordFaultKind.TOKEN_UNREADABLE, each.entry)
        elif not each.of_entry:
            yield RecordFault(RecordFaultKind.TOKEN_OF_ANOTHER, each.entry)
        if files.get(each.file_name, each.content) != each.content:
            yield RecordFault(RecordFaultKind.FILE_DIFFERS, each.entry, each.file_name)
