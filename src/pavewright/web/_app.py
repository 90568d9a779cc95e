"""The application."""

from __future__ import annotations

import asyncio
import contextlib
from functools import partial
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import DEFAULT_EXCLUDED_CONTENT_TYPES, GZipMiddleware

from pavewright.store import (
    DocumentRefusedError,
    Installation,
    InvitationClosedError,
    KeyUsedError,
    Store,
    StoreTroubleError,
    Trouble,
    UnknownJob,
)
from pavewright.web import (
    _account_routes,
    _better_routes,
    _calendar_routes,
    _customer_routes,
    _device_routes,
    _exchange_routes,
    _firm_routes,
    _health_routes,
    _hook_routes,
    _job_routes,
    _keeping,
    _list_routes,
    _openapi_routes,
    _operation_routes,
    _order_routes,
    _out_routes,
    _pages,
    _people_routes,
    _plan_routes,
    _quotation_routes,
    _record_routes,
    _replan_routes,
    _site_routes,
    live,
    sign_in,
)
from pavewright.web._acceptances import write_acceptance
from pavewright.web._addresses import LOOPBACK
from pavewright.web._answers import AskedWrongError, answer
from pavewright.web._calendar_at_hand import NeedsAtHand
from pavewright.web._counts import Counts
from pavewright.web._customers import ForCustomers, WrongTokens
from pavewright.web._door import Door
from pavewright.web._faults import Faults
from pavewright.web._firms import Firms
from pavewright.web._for_people import for_people
from pavewright.web._long_tasks import FAULT, LOG, OUTGREW, LongTasks
from pavewright.web._people import People
from pavewright.web._replanning import Replanning
from pavewright.web._safety import Safety, TooMuchError
from pavewright.web._sweeping import sweep_now_and_then
from pavewright.web._watched import Watched
from pavewright.web._workers import (
    BusyError,
    LeftError,
    Refusal,
    Workers,
    WorkFailedError,
    WorkOutgrewError,
    WorkStoppedError,
)
from pavewright.web.sign_in import Gate, Guard
from pavewright.web.sign_in._sign_in_words import CLOSED

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Awaitable, Callable

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._device_routes import OnNetwork
    from pavewright.web.sign_in import Passwords

_AGAIN_S = 20
"""After how long somebody who was refused may ask again. [s]"""
_PACKED = Middleware(
    GZipMiddleware,
    minimum_size=4000,
    compresslevel=1,
    exclude_content_types=(*DEFAULT_EXCLUDED_CONTENT_TYPES, "application/pdf", "application/vnd.sqlite3"),
)
"""Plans and scripts go to a phone at a fifth of their length; the quickest way of packing is nearly the shortest."""
_ROUTES = [
    *_list_routes.ROUTES,
    *_job_routes.ROUTES,
    *_order_routes.ROUTES,
    *_plan_routes.ROUTES,
    *_better_routes.ROUTES,
    *_account_routes.ROUTES,
    *_calendar_routes.ROUTES,
    *_site_routes.ROUTES,
    *_operation_routes.ROUTES,
    *live.ROUTES,
    *_keeping.ROUTES,
    *_device_routes.ROUTES,
    *_firm_routes.ROUTES,
    *_exchange_routes.ROUTES,
    *_openapi_routes.ROUTES,
    *_hook_routes.ROUTES,
    *_health_routes.ROUTES,
    *_quotation_routes.ROUTES,
    *_record_routes.ROUTES,
    *_replan_routes.ROUTES,
    *_customer_routes.ROUTES,
    *_people_routes.ROUTES,
    *_out_routes.ROUTES,
    *sign_in.ROUTES,
    *sign_in.PASSWORD_ROUTES,
    *sign_in.YOU_ROUTES,
    *_pages.ROUTES,
]
"""Every address of the server, in the order in which they are tried."""


