"""Photos of jobs, over an open connection."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._tables import PHOTOS
from pavewright.store._types import Photo, UnknownJob

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


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


def image_of(connection: Connection, job_id: str, photo_id: str) -> bytes:
    """Return the image of a photo.

    Raises:
        UnknownJob: no such photo.
    """
    query = sa.select(PHOTOS.c.image).where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id)
    image = connection.execute(query).scalar_one_or_none()
    if image is None:
        raise UnknownJob(photo_id)
    return bytes(image)
