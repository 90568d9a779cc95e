"""The files of a record, out of a PDF, a zip file or a file of lines."""

from __future__ import annotations

import io
import zipfile
from typing import TYPE_CHECKING

from pavewright.files._record_words import WORDS
from pavewright.record import RECORD

if TYPE_CHECKING:
    from collections.abc import Iterator

RECORD_BYTES_MAX = 400_000_000
"""Most that the files of a record may hold together. [bytes]"""
_FILES_MAX = 2_000
_PDF, _ZIP = b"%PDF-", b"PK\x03\x04"
_INNER = "record.pdf"


class RecordFileRefusedError(ValueError):
    """A file holds no record that can be read; says so in a sentence."""


def record_files(content: bytes) -> dict[str, bytes]:
    """Return the files of a record by name; in a zip file a PDF of the record is opened too.

    Args:
        content: The PDF, zip file or file of lines.

    Raises:
        RecordFileRefusedError: it holds no record, or more than is taken.
    """
    if len(content) > RECORD_BYTES_MAX:
        raise RecordFileRefusedError(WORDS.too_large)
    found = _files(content)
    if not found.get(RECORD):
        raise RecordFileRefusedError(WORDS.no_record)
    return found


def inner_pdf(files: dict[str, bytes]) -> dict[str, bytes]:
    """Return the files that are attached to the PDF among files; nothing where there is none.

    Raises:
        RecordFileRefusedError: it cannot be read.
    """
    return _attached(files[_INNER]) if _INNER in files else {}


def _files(content: bytes) -> dict[str, bytes]:
    if content.startswith(_PDF):
        return _attached(content)
    if content.startswith(_ZIP):
        return dict(_unpacked(content))
    return {RECORD: content}


def _attached(content: bytes) -> dict[str, bytes]:
    """Return what is attached to a PDF."""
    # loaded for this alone: other doors start quicker without it
    from pypdf import PdfReader  # noqa: PLC0415

    try:
        listed = PdfReader(io.BytesIO(content)).attachments
        return {name: each[0] for name, each in listed.items() if each}
    except Exception as problem:  # a hostile file may break the reader in any way
        raise RecordFileRefusedError(WORDS.broken_pdf) from problem


def _unpacked(content: bytes) -> Iterator[tuple[str, bytes]]:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            listed = [each for each in archive.infolist() if not each.is_dir()]
            names = {each.filename for each in listed}
            if len(listed) > _FILES_MAX or sum(each.file_size for each in listed) > RECORD_BYTES_MAX:
                raise RecordFileRefusedError(WORDS.too_large)
            if len(names) != len(listed):
                raise RecordFileRefusedError(WORDS.twice)
            for each in listed:
                yield each.filename, archive.read(each)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, OSError, EOFError, ValueError) as problem:
        if isinstance(problem, RecordFileRefusedError):
            raise
        raise RecordFileRefusedError(WORDS.broken_zip) from problem