def make_app(
    kept: Store | Installation,
    workers: Workers | None = None,
    hosts: frozenset[str] = LOOPBACK,
    on_network: OnNetwork | None = None,
    for_customers: ForCustomers | None = None,
    passwords: Passwords | None = None,
) -> Starlette:
    """Return the application over a store.

    Args:
        kept: Where jobs are kept: one store, or the firms of an installation.
        workers: Workers; its own where none are given.
        hosts: Names that it answers to.
        on_network: How other devices reach it; None where it is for this machine alone.
        for_customers: How customers reach their quotations; None where nothing is set up for that.
        passwords: How passwords are compared; as slowly as is advised where nothing is given.
    """
    workers, customers = workers or Workers(), for_customers or ForCustomers()
    installed = Installation(kept) if isinstance(kept, Store) else kept
    guard, counts = Guard(installed.accounts, passwords), Counts()

    @contextlib.asynccontextmanager
    async def life(app: Starlette) -> AsyncIterator[None]:
        _furnish(app, installed, workers, counts)
        app.state.on_network, app.state.for_customers, app.state.guard = on_network, customers, guard
        app.state.live = live.Live(installed, guard)
        warming = asyncio.create_task(workers.warm())
        tidying = asyncio.create_task(_keeping.keep_tidy(app.state.firms))
        sweeping = asyncio.create_task(sweep_now_and_then(installed))
        telling = asyncio.create_task(_hook_routes.tell_others(app.state.firms))
        watching = asyncio.create_task(app.state.live.watch())
        try:
            yield
        finally:
            warming.cancel()
            tidying.cancel()
            sweeping.cancel()
            telling.cancel()
            app.state.live.close()
            watching.cancel()
            app.state.long_tasks.close()
            await asyncio.to_thread(app.state.replanning.stop)
            await workers.close()

    return Starlette(
        routes=_ROUTES,
        middleware=[
            Middleware(Watched, counts=counts, accounts=installed.accounts),
            *_before_every_request(guard, installed, hosts, on_network, customers),
        ],
        exception_handlers=_ANSWERED,
        lifespan=life,
    )


def _furnish(app: Starlette, installed: Installation, workers: Workers, counts: Counts) -> None:
    """Give an application what its answers need."""
    firms = Firms(installed)
    app.state.firms = firms
    app.state.workers = workers
    workers.beside = firms.beside
    app.state.wrong_tokens = WrongTokens()
    app.state.write_acceptance = partial(write_acceptance, firms, workers)
    app.state.calendar_needs = NeedsAtHand(workers)
    app.state.long_tasks = LongTasks(workers)
    app.state.replanning = Replanning()
    app.state.counts = counts
    counts.watch_tasks(app.state.long_tasks.going)
    app.state.readiness = _health_routes.Readiness(installed)
    app.state.summaries = {}
    app.state.summing = asyncio.Lock()
    app.state.backing_up = asyncio.Lock()


def _before_every_request(
    guard: Guard, installed: Installation, hosts: frozenset[str], on_network: OnNetwork | None, customers: ForCustomers
) -> list[Middleware]:
    """Return what a request passes before it is answered, the outermost first."""
    safety = Middleware(Safety, hosts=hosts, own_address=on_network is not None, customers=customers.port)
    faults, gate = Middleware(Faults), Middleware(Gate, guard=guard)
    if on_network is None:
        return [safety, faults, gate, Middleware(People), _PACKED]
    # over a secure connection who signs in needs no pairing
    signs_in = guard.anybody if on_network.secure else _nobody_signs_in
    door = Middleware(Door, installed=installed, pairing=on_network.pairing, loopback=LOOPBACK, signs_in=signs_in)
    return [safety, faults, door, gate, Middleware(People), _PACKED]


async def _nobody_signs_in() -> bool:
    """Return that a device has to be paired, whoever signs in on it: else anybody in the network could try."""
    return False


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


async def _too_much(_request: Request, _problem: Exception) -> Response:
    return answer({"message": "That is more than is taken at once."}, 413)


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


_ANSWERED: dict[Any, Callable[[Request, Exception], Awaitable[Response]]] = {
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
_ANSWERED |= {kind: for_people(handler) for kind, handler in _ANSWERED.items()}
"""How each refusal is answered."""
