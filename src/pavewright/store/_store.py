"""Keeping jobs."""

from __future__ import annotations

import contextlib
import hashlib
import secrets
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy.engine import URL

from pavewright.record import sha256
from pavewright.store import _photos
from pavewright.store._calendars import Calendars
from pavewright.store._clock import now
from pavewright.store._deleted import Deleted
from pavewright.store._deliveries import Deliveries
from pavewright.store._devices import Devices
from pavewright.store._documents import checked
from pavewright.store._firm import Books
from pavewright.store._log import log_compared
from pavewright.store._open import bring_log_in, bring_up_to_date, engine_for, make_folder_of, name_of
from pavewright.store._operations import Operations
from pavewright.store._quotations import Quotations
from pavewright.store._records import Records
from pavewright.store._runs import RunStore
from pavewright.store._saving import add_revision, kept_in, named, save_on, saved_under
from pavewright.store._standing import Standing
from pavewright.store._tables import JOBS, REVISIONS
from pavewright.store._troubles import StoreTroubleError, in_words
from pavewright.store._turns import turn_at
from pavewright.store._types import JobRow, Kept, KeyUsedError, Photo, Revision, UnknownJob
from pavewright.store.accounts import for_first_firm
from pavewright.store.hooks._hooks import Hooks
from pavewright.store.orders._orders import Orders, keep_line
from pavewright.store.orders._views import Views
from pavewright.store.outside._of_firm import Outside

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from sqlalchemy.engine import Connection


def open_file(path: Path) -> Store:
    """Return the store in a file, made with its folder where it is missing, its tables brought up to date.

    Raises:
        StoreTroubleError: the file is no store, or cannot be opened or written.
    """
    make_folder_of(path)
    return open_store(URL.create("sqlite", database=str(path.absolute())))


def open_store(url: str | URL) -> Store:
    """Return the store at a database address, its tables brought up to date.

    Args:
        url: ``sqlite:///FILE``, or ``postgresql://ROLE@HOST/DATABASE``: there it is the store of the first firm.

    Raises:
        StoreTroubleError: it is no store, or cannot be opened or written, or does not keep firms apart.
    """
    engine = engine_for(url)
    try:
        bring_up_to_date(engine)
        return Store(for_first_firm(engine))
    except BaseException:
        engine.dispose()
        raise


