"""Record: what happened in a job, entry after entry, each bound to the one before by a hash.

Each entry is one line of text. Its hash covers the hash of the entry before it and the line; so nobody can change,
delete, swap or re-date an entry without every later hash being another one. Whoever was given one of these hashes can
tell later that nothing before it was changed. A record shows that something was written down by then; it does not show
that it is true. Nothing here needs a clock, a file or this program: the same can be checked with common tools.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.record._chain import START, chain, link, sha256, tree_root
    from pavewright.record._check import (
        CheckedRecord,
        RecordFault,
        RecordFaultKind,
        check_record,
        entry_of_head,
    )
    from pavewright.record._entry import (
        Entry,
        EntryKind,
        NotAnEntryError,
        canonical,
        follows,
        make_entry,
        read_entry,
    )
    from pavewright.record._evidence import EVIDENCE, NOT_EVIDENCE, READINGS, Stated, is_evidence, read_with, stated_of
    from pavewright.record._files import (
        INSTRUCTIONS,
        PHOTO_FOLDER,
        PHOTO_LIST,
        RECORD,
        CheckedFiles,
        RecordedPhoto,
        Stamp,
        check_files,
        files_beside,
        photos_of,
        stamp_beside,
        stamps_of,
    )
    from pavewright.record._lines import Seal, read_seal, record_lines, seal_of, sealed
    from pavewright.record._sums_record import SUMS
    from pavewright.record._token import TOKEN_BYTES_MAX, TimeToken, TokenRefusedError, earlier, read_token
else:
    __getattr__ = face(__name__)

__all__ = [
    "EVIDENCE",
    "INSTRUCTIONS",
    "NOT_EVIDENCE",
    "PHOTO_FOLDER",
    "PHOTO_LIST",
    "READINGS",
    "RECORD",
    "START",
    "SUMS",
    "TOKEN_BYTES_MAX",
    "CheckedFiles",
    "CheckedRecord",
    "Entry",
    "EntryKind",
    "NotAnEntryError",
    "RecordFault",
    "RecordFaultKind",
    "RecordedPhoto",
    "Seal",
    "Stamp",
    "Stated",
    "TimeToken",
    "TokenRefusedError",
    "canonical",
    "chain",
    "check_files",
    "check_record",
    "earlier",
    "entry_of_head",
    "files_beside",
    "follows",
    "is_evidence",
    "link",
    "make_entry",
    "photos_of",
    "read_entry",
    "read_seal",
    "read_token",
    "read_with",
    "record_lines",
    "seal_of",
    "sealed",
    "sha256",
    "stamp_beside",
    "stamps_of",
    "stated_of",
    "tree_root",
]
