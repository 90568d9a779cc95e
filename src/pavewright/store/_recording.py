"""Writing the record of a job, over the very connection that writes what it records: both are kept, or neither."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import sqlalchemy as sa

from pavewright.record import EVIDENCE, START, EntryKind, is_evidence, make_entry, read_with, sha256
from pavewright.store._clock import now
from pavewright.store._documents import read_back
from pavewright.store._tables import ACCEPTANCES, JOBS, PHOTOS, RECORD_ENTRIES
from pavewright.store._types import UnknownJob
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sqlalchemy.engine import Connection


class ToRecord(NamedTuple):
    """What is to be recorded.

    Attributes:
        kind: What it says.
        facts: What it says, as JSON.
        who: Page or phone that sent it, as far as known; while a person is signed in the entry names him instead.
    """

    kind: EntryKind
    facts: dict[str, Any]
    who: str = ""


def record(connection: Connection, job_id: str, *what: ToRecord) -> None:
    """Add entries to the record of a job, which begins with the first of them.

    Raises:
        UnknownJob: none of that name.
    """
    number, before = _last(connection, job_id)
    if number == 0:
        what = (*_beginning(connection, job_id), *what)
    _write(connection, job_id, (number, before), what)


def record_revision(connection: Connection, job_id: str, rev: int, note: str, document: str) -> None:
    """Record that a revision was kept; the first one begins the record."""
    if _last(connection, job_id)[0]:
        facts = {"rev": rev, "note": note, "document_sha256": sha256(document.encode())}
        record(connection, job_id, ToRecord(EntryKind.REVISION, facts))
    else:
        record(connection, job_id)


def record_step(
    connection: Connection, job_id: str, rev: int, sender: str, landed: Sequence[Sequence[dict[str, Any]]]
) -> None:
    """Record what was entered in a revision, as far as it is evidence: readings, signatures, deliveries, days."""
    found = [operation for operations in landed for operation in operations if is_evidence(operation["at"])]
    if not found:
        return
    document = _fields(connection, job_id)
    record(
        connection,
        job_id,
        *(
            ToRecord(EntryKind.ENTERED, {"rev": rev, "op": each, "with": read_with(document, each["at"])}, sender)
            for each in found
        ),
    )


def last_of(connection: Connection, job_id: str) -> tuple[int, str]:
    """Return number and hash of the last entry of a job; zero and zeros where it has none."""
    return _last(connection, job_id)


def _last(connection: Connection, job_id: str) -> tuple[int, str]:
    # who writes to a job waits for whoever writes to it already; where one writer is let in at a time this does nothing
    lock = sa.select(JOBS.c.id).where(JOBS.c.id == job_id).with_for_update()
    if connection.execute(lock).one_or_none() is None:
        raise UnknownJob(job_id)
    table = RECORD_ENTRIES
    query = sa.select(table.c.number, table.c.digest).where(table.c.job_id == job_id)
    row = connection.execute(query.order_by(table.c.number.desc()).limit(1)).one_or_none()
    return (0, START) if row is None else (int(row.number), str(row.digest))


def _write(connection: Connection, job_id: str, last: tuple[int, str], what: Sequence[ToRecord]) -> None:
    number, before = last
    at, rows = now(), []
    for each in what:
        entry = make_entry(number + 1, before, at, each.kind, each.facts, who_acts() or each.who)
        number, before = entry.number, entry.digest
        rows.append({"job_id": job_id, "number": number, "line": entry.line, "digest": before})
    if rows:
        connection.execute(RECORD_ENTRIES.insert(), rows)


def _beginning(connection: Connection, job_id: str) -> Iterator[ToRecord]:
    """Give what stands in a job when its record begins: nothing of it was recorded as it happened."""
    row = connection.execute(sa.select(JOBS.c.rev, JOBS.c.document).where(JOBS.c.id == job_id)).one()
    text = row.document.removeprefix("\ufeff")
    photos = sa.select(PHOTOS.c.id, PHOTOS.c.at, PHOTOS.c.sha256).where(PHOTOS.c.job_id == job_id)
    shown = [
        {"id": one.id, "at": one.at, "sha256": one.sha256}
        for one in connection.execute(photos.order_by(PHOTOS.c.at, PHOTOS.c.id)).all()
    ]
    accepted = sa.select(ACCEPTANCES.c.link_id, ACCEPTANCES.c.at, ACCEPTANCES.c.pdf_sha256)
    agreed = [
        {"link": one.link_id, "at": one.at, "pdf_sha256": one.pdf_sha256}
        for one in connection.execute(accepted.where(ACCEPTANCES.c.job_id == job_id).order_by(ACCEPTANCES.c.at)).all()
    ]
    facts = {"rev": row.rev, "document_sha256": sha256(text.encode()), "photos": shown, "accepted": agreed}
    yield ToRecord(EntryKind.BEGUN, facts)
    fields = read_back(text)
    document = {} if fields.fault or fields.document is None else fields.document
    for part in sorted(EVIDENCE & document.keys()):
        if document[part] not in (None, [], {}, ""):
            yield ToRecord(EntryKind.STOOD, {"rev": row.rev, "part": part, "value": document[part]})


def _fields(connection: Connection, job_id: str) -> dict[str, Any]:
    text = connection.execute(sa.select(JOBS.c.document).where(JOBS.c.id == job_id)).scalar_one()
    read = read_back(text)
    return {} if read.fault or read.document is None else read.document
