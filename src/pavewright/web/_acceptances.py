"""What a customer accepted is written into his job: after it is kept, and never in the way of it."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING

from pavewright.store import Batch, StoreTroubleError, UnknownJob
from pavewright.web._long_tasks import LOG
from pavewright.web._people import NOBODY
from pavewright.web._workers import BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError

if TYPE_CHECKING:
    from pavewright.store import Acceptance, Store
    from pavewright.web._workers import Workers

_SECONDS = 120.0
_NOT_NOW = (BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError, StoreTroubleError)


async def write_acceptance(store: Store, workers: Workers, acceptance: Acceptance) -> str:
    """Write what was accepted into its job; return why it could not be written, empty where it was.

    The acceptance itself is kept whether that succeeds or not; the contractor may have it written again.
    """
    try:
        why = await _write(store, workers, acceptance)
    except UnknownJob:
        return "There is no such job any more."
    except _NOT_NOW as problem:
        why = str(problem)
    if why:
        LOG.warning("what was accepted is not in its job yet: %s", why)
    return why


async def _write(store: Store, workers: Workers, acceptance: Acceptance) -> str:
    if await asyncio.to_thread(store.quotations.document_with, acceptance) is not None:
        return ""
    what = acceptance.accepted
    head = {
        "by": what.name,
        "at": acceptance.at,
        "numbers": what.options,
        "names": what.names,
        "rev": acceptance.rev,
        "sha256": acceptance.pdf_sha256,
        "total_minor": what.total_minor,
    }
    quoted = await asyncio.to_thread(store.revision, acceptance.job_id, acceptance.rev)
    payload = json.dumps(head, ensure_ascii=False).encode() + b"\n" + (quoted.document or "").encode()
    found = json.loads(await workers.ask("long", "accept", payload, seconds=_SECONDS, asker=NOBODY))
    if found["operations"] is None:
        return str(found["why"])
    batch = Batch(acceptance.key, acceptance.rev, "", tuple(found["operations"]), "accepted by link")
    await asyncio.to_thread(store.operations.take, acceptance.job_id, batch)
    return ""
