"""What a customer accepted is written into his job: after it is kept, and never in the way of it."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING, Any

from pavewright.job.operations import between
from pavewright.store import Batch, StoreTroubleError, UnknownJob, read_back
from pavewright.web._long_tasks import LOG
from pavewright.web._people import NOBODY
from pavewright.web._workers import BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError

if TYPE_CHECKING:
    from pavewright.store import Acceptance, Store
    from pavewright.web._firms import Firms
    from pavewright.web._workers import Workers

_SECONDS = 120.0
_NOT_NOW = (BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError, StoreTroubleError)


async def write_acceptance(firms: Firms, workers: Workers, acceptance: Acceptance) -> str:
    """Write what was accepted into its job; return why it could not be written, empty where it was.

    The acceptance itself is kept whether that succeeds or not; the contractor may have it written again.
    """
    try:
        why = await _write(firms.store(), workers, acceptance)
    except UnknownJob:
        return "There is no such job any more."
    except _NOT_NOW as problem:
        why = str(problem)
    if why:
        LOG.warning("what was accepted is not in its job yet: %s", why)
    return why


async def _write(store: Store, workers: Workers, acceptance: Acceptance) -> str:
    earlier = await asyncio.to_thread(store.quotations.document_with, acceptance)
    if earlier is not None:
        return await asyncio.to_thread(_put_back, store, acceptance, earlier)
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


def _put_back(store: Store, acceptance: Acceptance, earlier: str) -> str:
    """Write again what somebody took out of the job since, as it was written before."""
    kept = store.job(acceptance.job_id)
    now, then = _accepted_in(kept.document), _accepted_in(earlier)
    if then is None:
        return "What was written before cannot be read."
    if now != then:
        fields = read_back(kept.document).document or {}
        operations = tuple(between(fields, fields | {"accepted": then}))
        batch = Batch(f"{acceptance.key}-{kept.rev}", kept.rev, "", operations, "accepted by link, written again")
        store.operations.take(acceptance.job_id, batch)
    return ""


def is_written(store: Store, acceptance: Acceptance, document: str) -> bool:
    """Return whether a job holds what was accepted."""
    earlier = store.quotations.document_with(acceptance)
    return earlier is not None and _accepted_in(earlier) == _accepted_in(document) is not None


def _accepted_in(document: str) -> dict[str, Any] | None:
    found = (read_back(document).document or {}).get("accepted")
    return found if isinstance(found, dict) else None
