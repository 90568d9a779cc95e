"""The account of a job, and the steps of it that need a sum or a plan.

``POST /api/account`` takes a job document and answers its account. ``POST /api/account/step`` takes a line of JSON,
``{"step", "on", …}``, and a job document; it answers ``{"operations"}`` that write the step into the job.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from starlette.routing import Route

from pavewright.desk import AccountStep
from pavewright.web._answers import AskedWrongError, answer_bytes, body_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._workers import Workers

_ACCOUNT_S, _STEP_S = 20.0, 120.0
_STEPS = frozenset(step.value for step in AccountStep)


async def _account(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask_kept("plan", "account", await body_of(request), seconds=_ACCOUNT_S))


async def _step(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    body = await body_of(request)
    head, _, document = body.partition(b"\n")
    try:
        asked = json.loads(head)
    except (ValueError, RecursionError):
        asked = None
    if not isinstance(asked, dict) or asked.get("step") not in _STEPS or not document:
        raise AskedWrongError(400, "Send a line of JSON with the step, and the job after it.")
    return answer_bytes(await workers.ask_kept("plan", "account_step", body, seconds=_STEP_S))


ROUTES = (
    Route("/api/account", _account, methods=["POST"]),
    Route("/api/account/step", _step, methods=["POST"]),
)
"""Routes of the account."""
