"""The book of the firm, and photos of a job, beside what is asked of a worker."""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING

from pavewright.papers import PaperPhoto

if TYPE_CHECKING:
    from collections.abc import Iterable

_FIRM, _PHOTOS = b"\0firm ", b"\0photos "


def beside_book(book: bytes, payload: bytes) -> bytes:
    """Return what is asked with the book of the firm before it; as it is where there is no book."""
    return _before(_FIRM, book, payload) if book else payload


def apart(payload: bytes) -> tuple[bytes, bytes]:
    """Return the book that stands before what is asked, empty where there is none, and what is asked."""
    return _split(_FIRM, payload)


def beside_photos(photos: Iterable[PaperPhoto], payload: bytes) -> bytes:
    """Return what is asked with photos of the job before it, though there be none."""
    taken = tuple(photos)
    heads = [
        {
            "length": None if each.content is None else len(each.content),
            "caption": each.caption,
            "on": None if each.on is None else each.on.isoformat(),
            "place": [each.x_mm, each.y_mm],
        }
        for each in taken
    ]
    contents = b"".join(each.content or b"" for each in taken)
    return _before(_PHOTOS, json.dumps(heads).encode() + b"\n" + contents, payload)


def photos_apart(payload: bytes) -> tuple[tuple[PaperPhoto, ...], bytes]:
    """Return the photos that stand before what is asked, and what is asked."""
    before, asked = _split(_PHOTOS, payload)
    head, _, contents = before.partition(b"\n")
    photos, place = [], 0
    for each in json.loads(head or b"[]"):
        length, on = each["length"], each["on"]
        content = None if length is None else contents[place : place + length]
        place += length or 0
        day = None if on is None else dt.date.fromisoformat(on)
        photos.append(PaperPhoto(content, each["caption"], day, *each["place"]))
    return tuple(photos), asked


def without_photos(payload: bytes) -> bytes:
    """Return what is asked without the photos before it."""
    return _split(_PHOTOS, payload)[1]


def _before(mark: bytes, what: bytes, payload: bytes) -> bytes:
    return mark + str(len(what)).encode() + b"\n" + what + payload


def _split(mark: bytes, payload: bytes) -> tuple[bytes, bytes]:
    if not payload.startswith(mark):
        return b"", payload
    head, _, rest = payload.partition(b"\n")
    length = int(head.removeprefix(mark))
    return rest[:length], rest[length:]
