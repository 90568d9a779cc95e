"""Operations on a job that pages send, and clashes that a person settles.

``POST /api/jobs/{job}/operations`` takes ``{"key", "rev", "operations", "note", "from"}``: a name that makes the batch
count once, the revision that the sender had taken in, the operations, what was done in a few words and, where it has
one, the name of the page. No operations keep the job as it is under its note. It answers ``{"rev", "clashes",
"repeated"}`` with the clashes that are open, and where the job is not what the sender has himself ``document``, and
``by`` whom else it was changed.

``POST /api/jobs/{job}/clashes/{clash}`` takes ``{"pick": "theirs"}`` to take over what was sent, or ``"ours"`` to keep
what stands in the job, and answers ``{"rev", "clashes", "document"}``.
"""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.desk import DeliveryRefusedError, deliver_into
from pavewright.job.operations import OperationRefusedError, checked_operations
from pavewright.store import Batch
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in, whole_in
from pavewright.web._money_hidden import hides_money, keep_money
from pavewright.web._signed_in import store_of
from pavewright.web._told import by_whom, clashes_of, told_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


OPERATIONS = "operations"
"""The kind of a delivery that holds operations."""
_PICKS = {"theirs": True, "ours": False}


def batch_in(asked: dict[str, Any], key: str, operations: str, note: str) -> Batch:
    """Return operations that were sent, under a key.

    Raises:
        AskedWrongError: they are none.
    """
    sender = text_in(asked, "from", 64, default="")
    given = asked.get(operations)
    try:
        found = [] if given == [] and note else checked_operations(given)
    except OperationRefusedError as problem:
        raise AskedWrongError(422, str(problem)) from problem
    return Batch(key, whole_in(asked, "rev"), name_in(sender) if sender else "", tuple(found), note)


async def _operate(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    asked = await sent(request)
    key, note = name_in(text_in(asked, "key", 64)), text_in(asked, "note", 200, default="")
    batch = batch_in(asked, key, "operations", note)
    await keep_money(store, job_id, batch.operations)
    done = await asyncio.to_thread(store.operations.take, job_id, batch)
    told: dict[str, Any] = {"rev": done.rev, "repeated": done.repeated}
    if done.document is not None:
        told |= await asyncio.to_thread(told_of, done.document)
    if done.document is not None and not done.repeated:
        # the last revision is the sender's own
        told["by"] = await asyncio.to_thread(by_whom, request, job_id, batch.rev, done.rev - 1)
    return answer(told | {"clashes": await asyncio.to_thread(clashes_of, store, job_id)})


async def _settle(request: Request) -> Response:
    store = store_of(request)
    job_id, clash_id = name_in(request.path_params["job"]), name_in(request.path_params["clash"])
    pick = text_in(await sent(request), "pick", 8)
    if pick not in _PICKS:
        raise AskedWrongError(400, "pick is to be theirs or ours.")
    shown = await asyncio.to_thread(clashes_of, store, job_id)
    if hides_money() and clash_id not in {each["id"] for each in shown}:
        raise AskedWrongError(403, "This is for somebody who sees what the job costs.")
    try:
        await asyncio.to_thread(store.operations.settle, job_id, clash_id, theirs=_PICKS[pick], deliver=deliver_into)
    except DeliveryRefusedError as problem:
        raise AskedWrongError(422, str(problem)) from problem
    kept = await asyncio.to_thread(store.job, job_id)
    told = {"rev": kept.rev, "clashes": await asyncio.to_thread(clashes_of, store, job_id)}
    return answer(told | told_of(kept.document))


ROUTES = (
    Route("/api/jobs/{job}/operations", _operate, methods=["POST"]),
    Route("/api/jobs/{job}/clashes/{clash}", _settle, methods=["POST"]),
)
