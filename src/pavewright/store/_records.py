"""The records of jobs: read, stamped with the time of an authority, and what is left of one whose job was removed."""

from __future__ import annotations

import base64
from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.record import EntryKind, check_record, entry_of_head, read_token, sealed, sha256
from pavewright.store._recording import ToRecord, last_of, record
from pavewright.store._tables import JOBS, RECORD_ENTRIES, REMOVED_RECORDS
from pavewright.store._turns import turn_at
from pavewright.store._types import UnknownJob

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]


class TokenOfAnotherError(ValueError):
    """A token stamps none of the hashes of this record."""


@dataclass(frozen=True, slots=True)
class RemovedRecord:
    """What is left of the record of a job that was removed for good.

    Attributes:
        job: Name of the job.
        at: When it was removed, UTC.
        entries: How many entries there were.
        head: Hash of the last one: whoever was given it can see that it was kept here.
    """

    job: str
    at: str
    entries: int
    head: str


class Records:
    """The records of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def content(self, job_id: str) -> bytes:
        """Return the record of a job as a file of lines, as it is kept; one of an older job begins now.

        Whether somebody changed it by hand in the database is found by whoever reads it.

        Raises:
            UnknownJob: none of that name.
        """
        with self._reading() as connection:
            found = _content(connection, job_id)
            if not found and connection.execute(sa.select(JOBS.c.id).where(JOBS.c.id == job_id)).first() is None:
                raise UnknownJob(job_id)
        if found:
            return found
        with self._writing() as connection:
            turn_at(connection, job_id)
            if last_of(connection, job_id)[0] == 0:
                record(connection, job_id)
            return _content(connection, job_id)

    def add_token(self, job_id: str, content: bytes) -> int:
        """Keep the token of an authority in the record that it stamps, and return the number of the entry.

        Args:
            job_id: The job.
            content: The token, alone or in the answer of its authority.

        Raises:
            UnknownJob: none of that name.
            TokenRefusedError: it is no token that can be read.
            TokenOfAnotherError: it stamps another record.
        """
        token, text = read_token(content), base64.b64encode(content).decode("ascii")
        stamped = entry_of_head(check_record(self.content(job_id)).entries, token.imprint)
        if not stamped:
            raise TokenOfAnotherError
        facts = {
            "entry": stamped,
            "imprint": token.imprint,
            "at": token.at.isoformat(),
            "accuracy_s": token.accuracy_s,
            "serial": str(token.serial),
            "policy": token.policy,
            "token": text,
        }
        with self._writing() as connection:
            turn_at(connection, job_id)
            kept = check_record(_content(connection, job_id)).entries
            known = {each.facts.get("token") for each in kept if each.kind is EntryKind.TIMESTAMP}
            if text not in known:
                record(connection, job_id, ToRecord(EntryKind.TIMESTAMP, facts))
        return stamped

    def note_restored(self) -> None:
        """Record in every job that it was brought back from a backup, with the hash of what it is now."""
        with self._writing() as connection:
            for row in connection.execute(sa.select(JOBS.c.id, JOBS.c.rev)).all():
                text = connection.execute(sa.select(JOBS.c.document).where(JOBS.c.id == row.id)).scalar_one()
                facts = {"rev": row.rev, "document_sha256": sha256(text.removeprefix("\ufeff").encode())}
                record(connection, row.id, ToRecord(EntryKind.RESTORED, facts))

    def removed(self) -> tuple[RemovedRecord, ...]:
        """Return what is left of the records of removed jobs, the last one first."""
        table = REMOVED_RECORDS
        query = sa.select(*(table.c[name] for name in RemovedRecord.__slots__)).order_by(table.c.at.desc(), table.c.job)
        with self._reading() as connection:
            return tuple(RemovedRecord(*row) for row in connection.execute(query).all())


def _content(connection: Connection, job_id: str) -> bytes:
    """Return the record of a job as a file of lines; nothing where it has none yet."""
    table = RECORD_ENTRIES
    query = sa.select(table.c.line, table.c.digest).where(table.c.job_id == job_id).order_by(table.c.number)
    rows = connection.execute(query).all()
    return sealed(job_id, [row.line for row in rows], rows[-1].digest) if rows else b""
