"""What was done in each revision of a job: read from where it was kept, found by comparing where it was not."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.job.operations import Done, between
from pavewright.store._documents import read_back
from pavewright.store._recording import record_step
from pavewright.store._tables import OPERATIONS, REVISIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy.engine import Connection


def fields_of(document: str) -> dict[str, Any] | None:
    """Return the fields of a kept document in the present version; None where it cannot be read as it was kept."""
    read = read_back(document)
    return None if read.fault else read.document


@dataclass(frozen=True, slots=True)
class Step:
    """What was done in one revision.

    Attributes:
        rev: The revision.
        sender: Who did it; empty where nobody said.
        sent: The operations as they were sent; None where they were done just so.
        landed: For each of them what was done in the document.
    """

    rev: int
    sender: str
    sent: tuple[dict[str, Any], ...] | None
    landed: tuple[tuple[dict[str, Any], ...], ...]

    @staticmethod
    def of(rev: int, before: dict[str, Any], after: dict[str, Any]) -> Step:
        """Return what was done between two documents."""
        return Step(rev, "", None, tuple((operation,) for operation in between(before, after)))

    def done(self, sender: str) -> Done:
        """Return the step as one sees it who sends again."""
        if not sender or self.sender != sender:
            return Done(self.landed)
        return Done(self.landed, self.sent or tuple(landed[0] for landed in self.landed))

    def is_own(self, sender: str) -> bool:
        """Return whether a sender did it, and it was done just as he meant it."""
        return bool(sender) and self.sender == sender and self.sent is None

    def touches(self, at: Sequence[Any]) -> bool:
        """Return whether something was done at a place, within it, or to what it belongs to."""
        return any(
            all(one == other for one, other in zip(operation["at"], at, strict=False))
            for landed in self.landed
            for operation in landed
        )


def log_step(connection: Connection, job_id: str, rev: int, step: Step) -> None:
    """Keep what was done in a revision, and record what of it is evidence."""
    sent = None if step.sent is None else json.dumps(step.sent)
    row = {"job_id": job_id, "rev": rev, "sender": step.sender, "sent": sent, "landed": json.dumps(step.landed)}
    connection.execute(OPERATIONS.insert().values(row))
    record_step(connection, job_id, rev, step.sender, step.landed)


def log_compared(connection: Connection, job_id: str, rev: int, before: str, after: str) -> None:
    """Keep what was done in a revision that came as a whole document; nothing where one of both cannot be read."""
    one, other = fields_of(before), fields_of(after)
    if one is not None and other is not None:
        log_step(connection, job_id, rev, Step.of(rev, one, other))


def steps_since(connection: Connection, job_id: str, base: int, rev: int) -> list[Step]:
    """Return what was done after one revision up to another; revisions without their operations are compared."""
    query = (
        sa.select(OPERATIONS.c.rev, OPERATIONS.c.sender, OPERATIONS.c.sent, OPERATIONS.c.landed)
        .where(OPERATIONS.c.job_id == job_id, OPERATIONS.c.rev > base, OPERATIONS.c.rev <= rev)
        .order_by(OPERATIONS.c.rev)
    )
    found: list[Step] = []
    upto = base
    for row in connection.execute(query).all():
        found += _compared(connection, job_id, upto, row.rev - 1)
        sent = None if row.sent is None else tuple(json.loads(row.sent))
        found.append(Step(row.rev, row.sender or "", sent, tuple(map(tuple, json.loads(row.landed)))))
        upto = row.rev
    return found + _compared(connection, job_id, upto, rev)


def _compared(connection: Connection, job_id: str, before: int, after: int) -> list[Step]:
    """Return what lies between two revisions, as one step."""
    if after <= before:
        return []
    query = sa.select(REVISIONS.c.rev, REVISIONS.c.document).where(
        REVISIONS.c.job_id == job_id, REVISIONS.c.rev.in_((before, after))
    )
    texts = {row.rev: row.document for row in connection.execute(query).all()}
    one, other = fields_of(texts.get(before, "")), fields_of(texts.get(after, ""))
    return [] if one is None or other is None else [Step.of(after, one, other)]
