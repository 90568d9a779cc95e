"""Deleted jobs: off every list, brought back as they were, or removed for good with all that is kept of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.record import EntryKind
from pavewright.store._clock import now
from pavewright.store._recording import ToRecord, last_of, record
from pavewright.store._tables import JOBS, METADATA, REMOVED_RECORDS
from pavewright.store._turns import turn_at
from pavewright.store._types import NotDeletedError, UnknownJob
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection


class Deleted:
    """The deleted jobs of one store."""

    def __init__(self, writing: Callable[[], AbstractContextManager[Connection]]) -> None:
        """Keep how the store gives a connection to write by."""
        self._writing = writing

    def put(self, job_id: str) -> None:
        """Delete a job so that it can be brought back.

        Raises:
            UnknownJob: none of that name.
        """
        self._mark(job_id, now(), EntryKind.JOB_DELETED)

    def bring_back(self, job_id: str) -> None:
        """Bring a deleted job back to where it was.

        Raises:
            UnknownJob: none of that name.
        """
        self._mark(job_id, None, EntryKind.JOB_BROUGHT_BACK)

    def _mark(self, job_id: str, at: str | None, what: EntryKind) -> None:
        with self._writing() as connection:
            turn_at(connection, job_id)
            done = connection.execute(JOBS.update().where(JOBS.c.id == job_id).values({"deleted": at}))
            if done.rowcount != 1:
                raise UnknownJob(job_id)
            record(connection, job_id, ToRecord(what, {}))

    def remove(self, job_id: str) -> None:
        """Remove a deleted job for good: revisions, readings that were sent, photos. The last hash of its record stays.

        Raises:
            UnknownJob: none of that name.
            NotDeletedError: it was not deleted before.
        """
        with self._writing() as connection:
            turn_at(connection, job_id)
            found = connection.execute(sa.select(JOBS.c.deleted).where(JOBS.c.id == job_id)).one_or_none()
            if found is None:
                raise UnknownJob(job_id)
            if found.deleted is None:
                raise NotDeletedError
            entries, head = last_of(connection, job_id)
            left = {"job": job_id, "at": now(), "entries": entries, "head": head, "who": who_acts() or None}
            connection.execute(REMOVED_RECORDS.insert().values(left))
            for table in reversed(METADATA.sorted_tables):
                if "job_id" in table.c:
                    connection.execute(table.delete().where(table.c.job_id == job_id))
            connection.execute(JOBS.delete().where(JOBS.c.id == job_id))
