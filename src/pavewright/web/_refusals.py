"""How each refusal and each trouble of the application is answered: in words, with its status."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from starlette.exceptions import HTTPException

from pavewright.store import (
    DocumentRefusedError,
    InvitationClosedError,
    KeyUsedError,
    StoreTroubleError,
    Trouble,
    UnknownJob,
)
from pavewright.web._answers import AskedWrongError, answer
from pavewright.web._for_people import for_people
from pavewright.web._long_tasks import FAULT, LOG, OUTGREW
from pavewright.web._safety import TooMuchError
from pavewright.web._uploads import kind_at, too_much_of
from pavewright.web._workers import BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError
from pavewright.web.sign_in._sign_in_words import CLOSED

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from starlette.requests import Request
    from starlette.responses import Response

_AGAIN_S = 20
"""After how long somebody who was refused may ask again. [s]"""


async def _asked_wrong(_request: Request, problem: Exception) -> Response:
    assert isinstance(problem, AskedWrongError)  # noqa: S101 - registered for it
    return answer({"message": problem.message}, problem.status)


async def _unknown(_request: Request, _problem: Exception) -> Response:
    return answer({"message": "There is no such job here."}, 404)


async def _invitation_closed(_request: Request, _problem: Exception) -> Response:
    """Answer that a link opens nothing any more: somebody used it in this very moment."""
    return answer({"message": CLOSED}, 404)


async def _store_trouble(_request: Request, problem: Exception) -> Response:
    """Answer that nothing was kept, and what to do: 507 where there is no room, else 503."""
    assert isinstance(problem, StoreTroubleError)  # noqa: S101 - registered for it
    LOG.error("the store: %s", problem.message)
    return answer({"message": problem.message}, 507 if problem.trouble is Trouble.FULL else 503)


async def _refused(_request: Request, problem: Exception) -> Response:
    return answer({"message": str(problem)}, 422)


async def _too_long(_request: Request, problem: Exception) -> Response:
    return answer({"message": str(problem)}, 503)


async def _too_much(request: Request, _problem: Exception) -> Response:
    return answer({"message": too_much_of(kind_at(request.url.path))}, 413)


async def _failed(_request: Request, problem: Exception) -> Response:
    LOG.error("a worker failed: %s", problem)
    return answer({"message": FAULT}, 500)


async def _outgrew(_request: Request, problem: Exception) -> Response:
    LOG.warning("a worker was ended: %s", problem)
    return answer({"message": OUTGREW}, 503)


async def _busy(_request: Request, problem: Exception) -> Response:
    assert isinstance(problem, BusyError)  # noqa: S101 - registered for it
    refused = answer({"message": str(problem)}, 429 if problem.own else 503)
    refused.headers["Retry-After"] = str(_AGAIN_S)
    return refused


async def _left(_request: Request, problem: Exception) -> Response:
    """Answer a request that a newer one replaced; where the connection ended nobody reads it."""
    return answer({"message": str(problem), "replaced": True}, 409)


async def _http(_request: Request, problem: Exception) -> Response:
    assert isinstance(problem, HTTPException)  # noqa: S101 - registered for it
    words = {404: "There is no such page.", 405: "That cannot be done here."}
    return answer({"message": words.get(problem.status_code, problem.detail)}, problem.status_code)


ANSWERED: dict[Any, Callable[[Request, Exception], Awaitable[Response]]] = {
    AskedWrongError: _asked_wrong,
    UnknownJob: _unknown,
    InvitationClosedError: _invitation_closed,
    StoreTroubleError: _store_trouble,
    DocumentRefusedError: _refused,
    KeyUsedError: _refused,
    Refusal: _refused,
    WorkStoppedError: _too_long,
    WorkOutgrewError: _outgrew,
    WorkFailedError: _failed,
    BusyError: _busy,
    LeftError: _left,
    TooMuchError: _too_much,
    HTTPException: _http,
}
ANSWERED |= {kind: for_people(handler) for kind, handler in ANSWERED.items()}
"""How each refusal is answered."""
