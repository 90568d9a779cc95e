"""The calendar of the firm: one document with its revisions, and the feeds by which people read their own days."""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._documents import checked
from pavewright.store._tables import CALENDAR, CALENDAR_FEEDS
from pavewright.store._turns import one_at_a_time
from pavewright.store._types import KeyUsedError, Revision
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]

_KEPT = 400
"""Revisions that are kept. [-]"""
_TOKEN_BYTES = 32
"""Random bytes in a token. [bytes]"""


@dataclass(frozen=True, slots=True)
class KeptCalendar:
    """The calendar as it stands.

    Attributes:
        rev: Its revision, from 1; 0 where nobody has written in it.
        document: The document, as text; empty where there is none.
        at: When it was kept, UTC; empty where there is none.
    """

    rev: int
    document: str
    at: str


class StaleCalendarError(Exception):
    """Another change of the calendar came first; carries the calendar as it stands."""

    def __init__(self, kept: KeptCalendar) -> None:
        """Keep it."""
        super().__init__(kept.rev)
        self.kept = kept


@dataclass(frozen=True, slots=True)
class CalendarFeed:
    """A feed of somebody's days.

    Attributes:
        id: Its name in the store.
        person: Whose days, as the firm's book numbers people.
        made: When it was made, UTC.
    """

    id: str
    person: str
    made: str


class Calendars:
    """The calendar of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def standing(self) -> KeptCalendar:
        """Return the calendar as it stands."""
        with self._reading() as connection:
            return _standing(connection)

    def save(self, rev: int, document: str, note: str = "", key: str | None = None) -> int:
        """Keep a change of the calendar that stands on a revision, and return the new revision.

        Args:
            rev: The revision on which the change stands; 0 where there was none.
            document: The calendar, changed.
            note: What was done, in a few words.
            key: Name of this save, given by the sender: it is kept once, however often it is sent.

        Raises:
            DocumentRefusedError: the document could not be read again.
            StaleCalendarError: another change came first; nothing is changed.
            KeyUsedError: the key belongs to another version.
        """
        text, _ = checked(document)
        with self._writing() as connection:
            one_at_a_time(connection, "calendar")
            known = None if key is None else _saved_under(connection, key)
            if known is not None:
                if known.document != text:
                    raise KeyUsedError
                return int(known.rev)
            kept = _standing(connection)
            if kept.rev != rev:
                raise StaleCalendarError(kept)
            row = {"rev": rev + 1, "at": now(), "note": note, "document": text, "key": key, "who": who_acts() or None}
            connection.execute(CALENDAR.insert().values(row))
            connection.execute(CALENDAR.delete().where(CALENDAR.c.rev <= rev + 1 - _KEPT))
        return rev + 1

    def revisions(self) -> tuple[Revision, ...]:
        """Return the revisions without their documents, the last one first."""
        query = sa.select(CALENDAR.c.rev, CALENDAR.c.at, CALENDAR.c.note, CALENDAR.c.who)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(CALENDAR.c.rev.desc())).all()
        return tuple(Revision(row.rev, row.at, row.note, who=row.who or "") for row in rows)

    def revision(self, rev: int) -> Revision | None:
        """Return one revision with its document; None where there is none of that number."""
        query = sa.select(CALENDAR).where(CALENDAR.c.rev == rev)
        with self._reading() as connection:
            row = connection.execute(query).one_or_none()
        return None if row is None else Revision(row.rev, row.at, row.note, row.document, row.who or "")

    def make_feed(self, person: str) -> tuple[CalendarFeed, str]:
        """Keep a new feed of somebody; return it with its token, which nobody can read again."""
        token = secrets.token_urlsafe(_TOKEN_BYTES)
        feed = CalendarFeed(secrets.token_hex(8), person, now())
        row = {"id": feed.id, "person": person, "digest": _digest(token), "made": feed.made, "who": who_acts() or None}
        with self._writing() as connection:
            connection.execute(CALENDAR_FEEDS.insert().values(row))
        return feed, token

    def feed_of(self, token: str) -> CalendarFeed | None:
        """Return the feed of a token; None where there is none or it was withdrawn."""
        query = sa.select(CALENDAR_FEEDS.c.id, CALENDAR_FEEDS.c.person, CALENDAR_FEEDS.c.made)
        with self._reading() as connection:
            row = connection.execute(query.where(CALENDAR_FEEDS.c.digest == _digest(token))).one_or_none()
        return None if row is None else CalendarFeed(*row)

    def feeds(self) -> tuple[CalendarFeed, ...]:
        """Return every feed, the one made last first."""
        query = sa.select(CALENDAR_FEEDS.c.id, CALENDAR_FEEDS.c.person, CALENDAR_FEEDS.c.made)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(CALENDAR_FEEDS.c.made.desc(), CALENDAR_FEEDS.c.id)).all()
        return tuple(CalendarFeed(*row) for row in rows)

    def withdraw_feed(self, feed_id: str) -> bool:
        """Delete a feed, so that its token opens nothing any more; return False where there is none of that name."""
        with self._writing() as connection:
            done = connection.execute(CALENDAR_FEEDS.delete().where(CALENDAR_FEEDS.c.id == feed_id))
        return done.rowcount == 1


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def _standing(connection: Connection) -> KeptCalendar:
    query = sa.select(CALENDAR.c.rev, CALENDAR.c.document, CALENDAR.c.at).order_by(CALENDAR.c.rev.desc()).limit(1)
    row = connection.execute(query).one_or_none()
    return KeptCalendar(0, "", "") if row is None else KeptCalendar(*row)


def _saved_under(connection: Connection, key: str) -> Any:  # noqa: ANN401 - a row of revision and document
    query = sa.select(CALENDAR.c.rev, CALENDAR.c.document).where(CALENDAR.c.key == key)
    return connection.execute(query).one_or_none()
