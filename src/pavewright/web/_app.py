"""The application."""

from __future__ import annotations

import asyncio
import contextlib
import logging
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware

from pavewright.store import DocumentRefusedError, KeyUsedError, StoreTroubleError, Trouble, UnknownJob
from pavewright.web import _job_routes, _keeping, _pages, _plan_routes, _site_routes
from pavewright.web._answers import AskedWrongError, answer
from pavewright.web._crew import Crew, Refusal, WorkFailedError, WorkStoppedError
from pavewright.web._errands import Errands
from pavewright.web._safety import Safety, TooMuchError

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Store

_LOG = logging.getLogger("pavewright.web")
LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
"""Names by which a browser on this machine reaches it."""


def make_app(store: Store, crew: Crew | None = None, hosts: frozenset[str] = LOOPBACK) -> Starlette:
    """Return the application over a store.

    Args:
        store: Where jobs are kept.
        crew: Workers; its own where none are given.
        hosts: Names that it answers to.
    """
    workers = crew or Crew()

    @contextlib.asynccontextmanager
    async def life(app: Starlette) -> AsyncIterator[None]:
        app.state.store = store
        app.state.crew = workers
        app.state.errands = Errands(workers)
        app.state.summaries = {}
        app.state.backing_up = asyncio.Lock()
        warming = asyncio.create_task(workers.warm())
        tidying = asyncio.create_task(_keeping.keep_tidy(store))
        try:
            yield
        finally:
            warming.cancel()
            tidying.cancel()
            app.state.errands.close()
            await workers.close()

    return Starlette(
        routes=[*_job_routes.ROUTES, *_plan_routes.ROUTES, *_site_routes.ROUTES, *_keeping.ROUTES, *_pages.ROUTES],
        middleware=[Middleware(Safety, hosts=hosts)],
        exception_handlers={
            AskedWrongError: _asked_wrong,
            UnknownJob: _unknown,
            StoreTroubleError: _store_trouble,
            DocumentRefusedError: _refused,
            KeyUsedError: _refused,
            Refusal: _refused,
            WorkStoppedError: _too_long,
            WorkFailedError: _failed,
            TooMuchError: _too_much,
            HTTPException: _http,
        },
        lifespan=life,
    )


async def _asked_wrong(_request: Request, problem: Exception) -> Response:
    assert isinstance(problem, AskedWrongError)  # noqa: S101 - registered for it
    return answer({"message": problem.message}, problem.status)


async def _unknown(_request: Request, _problem: Exception) -> Response:
    return answer({"message": "There is no such job here."}, 404)


async def _store_trouble(_request: Request, problem: Exception) -> Response:
    """Answer that nothing was kept, and what to do: 507 where there is no room, else 503."""
    assert isinstance(problem, StoreTroubleError)  # noqa: S101 - registered for it
    _LOG.error("the store: %s", problem.message)
    return answer({"message": problem.message}, 507 if problem.trouble is Trouble.FULL else 503)


async def _refused(_request: Request, problem: Exception) -> Response:
    return answer({"message": str(problem)}, 422)


async def _too_long(_request: Request, problem: Exception) -> Response:
    return answer({"message": str(problem)}, 503)


async def _too_much(_request: Request, _problem: Exception) -> Response:
    return answer({"message": "That is more than is taken at once."}, 413)


async def _failed(_request: Request, problem: Exception) -> Response:
    _LOG.error("a worker failed: %s", problem)
    return answer({"message": "The program has a fault here. The job itself is safe."}, 500)


async def _http(_request: Request, problem: Exception) -> Response:
    assert isinstance(problem, HTTPException)  # noqa: S101 - registered for it
    words = {404: "There is no such page.", 405: "That cannot be done here."}
    return answer({"message": words.get(problem.status_code, problem.detail)}, problem.status_code)