class Store:
    """Jobs in one database.

    Every method raises StoreTroubleError where the database or its disk refuses; nothing is changed then.
    """

    def __init__(self, engine: sa.Engine) -> None:
        """Keep the engine."""
        self._engine = engine
        self.name, self.writes = name_of(engine), 0
        self.after_write: list[Callable[[], None]] = []
        self.outside = Outside()
        self.standing = Standing(self.reading)
        self.deleted, self.calendar = Deleted(self.writing), Calendars(self.reading, self.writing)
        self.firm, self.devices = Books(self.reading, self.writing), Devices(self.reading, self.writing)
        self.operations = Operations(self.writing, self.reading)
        self.quotations = Quotations(self.reading, self.writing, self.outside)
        self.records, self.runs = Records(self.reading, self.writing), RunStore(self.reading, self.writing)
        self.hooks = Hooks(self.reading, self.writing)
        self.deliver = Deliveries(self.writing).take
        self.orders, self.views = Orders(self.reading), Views(self.reading, self.writing)

    @property
    def is_file(self) -> bool:
        """Whether the store is one file of this machine."""
        return self._engine.dialect.name == "sqlite"

    def of_firm(self, firm_id: str) -> Store:
        """Return the store of another firm on the same server."""
        return Store(self._engine.execution_options(firm=firm_id))

    def close(self) -> None:
        """Bring the log into the file and give back every connection."""
        with contextlib.suppress(StoreTroubleError):
            self.tidy()
        self._engine.dispose()

    def tidy(self) -> bool:
        """Bring the log into the file, so that the file alone is whole; return False where somebody is in the way."""
        if not self.is_file:
            return True
        return bring_log_in(self._engine)

    def jobs(self, words: str = "", *, archived: bool = False, deleted: bool = False) -> tuple[JobRow, ...]:
        """Return the jobs that hold all words, the one changed last first.

        Args:
            words: Words that all have to be in title, number, client or address.
            archived: Whether those of the archive are wanted.
            deleted: Whether those that were deleted are wanted, of the archive or not.
        """
        query = sa.select(
            JOBS.c.id, JOBS.c.rev, JOBS.c.title, JOBS.c.archived, JOBS.c.changed, JOBS.c.summary, JOBS.c.summary_rev
        ).where(JOBS.c.deleted.is_not(None) if deleted else (JOBS.c.deleted.is_(None) & (JOBS.c.archived == archived)))
        for word in words.casefold().split():
            query = query.where(JOBS.c.words.contains(word, autoescape=True))
        with self.reading() as connection:
            rows = connection.execute(query.order_by(JOBS.c.changed.desc(), JOBS.c.id)).all()
        return tuple(JobRow(*row) for row in rows)

    def job(self, job_id: str) -> Kept:
        """Return a job as it stands.

        Raises:
            UnknownJob: none of that name.
        """
        with self.reading() as connection:
            return kept_in(connection, job_id)

    def add(self, document: str, note: str = "new job", key: str | None = None) -> Kept:
        """Keep a new job and return it.

        Args:
            document: The job document.
            note: What was done, in a few words.
            key: Name of this job, given by the sender: it is made once under the same key, however often it is sent.

        Raises:
            DocumentRefusedError: the document could not be read again.
        """
        job_id, at = secrets.token_hex(8) if key is None else self._id_of(key), now()
        text, fields = checked(document)
        row = {"id": job_id, "rev": 1, "archived": False, "changed": at, "document": text} | named(fields)
        with self.writing() as connection:
            turn_at(connection, job_id)
            if key is not None and saved_under(connection, job_id, key) is not None:
                return kept_in(connection, job_id)
            connection.execute(JOBS.insert().values(row))
            made = {"job_id": job_id, "rev": 1, "at": at, "note": note, "document": text, "key": key}
            add_revision(connection, made)
        return Kept(job_id, 1, text, archived=False)

    def save(self, job_id: str, rev: int, document: str, note: str = "", key: str | None = None) -> int:
        """Keep a change that stands on a revision and return the new revision.

        Args:
            job_id: The job.
            rev: The revision on which the change stands.
            document: The job document, changed.
            note: What was done, in a few words.
            key: Name of this save, given by the sender: the same save under the same key is kept once, however often
                it is sent, and answered with the revision that it became.

        Raises:
            DocumentRefusedError: the document could not be read again.
            UnknownJob: none of that name.
            StaleRevision: another change came first.
            KeyUsedError: the key belongs to another version.
        """
        text, fields = checked(document)
        with self.writing() as connection:
            turn_at(connection, job_id)
            known = None if key is None else saved_under(connection, job_id, key)
            if known is not None:
                if known.document != text:
                    raise KeyUsedError
                return int(known.rev)
            before = kept_in(connection, job_id).document
            now_rev = save_on(connection, job_id, rev, (text, fields), note, key)
            log_compared(connection, job_id, now_rev, before, text)
            return now_rev

    def put_away(self, job_id: str, *, archived: bool) -> None:
        """Archive a job, or bring it back.

        Raises:
            UnknownJob: none of that name.
        """
        with self.writing() as connection:
            done = connection.execute(JOBS.update().where(JOBS.c.id == job_id).values(archived=archived))
            if done.rowcount != 1:
                raise UnknownJob(job_id)

    def revisions(self, job_id: str) -> tuple[Revision, ...]:
        """Return the revisions of a job without their documents, the last one first."""
        query = (
            sa.select(REVISIONS.c.rev, REVISIONS.c.at, REVISIONS.c.note, REVISIONS.c.who)
            .where(REVISIONS.c.job_id == job_id)
            .order_by(REVISIONS.c.rev.desc())
        )
        with self.reading() as connection:
            rows = connection.execute(query).all()
        return tuple(Revision(row.rev, row.at, row.note, who=row.who or "") for row in rows)

    def revision(self, job_id: str, rev: int) -> Revision:
        """Return one revision with its document.

        Raises:
            UnknownJob: no such revision.
        """
        query = sa.select(REVISIONS).where(REVISIONS.c.job_id == job_id, REVISIONS.c.rev == rev)
        with self.reading() as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            raise UnknownJob(job_id)
        return Revision(row.rev, row.at, row.note, row.document, row.who or "")

    def keep_summary(self, job_id: str, rev: int, summary: str, book: dict[str, Any] | None = None) -> None:
        """Keep what was worked out for the list and for the order book, unless a later revision has its own."""
        with self.writing() as connection:
            turn_at(connection, job_id)
            older = sa.or_(JOBS.c.summary_rev.is_(None), JOBS.c.summary_rev <= rev)
            kept = JOBS.update().where(JOBS.c.id == job_id, older).values(summary=summary, summary_rev=rev)
            if connection.execute(kept).rowcount == 1:
                keep_line(connection, job_id, rev, book)

    def add_photo(self, photo_id: str, job_id: str, image: bytes, note: str, at_mm: tuple[float, float] | None) -> bool:
        """Keep a photo, once; return whether it had come before.

        Raises:
            UnknownJob: none of that name.
        """
        x, y = at_mm or (None, None)
        told = {"id": photo_id, "note": note, "x_mm": x, "y_mm": y, "sha256": sha256(image)}
        kept = self.outside.put(image)  # before the row that names it
        with self.writing() as connection:
            turn_at(connection, job_id)
            if _photos.is_kept(connection, job_id, photo_id):
                return True
            self.outside.hold(connection, image)
            _photos.keep(connection, job_id, told, len(image), kept)
        return False

    def photos(self, job_id: str) -> tuple[Photo, ...]:
        """Return the photos of a job in the order in which they came."""
        with self.reading() as connection:
            return _photos.photos_of(connection, job_id)

    def photo(self, job_id: str, photo_id: str) -> bytes:
        """Return the image of a photo.

        Raises:
            UnknownJob: no such photo.
        """
        with self.reading() as connection:
            row, digest = _photos.image_of(connection, job_id, photo_id)
        return self.outside.read(row, digest)

    def remove_photo(self, job_id: str, photo_id: str) -> None:
        """Delete a photo; its hash stays in the record."""
        with self.writing() as connection:
            turn_at(connection, job_id)
            _photos.remove(connection, job_id, photo_id)

    @contextlib.contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection to read by."""
        with in_words(self.name), self._engine.connect() as connection:
            yield connection

    @contextlib.contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection to write by: all that is done over it is kept, or nothing."""
        with in_words(self.name), self._engine.execution_options(write=True).begin() as connection:
            yield connection
        self.writes += 1
        for told in tuple(self.after_write):
            told()

    def _id_of(self, key: str) -> str:
        """Return the name of a job that was made under a key: another one in each firm of a server."""
        firm = self._engine.get_execution_options().get("firm", "")
        return hashlib.sha256(f"{firm}{key}".encode()).hexdigest()[:16]
