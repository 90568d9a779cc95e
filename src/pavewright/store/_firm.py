"""The book of the firm: one document with its revisions; before anybody writes in it there is none."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._documents import checked
from pavewright.store._tables import FIRM, JOBS
from pavewright.store._turns import one_at_a_time
from pavewright.store._types import KeyUsedError, Revision
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]


@dataclass(frozen=True, slots=True)
class KeptBook:
    """The book as it stands.

    Attributes:
        rev: Its revision, from 1; 0 where nobody has written in it.
        document: The document, as text; empty where there is none.
    """

    rev: int
    document: str


class StaleBookError(Exception):
    """Another change of the book came first; carries the book as it stands."""

    def __init__(self, kept: KeptBook) -> None:
        """Keep it."""
        super().__init__(kept.rev)
        self.kept = kept


class Books:
    """The book of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def book(self) -> KeptBook:
        """Return the book as it stands."""
        with self._reading() as connection:
            return _standing(connection)

    def mark(self) -> tuple[int, str]:
        """Return by what a change of the book is noticed: its revision and when it was kept."""
        with self._reading() as connection:
            query = sa.select(FIRM.c.rev, FIRM.c.at).order_by(FIRM.c.rev.desc()).limit(1)
            row = connection.execute(query).one_or_none()
        return (0, "") if row is None else (row.rev, row.at)

    def save(self, rev: int, document: str, note: str = "", key: str | None = None) -> int:
        """Keep a change of the book that stands on a revision, and return the new revision.

        Args:
            rev: The revision on which the change stands; 0 where there was no book.
            document: The book, changed.
            note: What was done, in a few words.
            key: Name of this save, given by the sender: it is kept once, however often it is sent.

        Raises:
            DocumentRefusedError: the document could not be read again.
            StaleBookError: another change came first; nothing is changed.
            KeyUsedError: the key belongs to another version.
        """
        text, _ = checked(document)
        with self._writing() as connection:
            one_at_a_time(connection, "book")
            known = None if key is None else _saved_under(connection, key)
            if known is not None:
                if known.document != text:
                    raise KeyUsedError
                return int(known.rev)
            kept = _standing(connection)
            if kept.rev != rev:
                raise StaleBookError(kept)
            row = {"rev": rev + 1, "at": now(), "note": note, "document": text, "key": key}
            row["who"] = who_acts() or None
            connection.execute(FIRM.insert().values(row))
            _thin(connection)
            # what the list of jobs says of prices was worked out with the book as it was
            connection.execute(JOBS.update().where(JOBS.c.archived.is_(False)).values(summary_rev=None))
        return rev + 1

    def revisions(self) -> tuple[Revision, ...]:
        """Return the revisions of the book without their documents, the last one first."""
        query = sa.select(FIRM.c.rev, FIRM.c.at, FIRM.c.note, FIRM.c.who).order_by(FIRM.c.rev.desc())
        with self._reading() as connection:
            rows = connection.execute(query).all()
        return tuple(Revision(row.rev, row.at, row.note, who=row.who or "") for row in rows)

    def revision(self, rev: int) -> Revision | None:
        """Return one revision with its document; None where there is none of that number."""
        query = sa.select(FIRM.c.rev, FIRM.c.at, FIRM.c.note, FIRM.c.document, FIRM.c.who).where(FIRM.c.rev == rev)
        with self._reading() as connection:
            row = connection.execute(query).one_or_none()
        return None if row is None else Revision(row.rev, row.at, row.note, row.document, row.who or "")


_RECENT = 50
"""The last changes, each of which is kept. [-]"""
_DAYS = 366
"""Of older ones the last of each day is kept for so long, the last of each month after it. [days]"""


def _thin(connection: Connection) -> None:
    """Delete revisions that nobody asks for any more: a book of thousands of prices is a megabyte, many times a day."""
    query = sa.select(FIRM.c.rev, FIRM.c.at).order_by(FIRM.c.rev.desc())
    rows = connection.execute(query).all()
    if len(rows) <= _RECENT:
        return
    newest = dt.datetime.fromisoformat(rows[0].at)
    seen: set[str] = set()
    gone = []
    for row in rows[_RECENT:]:
        old = newest - dt.datetime.fromisoformat(row.at) > dt.timedelta(days=_DAYS)
        time = row.at[: len("2027-03")] if old else row.at[: len("2027-03-01")]
        if time in seen:
            gone.append(row.rev)
        seen.add(time)
    if gone:
        connection.execute(FIRM.delete().where(FIRM.c.rev.in_(gone)))


def _standing(connection: Connection) -> KeptBook:
    row = connection.execute(sa.select(FIRM.c.rev, FIRM.c.document).order_by(FIRM.c.rev.desc()).limit(1)).one_or_none()
    return KeptBook(0, "") if row is None else KeptBook(row.rev, row.document)


def _saved_under(connection: Connection, key: str) -> Any:  # noqa: ANN401 - a row of revision and document
    return connection.execute(sa.select(FIRM.c.rev, FIRM.c.document).where(FIRM.c.key == key)).one_or_none()
