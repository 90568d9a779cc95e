"""What screens ask of a record: bytes in, bytes out."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pavewright.desk._book_verbs import ScreenRefusalError
from pavewright.desk._record import record_pdf, record_told, title_of
from pavewright.papers import PapersTooLargeError

if TYPE_CHECKING:
    from collections.abc import Callable

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def _told(payload: bytes, _report: Report) -> bytes:
    """Answer a record with what a screen shows of it."""
    return json.dumps(record_told(payload), ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _pdf(payload: bytes, report: Report) -> bytes:
    """Answer the length of a job document, a line feed, the document and its record with the record as a PDF."""
    length, _, rest = payload.partition(b"\n")
    document, content = rest[: int(length)], rest[int(length) :]
    report("record")
    try:
        return record_pdf(content, title_of(document.decode("utf-8", "replace")))
    except PapersTooLargeError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal


RECORD_VERBS: dict[str, Verb] = {"record": _told, "record_pdf": _pdf}
"""What of a record a worker can be asked, by name."""
