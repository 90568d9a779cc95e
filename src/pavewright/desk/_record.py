"""The record of a job: told for a screen, handed out as one PDF or a zip file, and checked."""

from __future__ import annotations

import io
import json
import zipfile
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from pavewright.files import inner_pdf, record_files
from pavewright.job import up_to_date
from pavewright.papers.record import (
    WORDS,
    RecordTitle,
    fault_words,
    head_text,
    moment_text,
    record_paper,
    row_of,
    stamp_words,
)
from pavewright.record import (
    RECORD,
    RecordFault,
    RecordFaultKind,
    check_files,
    check_record,
    entry_of_head,
    files_beside,
    photos_of,
    stamp_beside,
    stamps_of,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.record import CheckedFiles, CheckedRecord, RecordedPhoto

_DAY = (2000, 1, 1, 0, 0, 0)
"""The day that files of an archive bear: the same record gives the same bytes."""
_ROWS_MAX = 400
_IDENTITY = ("job", "title", "client", "address", "contractor", "revision")


def title_of(document: str | None) -> RecordTitle:
    """Return what stands at the head of the record of a job, as far as its document can be read."""
    try:
        fields = up_to_date(json.loads(document or "{}"))
    except (ValueError, RecursionError, AttributeError, TypeError, KeyError):
        fields = {}
    identity = fields.get("identity")
    given = identity if isinstance(identity, dict) else {}
    words = {
        name: str(given.get(name) or "") for name in ("job", "title", "client", "address", "contractor", "revision")
    }
    return RecordTitle(**words, invented=given.get("invented") is True)


def record_pdf(content: bytes, title: RecordTitle) -> bytes:
    """Return a record as one PDF with its data attached.

    Args:
        content: The record as a file of lines.
        title: What stands at its head.
    """
    return record_paper(content, title)


def record_zip(content: bytes, pdf: bytes, image: Callable[[str], bytes | None]) -> bytes:
    """Return a record as a zip file: its PDF, its data, and the photos as they are kept.

    Args:
        content: The record as a file of lines.
        pdf: The same as a PDF.
        image: Gives a photo by its name; None where it is not there.
    """
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:

        def put(name: str, what: bytes) -> None:
            archive.writestr(zipfile.ZipInfo(name, _DAY), what)

        put("record.pdf", pdf)
        for name, what in files_beside(content).items():
            put(name, what)
        for photo in _kept(content):
            found = image(photo.id)
            if found is not None:
                put(photo.file_name, found)
    return made.getvalue()


def _kept(content: bytes) -> Iterator[RecordedPhoto]:
    return (each for each in photos_of(check_record(content).entries) if not each.deleted)


def record_told(content: bytes) -> dict[str, Any]:
    """Return a record as a screen shows it: its last hash, what is wrong with it, and its last entries first."""
    checked = check_record(content)
    entries = checked.entries
    photos = photos_of(entries)
    return {
        "entries": len(entries),
        "head": checked.seal.head if checked.seal else "",
        "head_text": head_text(checked.seal.head) if checked.seal else "",
        "root": checked.seal.root if checked.seal else "",
        "first": moment_text(entries[0].at) if entries else "",
        "last": moment_text(entries[-1].at) if entries else "",
        "faults": _told_faults(checked.faults),
        "clock_back": list(checked.clock_back),
        "begun_late": _begun_late(checked),
        "rows": [asdict(row_of(each)) for each in reversed(entries[-_ROWS_MAX:])],
        "photos": len(photos),
        "photos_deleted": sum(each.deleted > 0 for each in photos),
        "stamps": [stamp_words(each) for each in stamps_of(entries)],
        "shows": list(WORDS.shows),
        "shows_not": list(WORDS.shows_not),
    }


def _begun_late(checked: CheckedRecord) -> int:
    """Return the revision with which a record began; 0 where it began with the job."""
    rev = checked.entries[0].facts.get("rev") if checked.entries else None
    return rev if isinstance(rev, int) and rev > 1 else 0


def _told_faults(faults: tuple[RecordFault, ...]) -> list[str]:
    return list(dict.fromkeys(fault_words(each) for each in faults))


@dataclass(frozen=True, slots=True)
class VerifiedRecord:
    """What was found in the files of a record.

    Attributes:
        found: The record, the files beside it, and what is wrong with them.
        faults: The same in words, and those of the hash that was given out.
        of_entry: Number of the entry whose hash was given out; 0 where none was, or it is that of none.
        stamps: What each token of time shows, in words.
    """

    found: CheckedFiles
    faults: tuple[str, ...]
    of_entry: int
    stamps: tuple[str, ...]


def verify_record(content: bytes, head: str = "", token: bytes | None = None) -> VerifiedRecord:
    """Return what is found in a record that was handed out as a PDF, a zip file or a file of lines.

    Args:
        content: The file.
        head: A hash that was given out earlier; empty where none was.
        token: A token of time that was kept beside the record; None for none.

    Raises:
        RecordFileRefusedError: it holds no record that can be read.
        TokenRefusedError: the token cannot be read.
    """
    files = record_files(content)
    found = check_files(files)
    faults = list(found.faults)
    entries = found.record.entries
    if inner_pdf(files).get(RECORD, files[RECORD]) != files[RECORD]:
        faults.append(RecordFault(RecordFaultKind.FILE_DIFFERS, name="record.pdf"))
    of_entry = entry_of_head(entries, head) if head else 0
    if head and not of_entry:
        faults.append(RecordFault(RecordFaultKind.HEAD_NOT_IN_IT))
    stamps = [stamp_words(each) for each in found.stamps]
    if token is not None:
        beside = stamp_beside(token, entries)
        stamps.append(stamp_words(beside))
        if not beside.of_entry:
            faults.append(RecordFault(RecordFaultKind.TOKEN_OF_ANOTHER))
    return VerifiedRecord(found, tuple(_told_faults(tuple(faults))), of_entry, tuple(stamps))
