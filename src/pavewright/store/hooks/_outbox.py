"""Keeping what is to be told, in the step of the database that makes the change."""

from __future__ import annotations

import json
import secrets
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.hooks._tables import HOOKS, MESSAGES
from pavewright.store.hooks._types import Event, MessageState

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


def post(connection: Connection, event: Event, facts: dict[str, Any]) -> None:
    """Keep an event for every address that is told of it; it goes out when this change is kept, and not before.

    Args:
        connection: The one that makes the change.
        event: What happened.
        facts: What is told of it: names of jobs and links and numbers of revisions, no person and no money.
    """
    hooks = connection.execute(sa.select(HOOKS.c.id, HOOKS.c.events)).all()
    wanted = [hook.id for hook in hooks if event.value in hook.events.split(" ")]
    at = now()
    body = json.dumps({"type": event.value, "timestamp": at, "data": facts}, separators=(",", ":"))
    for hook_id in wanted:
        row = {"id": f"msg_{secrets.token_hex(12)}", "hook_id": hook_id, "event": event.value, "body": body}
        row |= {"made": at, "due": at, "tries": 0, "state": MessageState.WAITING.value, "told": ""}
        connection.execute(MESSAGES.insert().values(row))


def post_revision(connection: Connection, job_id: str, rev: int, document: str, before: sa.Select[Any]) -> None:
    """Keep that a job was changed, and that money came in where its list of payments is longer than it was.

    Args:
        connection: The one that makes the change.
        job_id: The job.
        rev: Its new revision.
        document: The new document.
        before: Asks for the document before; it has no answer for a new job.
    """
    if connection.execute(sa.select(HOOKS.c.id).limit(1)).first() is None:
        return
    post(connection, Event.JOB_CHANGED, {"job": job_id, "rev": rev})
    paid = _payments(document)
    if paid > _payments(connection.execute(before).scalar_one_or_none()):
        post(connection, Event.PAID, {"job": job_id, "rev": rev, "payments": paid})


def _payments(document: str | None) -> int:
    """Return how many payments a document lists; zero where it cannot be read."""
    try:
        found = json.loads(document or "{}")
    except (ValueError, RecursionError):
        return 0
    received = found.get("received") if isinstance(found, dict) else None
    return len(received) if isinstance(received, list) else 0
