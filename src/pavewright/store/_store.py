"""Keeping jobs."""

from __future__ import annotations

import datetime as dt
import json
import secrets
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._open import bring_up_to_date, engine_for
from pavewright.store._tables import DELIVERIES, JOBS, PHOTOS, REVISIONS
from pavewright.store._types import Delivery, JobRow, Kept, Photo, Revision, StaleRevision, UnknownJob

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy.engine import Connection


def open_store(url: str) -> Store:
    """Return the store at a database address, its tables brought up to date.

    Args:
        url: ``sqlite:///FILE`` or an address of another database that SQLAlchemy knows.
    """
    engine = engine_for(url)
    bring_up_to_date(engine)
    return Store(engine)


class Store:
    """Jobs in one database."""

    def __init__(self, engine: sa.Engine) -> None:
        """Keep the engine."""
        self._engine = engine

    def close(self) -> None:
        """Give back every connection."""
        self._engine.dispose()

    def jobs(self, words: str = "", *, archived: bool = False) -> tuple[JobRow, ...]:
        """Return the jobs that hold all words, the one changed last first."""
        query = sa.select(
            JOBS.c.id, JOBS.c.rev, JOBS.c.title, JOBS.c.archived, JOBS.c.changed, JOBS.c.summary, JOBS.c.summary_rev
        ).where(JOBS.c.archived == archived)
        for word in words.casefold().split():
            query = query.where(JOBS.c.words.contains(word, autoescape=True))
        with self._engine.connect() as connection:
            rows = connection.execute(query.order_by(JOBS.c.changed.desc(), JOBS.c.id)).all()
        return tuple(JobRow(*row) for row in rows)

    def job(self, job_id: str) -> Kept:
        """Return a job as it stands.

        Raises:
            UnknownJob: none of that name.
        """
        with self._engine.connect() as connection:
            return _kept(connection, job_id)

    def add(self, document: str, note: str = "new job") -> Kept:
        """Keep a new job and return it."""
        job_id = secrets.token_hex(8)
        now = _now()
        row = {"id": job_id, "rev": 1, "archived": False, "changed": now, "document": document} | _named(document)
        with self._writing() as connection:
            connection.execute(JOBS.insert().values(row))
            _add_revision(connection, job_id, 1, now, note, document)
        return Kept(job_id, 1, document, archived=False)

    def save(self, job_id: str, rev: int, document: str, note: str = "") -> int:
        """Keep a change that stands on a revision and return the new revision.

        Raises:
            UnknownJob: none of that name.
            StaleRevision: another change came first.
        """
        with self._writing() as connection:
            return _save(connection, job_id, rev, document, note)

    def deliver(self, delivery_id: str, job_id: str, body: str, change: Callable[[str], str], note: str) -> Delivery:
        """Change a job by something that was sent, once, however often it is sent.

        Args:
            delivery_id: Name that the sender gave it.
            job_id: The job.
            body: What was sent, kept as it came.
            change: Takes the document and returns the changed one; may raise, then nothing is kept.
            note: What was done, in a few words.

        Raises:
            UnknownJob: none of that name.
        """
        with self._writing() as connection:
            known = connection.execute(
                sa.select(DELIVERIES.c.rev).where(DELIVERIES.c.id == delivery_id)
            ).scalar_one_or_none()
            if known is not None:
                return Delivery(known, repeated=True)
            kept = _kept(connection, job_id)
            rev = _save(connection, job_id, kept.rev, change(kept.document), note)
            row = {"id": delivery_id, "job_id": job_id, "at": _now(), "rev": rev, "body": body}
            connection.execute(DELIVERIES.insert().values(row))
        return Delivery(rev, repeated=False)

    def put_away(self, job_id: str, *, archived: bool) -> None:
        """Archive a job, or bring it back.

        Raises:
            UnknownJob: none of that name.
        """
        with self._writing() as connection:
            done = connection.execute(JOBS.update().where(JOBS.c.id == job_id).values(archived=archived))
            if done.rowcount != 1:
                raise UnknownJob(job_id)

    def revisions(self, job_id: str) -> tuple[Revision, ...]:
        """Return the revisions of a job without their documents, the last one first."""
        query = (
            sa.select(REVISIONS.c.rev, REVISIONS.c.at, REVISIONS.c.note)
            .where(REVISIONS.c.job_id == job_id)
            .order_by(REVISIONS.c.rev.desc())
        )
        with self._engine.connect() as connection:
            return tuple(Revision(*row) for row in connection.execute(query).all())

    def revision(self, job_id: str, rev: int) -> Revision:
        """Return one revision with its document.

        Raises:
            UnknownJob: no such revision.
        """
        query = sa.select(REVISIONS.c.rev, REVISIONS.c.at, REVISIONS.c.note, REVISIONS.c.document).where(
            REVISIONS.c.job_id == job_id, REVISIONS.c.rev == rev
        )
        with self._engine.connect() as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            raise UnknownJob(job_id)
        return Revision(*row)

    def keep_summary(self, job_id: str, rev: int, summary: str) -> None:
        """Keep what was worked out for the list, unless a later revision has its own."""
        with self._writing() as connection:
            older = sa.or_(JOBS.c.summary_rev.is_(None), JOBS.c.summary_rev <= rev)
            connection.execute(JOBS.update().where(JOBS.c.id == job_id, older).values(summary=summary, summary_rev=rev))

    def add_photo(self, photo_id: str, job_id: str, image: bytes, note: str, at_mm: tuple[float, float] | None) -> bool:
        """Keep a photo, once; return whether it had come before.

        Raises:
            UnknownJob: none of that name.
        """
        x, y = at_mm or (None, None)
        with self._writing() as connection:
            known = connection.execute(sa.select(PHOTOS.c.id).where(PHOTOS.c.id == photo_id)).scalar_one_or_none()
            if known is not None:
                return True
            _kept(connection, job_id)
            row = {"id": photo_id, "job_id": job_id, "at": _now(), "note": note, "x_mm": x, "y_mm": y, "image": image}
            connection.execute(PHOTOS.insert().values(row))
        return False

    def photos(self, job_id: str) -> tuple[Photo, ...]:
        """Return the photos of a job in the order in which they came."""
        query = (
            sa.select(PHOTOS.c.id, PHOTOS.c.at, PHOTOS.c.note, PHOTOS.c.x_mm, PHOTOS.c.y_mm)
            .where(PHOTOS.c.job_id == job_id)
            .order_by(PHOTOS.c.at, PHOTOS.c.id)
        )
        with self._engine.connect() as connection:
            return tuple(Photo(*row) for row in connection.execute(query).all())

    def photo(self, job_id: str, photo_id: str) -> bytes:
        """Return the image of a photo.

        Raises:
            UnknownJob: no such photo.
        """
        query = sa.select(PHOTOS.c.image).where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id)
        with self._engine.connect() as connection:
            image = connection.execute(query).scalar_one_or_none()
        if image is None:
            raise UnknownJob(photo_id)
        return bytes(image)

    def remove_photo(self, job_id: str, photo_id: str) -> None:
        """Take a photo away."""
        with self._writing() as connection:
            connection.execute(PHOTOS.delete().where(PHOTOS.c.job_id == job_id, PHOTOS.c.id == photo_id))

    def _writing(self) -> Any:  # noqa: ANN401 - a context that gives a connection
        return self._engine.execution_options(write=True).begin()


