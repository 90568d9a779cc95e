"""Saving one revision, over an open connection."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._recording import record_revision
from pavewright.store._tables import JOBS, REVISIONS
from pavewright.store._types import Kept, StaleRevision, UnknownJob
from pavewright.store._who import who_acts
from pavewright.store.hooks._outbox import post_revision

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


def named(fields: dict[str, Any]) -> dict[str, str]:
    """Return the title of a document and what a search looks through."""
    identity = fields.get("identity")
    given = identity if isinstance(identity, dict) else {}
    reported = [str(given.get(name, "")) for name in ("title", "job", "client", "address")]
    return {"title": reported[0] or "A job without a title", "words": " ".join(reported).casefold()}


def kept_in(connection: Connection, job_id: str) -> Kept:
    """Return a job as it stands.

    Raises:
        UnknownJob: none of that name.
    """
    query = sa.select(JOBS.c.id, JOBS.c.rev, JOBS.c.document, JOBS.c.archived).where(JOBS.c.id == job_id)
    row = connection.execute(query).one_or_none()
    if row is None:
        raise UnknownJob(job_id)
    return Kept(row.id, row.rev, row.document.removeprefix("\ufeff"), row.archived)


def saved_under(connection: Connection, job_id: str, key: str) -> Any:  # noqa: ANN401 - a row of revision and document
    """Return what was saved under a key, None where nothing was."""
    query = sa.select(REVISIONS.c.rev, REVISIONS.c.document).where(REVISIONS.c.job_id == job_id, REVISIONS.c.key == key)
    return connection.execute(query).one_or_none()


def save_on(
    connection: Connection,
    job_id: str,
    rev: int,
    document: tuple[str, dict[str, Any]],
    note: str,
    key: str | None = None,
) -> int:
    """Keep a change that stands on a revision and return the new revision.

    Raises:
        StaleRevision: another change came first.
    """
    at, (text, fields) = now(), document
    changed = {"rev": rev + 1, "document": text, "changed": at} | named(fields)
    done = connection.execute(JOBS.update().where(JOBS.c.id == job_id, JOBS.c.rev == rev).values(changed))
    if done.rowcount != 1:
        raise StaleRevision(kept_in(connection, job_id))
    row = {"job_id": job_id, "rev": rev + 1, "at": at, "note": note, "document": text, "key": key}
    add_revision(connection, row)
    return rev + 1


def add_revision(connection: Connection, row: dict[str, Any]) -> None:
    """Keep a revision, and record that it was kept."""
    before = sa.select(REVISIONS.c.document).where(
        REVISIONS.c.job_id == row["job_id"], REVISIONS.c.rev == row["rev"] - 1
    )
    post_revision(connection, row["job_id"], row["rev"], row["document"], before)
    connection.execute(REVISIONS.insert().values(row | {"who": who_acts() or None}))
    record_revision(connection, row["job_id"], row["rev"], row["note"], row["document"])
