"""The book of the firm beside what is asked of a worker."""

from __future__ import annotations

_MARK = b"\0firm "


def beside_book(book: bytes, payload: bytes) -> bytes:
    """Return what is asked with the book of the firm before it; as it is where there is no book."""
    return _MARK + str(len(book)).encode() + b"\n" + book + payload if book else payload


def apart(payload: bytes) -> tuple[bytes, bytes]:
    """Return the book that stands before what is asked, empty where there is none, and what is asked."""
    if not payload.startswith(_MARK):
        return b"", payload
    head, _, rest = payload.partition(b"\n")
    length = int(head.removeprefix(_MARK))
    return rest[:length], rest[length:]