def _now() -> str:
    return dt.datetime.now(dt.UTC).isoformat(timespec="milliseconds")


def _named(document: str) -> dict[str, str]:
    """Return the title of a document and what a search looks through."""
    try:
        identity = json.loads(document).get("identity", {})
        told = [str(identity.get(name, "")) for name in ("title", "job", "client", "address")]
    except (ValueError, AttributeError, RecursionError):
        told = [""]
    return {"title": told[0] or "A job without a title", "words": " ".join(told).casefold()}


def _kept(connection: Connection, job_id: str) -> Kept:
    query = sa.select(JOBS.c.id, JOBS.c.rev, JOBS.c.document, JOBS.c.archived).where(JOBS.c.id == job_id)
    row = connection.execute(query).one_or_none()
    if row is None:
        raise UnknownJob(job_id)
    return Kept(*row)


def _save(connection: Connection, job_id: str, rev: int, document: str, note: str) -> int:
    now = _now()
    changed = {"rev": rev + 1, "document": document, "changed": now} | _named(document)
    done = connection.execute(JOBS.update().where(JOBS.c.id == job_id, JOBS.c.rev == rev).values(changed))
    if done.rowcount != 1:
        raise StaleRevision(_kept(connection, job_id))
    _add_revision(connection, job_id, rev + 1, now, note, document)
    return rev + 1


def _add_revision(connection: Connection, job_id: str, rev: int, at: str, note: str, document: str) -> None:
    row = {"job_id": job_id, "rev": rev, "at": at, "note": note, "document": document}
    connection.execute(REVISIONS.insert().values(row))
