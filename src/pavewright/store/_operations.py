"""Operations that are sent: merged into the job as it is now, counted once, and what clashes kept for a person."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.job import up_to_date
from pavewright.job.operations import MISSING, Clash, ClashKind, Following, apply, taken_over
from pavewright.store._clock import now
from pavewright.store._documents import DocumentRefusedError, checked
from pavewright.store._log import Step, fields_of, log_compared, log_step, steps_since
from pavewright.store._saving import kept_in, save_on, saved_under
from pavewright.store._tables import CLASHES, OPERATIONS, REVISIONS
from pavewright.store._turns import turn_at
from pavewright.store._types import ClashRow, KeyUsedError, Operated, UnknownJob
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    from pavewright.store._types import Kept


_MOST_BYTES = 5_000_000
"""Most that a job document may hold. [bytes]"""


@dataclass(frozen=True, slots=True)
class Batch:
    """Operations that are sent together.

    Attributes:
        key: Name that the sender gave them: they count once, however often they are sent.
        rev: The revision of the job that the sender had taken in when they were made.
        sender: Name of the page or phone that sends them; empty where it gives none.
        operations: What was done, on that revision and what the sender sent since.
        note: What was done, in a few words.
    """

    key: str
    rev: int
    sender: str
    operations: tuple[dict[str, Any], ...]
    note: str


class Operations:
    """The operations on the jobs of one store."""

    def __init__(
        self,
        writing: Callable[[], AbstractContextManager[Connection]],
        reading: Callable[[], AbstractContextManager[Connection]],
    ) -> None:
        """Keep how the store gives connections."""
        self._writing, self._reading = writing, reading

    def take(self, job_id: str, batch: Batch) -> Operated:
        """Merge operations into a job, once.

        Raises:
            DocumentRefusedError: the job cannot be read, or could not be read again.
            UnknownJob: none of that name.
            KeyUsedError: the key belongs to other operations.
        """
        with self._writing() as connection:
            turn_at(connection, job_id)
            return taken(connection, job_id, batch)

    def clashes(self, job_id: str) -> tuple[ClashRow, ...]:
        """Return the clashes of a job that nobody settled, the earliest first."""
        with self._reading() as connection:
            return _clashes(connection, job_id)

    def following(self, job_id: str, rev: int) -> Following:
        """Return what things are called now, by what they were called in a revision of a job.

        Raises:
            UnknownJob: none of that name.
        """
        with self._reading() as connection:
            kept = kept_in(connection, job_id)
            steps = steps_since(connection, job_id, min(max(rev, 1), kept.rev), kept.rev)
        return Following().after(step.done("") for step in steps)

    def settle(self, job_id: str, clash_id: str, *, theirs: bool, deliver: Callable[[str, dict[str, Any]], str]) -> int:
        """Settle a clash by what was sent, or by what stands in the document, and return the revision.

        Args:
            job_id: The job.
            clash_id: The clash.
            theirs: Whether what was sent is to hold.
            deliver: Puts readings that were kept beside a job into its document; may raise, then the clash stays.

        Raises:
            UnknownJob: no such clash.
            DocumentRefusedError: what was sent cannot be done any more; the clash stays.
        """
        with self._writing() as connection:
            turn_at(connection, job_id)
            return _settle(connection, job_id, clash_id, deliver if theirs else None)


def taken(connection: Connection, job_id: str, batch: Batch) -> Operated:
    """Merge operations into a job, over an open connection."""
    known = saved_under(connection, job_id, batch.key)
    kept = kept_in(connection, job_id)
    if known is not None:
        return _repeated(connection, kept, batch, known.rev)
    before = fields_of(kept.document)
    if before is None:
        message = "This job cannot be read as it is kept: open it and go back to a revision first."
        raise DocumentRefusedError(message)
    # a store that was brought back from a backup is older than what its senders have seen
    base = min(batch.rev or kept.rev, kept.rev)
    steps = steps_since(connection, job_id, base, kept.rev)
    following = Following().after(step.done(batch.sender) for step in steps)
    done = apply(before, [following.followed(operation) for operation in batch.operations])
    text = json.dumps(done.document, ensure_ascii=False, indent=1)
    if len(text.encode()) > _MOST_BYTES:
        message = "With this the job would be longer than any job: take out what is not needed first."
        raise DocumentRefusedError(message)
    rev = save_on(connection, job_id, kept.rev, checked(text), batch.note, batch.key)
    as_sent = all(
        len(landed) == 1 and landed[0] == sent for landed, sent in zip(done.landed, batch.operations, strict=True)
    )
    log_step(connection, job_id, rev, Step(rev, batch.sender, None if as_sent else batch.operations, done.landed))
    for number, clash in enumerate(done.clashes):
        _keep_clash(connection, job_id, _Found(batch, base, rev, number), clash, steps)
    alone = as_sent and not done.clashes and all(step.is_own(batch.sender) for step in steps)
    return Operated(rev, repeated=False, document=None if alone else text)


def _repeated(connection: Connection, kept: Kept, batch: Batch, rev: int) -> Operated:
    """Answer a batch that came before: the job as it is, where the sender has not all of it."""
    row = connection.execute(
        sa.select(OPERATIONS.c.sent, OPERATIONS.c.landed).where(OPERATIONS.c.job_id == kept.id, OPERATIONS.c.rev == rev)
    ).one_or_none()
    if row is None:
        raise KeyUsedError
    sent = [each[0] for each in json.loads(row.landed)] if row.sent is None else json.loads(row.sent)
    if sent != json.loads(json.dumps(batch.operations)):
        raise KeyUsedError
    return Operated(kept.rev, repeated=True, document=kept.document)


@dataclass(frozen=True, slots=True)
class _Found:
    """Where a clash was found."""

    batch: Batch
    base: int
    rev: int
    number: int


def _keep_clash(connection: Connection, job_id: str, found: _Found, clash: Clash, steps: Sequence[Step]) -> None:
    body: dict[str, Any] = {"kind": clash.kind, "operation": clash.operation}
    body |= {name: value for name, value in (("ours", clash.ours), ("theirs", clash.theirs)) if value is not MISSING}
    step = next((step for step in reversed(steps) if step.touches(clash.operation["at"])), None)
    if step is not None:
        query = sa.select(REVISIONS.c.at, REVISIONS.c.note).where(
            REVISIONS.c.job_id == job_id, REVISIONS.c.rev == step.rev
        )
        at = connection.execute(query).one()
        body["ours_from"] = {"rev": step.rev, "at": at.at, "note": at.note}
    keep_clash(connection, job_id, found.batch.key, found.number, (found.rev, found.base, found.batch.note, body))


def keep_clash(
    connection: Connection, job_id: str, key: str, number: int, clash: tuple[int, int, str, dict[str, Any]]
) -> None:
    """Keep a clash: the revision in which it arose, the one that its sender had, the note, and what it is."""
    rev, base, note, body = clash
    name = hashlib.sha256(f"{key}/{number}".encode()).hexdigest()[:16]
    row = {"id": name, "job_id": job_id, "at": now(), "rev": rev, "base": base, "note": note, "body": json.dumps(body)}
    connection.execute(CLASHES.insert().values(row))


def _clashes(connection: Connection, job_id: str) -> tuple[ClashRow, ...]:
    query = (
        sa.select(CLASHES.c.id, CLASHES.c.at, CLASHES.c.rev, CLASHES.c.note, CLASHES.c.body)
        .where(CLASHES.c.job_id == job_id, CLASHES.c.settled.is_(None))
        .order_by(CLASHES.c.rev, CLASHES.c.at, CLASHES.c.id)
    )
    return tuple(
        ClashRow(row.id, row.at, row.rev, row.note, json.loads(row.body)) for row in connection.execute(query).all()
    )


def _settle(
    connection: Connection, job_id: str, clash_id: str, deliver: Callable[[str, dict[str, Any]], str] | None
) -> int:
    row = connection.execute(
        sa.select(CLASHES).where(CLASHES.c.job_id == job_id, CLASHES.c.id == clash_id)
    ).one_or_none()
    if row is None:
        raise UnknownJob(job_id)
    kept = kept_in(connection, job_id)
    if row.settled is not None:
        return kept.rev
    body, rev = json.loads(row.body), kept.rev
    if deliver is not None:
        readings = body["kind"] == ClashKind.DELIVERY
        document = deliver(kept.document, body["delivery"]) if readings else _with_theirs(connection, kept, row, body)
        rev = save_on(connection, job_id, kept.rev, checked(document), f"picked: {row.note}"[:200])
        log_compared(connection, job_id, rev, kept.document, document)
    picked = {"settled": now(), "pick": "ours" if deliver is None else "theirs", "who": who_acts() or None}
    connection.execute(CLASHES.update().where(CLASHES.c.job_id == job_id, CLASHES.c.id == clash_id).values(picked))
    return rev


_GONE = (
    "What this belongs to is not in the job any more and cannot be brought back from here: add it again first, or keep "
    "the job as it is."
)


def _with_theirs(connection: Connection, kept: Kept, row: Any, body: dict[str, Any]) -> str:  # noqa: ANN401 - a row
    """Return the document of a job with what was sent."""
    document = fields_of(kept.document)
    query = sa.select(REVISIONS.c.document).where(REVISIONS.c.job_id == kept.id, REVISIONS.c.rev == row.base)
    base = fields_of(connection.execute(query).scalar_one())
    steps = steps_since(connection, kept.id, row.rev, kept.rev)
    operation = Following().after(step.done("") for step in steps).followed(body["operation"])
    done = None if document is None else taken_over(document, ClashKind(body["kind"]), operation, base or {})
    if done is None:
        raise DocumentRefusedError(_GONE)
    return json.dumps(up_to_date(done), ensure_ascii=False, indent=1)
