"""Photos of jobs, over an open connection."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.record import EntryKind
from pavewright.store._clock import now
from pavewright.store._recording import ToRecord, record
from pavewright.store._tables import PHOTOS
from pavewright.store._types import Photo, UnknownJob
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


def keep(connection: Connection, job_id: str, told: dict[str, Any], size: int, row: bytes) -> None:
    """Keep the row of a photo, and record that it was kept.

    Args:
        connection: A connection that writes.
        job_id: The job.
        told: Its name, note, place and hash.
        size: Its size. [bytes]
        row: What the row holds of it.
    """
    record(connection, job_id, ToRecord(EntryKind.PHOTO, told | {"bytes": size}))
    more = {"job_id": job_id, "at": now(), "image": row, "who": who_acts() or None}
    connection.execute(PHOTOS.insert().values(told | more))


def remove(connection: Connection, job_id: str, photo_id: str) -> None:
    """Delete the row of a photo where there is one; its hash stays in the record."""
    query = sa.select(PHOTOS.c.sha256).where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id)
    digest = connection.execute(query).scalar_one_or_none()
    if digest is not None:
        record(connection, job_id, ToRecord(EntryKind.PHOTO_DELETED, {"id": photo_id, "sha256": digest}))
        connection.execute(PHOTOS.delete().where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id))


def is_kept(connection: Connection, job_id: str, photo_id: str) -> bool:
    """Return whether a job has a photo of that name."""
    query = sa.select(PHOTOS.c.id).where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id)
    return connection.execute(query).scalar_one_or_none() is not None


def photos_of(connection: Connection, job_id: str) -> tuple[Photo, ...]:
    """Return the photos of a job in the order in which they came."""
    query = (
        sa.select(PHOTOS.c.id, PHOTOS.c.at, PHOTOS.c.note, PHOTOS.c.x_mm, PHOTOS.c.y_mm, PHOTOS.c.who)
        .where(PHOTOS.c.job_id == job_id)
        .order_by(PHOTOS.c.at, PHOTOS.c.id)
    )
    rows = connection.execute(query).all()
    return tuple(Photo(row.id, row.at, row.note, row.x_mm, row.y_mm, row.who or "") for row in rows)


def image_of(connection: Connection, job_id: str, photo_id: str) -> tuple[bytes, str]:
    """Return what the row of a photo holds of its image, and the hash of that.

    Raises:
        UnknownJob: no such photo.
    """
    query = sa.select(PHOTOS.c.image, PHOTOS.c.sha256).where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id)
    row = connection.execute(query).one_or_none()
    if row is None:
        raise UnknownJob(photo_id)
    return bytes(row.image), str(row.sha256)
