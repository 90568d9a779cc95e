"""Photos of a job for its papers, out of the store."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from pavewright.papers import PHOTOS_MAX, PaperPhoto
from pavewright.store import UnknownJob

if TYPE_CHECKING:
    from pavewright.store import Photo, Store

_BYTES_MAX = 24_000_000
"""What the photos of one piece of work may weigh: older ones past it are counted. [bytes]"""


def photos_for_papers(store: Store, job_id: str) -> tuple[PaperPhoto, ...]:
    """Return the photos of a job in the order in which they came; the last of them with what they show."""
    found = store.photos(job_id)
    contents: dict[str, bytes] = {}
    weight = 0
    for each in reversed(found[-PHOTOS_MAX:]):
        try:
            content = store.photo(job_id, each.id)
        except UnknownJob:  # somebody deleted it meanwhile
            continue
        weight += len(content)
        if weight > _BYTES_MAX:
            break
        contents[each.id] = content
    return tuple(_for_paper(each, contents.get(each.id)) for each in found)


def _for_paper(one: Photo, content: bytes | None) -> PaperPhoto:
    return PaperPhoto(content, one.note, dt.datetime.fromisoformat(one.at).date(), one.x_mm, one.y_mm)
