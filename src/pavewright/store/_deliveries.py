"""What phones and site sheets send: kept once, in the job or, where that cannot take it any more, beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.job.operations import ClashKind
from pavewright.record import EntryKind, sha256
from pavewright.store._clock import now
from pavewright.store._documents import checked
from pavewright.store._log import log_compared
from pavewright.store._operations import keep_clash, taken
from pavewright.store._recording import ToRecord, record
from pavewright.store._saving import kept_in, save_on
from pavewright.store._tables import DELIVERIES, REVISIONS
from pavewright.store._turns import turn_at
from pavewright.store._types import Delivery
from pavewright.store._who import who_acts

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    from pavewright.store._operations import Batch
    from pavewright.store._types import Kept

_LOOKED_BACK = 50
"""So many revisions are asked whether they would have taken what the present one does not."""


@dataclass(frozen=True, slots=True)
class Aside:
    """What is to become of something that a job does not take.

    Attributes:
        refusal: How ``change`` says that it is not taken.
        rev: The revision that the sender had; 0 where nobody knows.
        body: What is kept for a person, given that one of the documents since then would have taken it.
    """

    refusal: type[Exception]
    rev: int
    body: dict[str, Any]


class Deliveries:
    """What was sent to the jobs of one store."""

    def __init__(self, writing: Callable[[], AbstractContextManager[Connection]]) -> None:
        """Keep how the store gives a connection to write by."""
        self._writing = writing

    def take(
        self,
        delivery_id: str,
        job_id: str,
        body: str,
        change: Callable[[str], str] | Batch,
        note: str,
        aside: Aside | None = None,
    ) -> Delivery:
        """Change a job by something that was sent, once, however often it is sent.

        Args:
            delivery_id: Name that the sender gave it.
            job_id: The job.
            body: What was sent, kept as it came.
            change: Takes the document and returns the changed one, or raises, then nothing is kept; or operations.
            note: What was done, in a few words.
            aside: What is kept for a person where the job would have taken it before; None where nothing is.

        Raises:
            DocumentRefusedError: the changed document could not be read again.
            UnknownJob: none of that name.
        """
        with self._writing() as connection:
            turn_at(connection, job_id)
            known = connection.execute(
                sa.select(DELIVERIES.c.rev).where(DELIVERIES.c.job_id == job_id, DELIVERIES.c.id == delivery_id)
            ).scalar_one_or_none()
            if known is not None:
                return Delivery(known, repeated=True)
            kept = kept_in(connection, job_id)
            if callable(change):
                rev = _changed(connection, kept, delivery_id, change, (note, aside))
            else:
                rev = taken(connection, job_id, change).rev
            row = {"id": delivery_id, "job_id": job_id, "at": now(), "rev": rev, "body": body}
            row["who"] = who_acts() or None
            connection.execute(DELIVERIES.insert().values(row))
            facts = {"id": delivery_id, "rev": rev, "note": note, "sha256": sha256(body.encode())}
            record(connection, job_id, ToRecord(EntryKind.DELIVERY, facts))
        return Delivery(rev, repeated=False)


def _changed(
    connection: Connection,
    kept: Kept,
    delivery_id: str,
    change: Callable[[str], str],
    told: tuple[str, Aside | None],
) -> int:
    """Change the job, or keep what it does not take any more beside it; return the revision."""
    note, aside = told
    refusals = (aside.refusal,) if aside is not None else ()
    try:
        text = change(kept.document)
    except refusals as refusal:
        if aside is None or not _was_taken(connection, kept, change, aside):
            raise
        body = aside.body | {"kind": ClashKind.DELIVERY, "message": str(refusal)}
        keep_clash(connection, kept.id, delivery_id, 0, (kept.rev, aside.rev or kept.rev, note, body))
        return kept.rev
    rev = save_on(connection, kept.id, kept.rev, checked(text), note)
    log_compared(connection, kept.id, rev, kept.document, text)
    return rev


def _was_taken(connection: Connection, kept: Kept, change: Callable[[str], str], aside: Aside) -> bool:
    """Return whether a document since the one that the sender had would have taken it."""
    for document in _earlier(connection, kept, aside.rev):
        try:
            change(document)
        except aside.refusal:
            continue
        return True
    return False


def _earlier(connection: Connection, kept: Kept, rev: int) -> Iterator[str]:
    query = (
        sa.select(REVISIONS.c.document)
        .where(REVISIONS.c.job_id == kept.id, REVISIONS.c.rev >= rev, REVISIONS.c.rev < kept.rev)
        .order_by(REVISIONS.c.rev.desc())
        .limit(_LOOKED_BACK)
    )
    return (row.document.removeprefix("\ufeff") for row in connection.execute(query).all())
