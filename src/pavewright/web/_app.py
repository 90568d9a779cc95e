"""The application."""

from __future__ import annotations

import asyncio
import contextlib
from functools import partial
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import DEFAULT_EXCLUDED_CONTENT_TYPES, GZipMiddleware

from pavewright.store import (
    Installation,
    Store,
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
from pavewright.web._calendar_at_hand import NeedsAtHand
from pavewright.web._counts import Counts
from pavewright.web._customers import ForCustomers, WrongTokens
from pavewright.web._door import Door
from pavewright.web._faults import Faults
from pavewright.web._firms import Firms
from pavewright.web._long_tasks import LongTasks
from pavewright.web._people import People
from pavewright.web._refusals import ANSWERED
from pavewright.web._replanning import Replanning
from pavewright.web._safety import Safety
from pavewright.web._sweeping import sweep_now_and_then
from pavewright.web._watched import Watched
from pavewright.web._workers import (
    Workers,
)
from pavewright.web.sign_in import Gate, Guard

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from pavewright.web._device_routes import OnNetwork
    from pavewright.web._scanning import Scanner
    from pavewright.web.sign_in import Passwords

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
    scanner: Scanner | None = None,
) -> Starlette:
    """Return the application over a store.

    Args:
        kept: Where jobs are kept: one store, or the firms of an installation.
        workers: Workers; its own where none are given.
        hosts: Names that it answers to.
        on_network: How other devices reach it; None where it is for this machine alone.
        for_customers: How customers reach their quotations; None where nothing is set up for that.
        passwords: How passwords are compared; as slowly as is advised where nothing is given.
        scanner: What looks at each file that is sent; None where nothing does.
    """
    workers, customers = workers or Workers(), for_customers or ForCustomers()
    installed = Installation(kept) if isinstance(kept, Store) else kept
    guard, counts = Guard(installed.accounts, passwords), Counts()

    @contextlib.asynccontextmanager
    async def life(app: Starlette) -> AsyncIterator[None]:
        _furnish(app, installed, workers, counts)
        app.state.on_network, app.state.for_customers, app.state.guard = on_network, customers, guard
        app.state.scanner = scanner
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
        exception_handlers=ANSWERED,
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
