"""Every request gets a name, is counted, and is written down in a line where lines are written."""

from __future__ import annotations

import asyncio
import logging
import secrets
import time
from typing import TYPE_CHECKING

from starlette.datastructures import Headers, MutableHeaders

from pavewright.store import StoreTroubleError
from pavewright.web._log import OURS, REQUEST
from pavewright.web._template import template_of

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from pavewright.store import Accounts
    from pavewright.web._counts import Counts

REQUESTS = logging.getLogger(f"{OURS}.requests")
"""Who writes the line of each request."""
HEADER = "X-Request-Id"
"""By what an answer tells the name of its request."""
_METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
_FAULT = 500
_MS_PER_S = 1e3
"""Milliseconds in a second. [ms/s]"""


class Watched:
    """Stands before everything: what is refused is counted too."""

    def __init__(self, app: ASGIApp, counts: Counts, accounts: Accounts) -> None:
        """Keep the application behind it, what counts, and who knows the firms."""
        self._app = app
        self._counts = counts
        self._accounts = accounts
        self._firms: dict[str, int] = {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Have a request answered, then count it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        name, begun_s, status = secrets.token_hex(8), time.perf_counter(), _FAULT

        async def put(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                MutableHeaders(scope=message)[HEADER] = name
            await send(message)

        token = REQUEST.set(name)
        try:
            await self._app(scope, receive, put)
        finally:
            try:
                await self._note(scope, status, time.perf_counter() - begun_s)
            finally:
                REQUEST.reset(token)

    async def _note(self, scope: Scope, status: int, took_s: float) -> None:
        route = template_of(scope) or "none"
        method = scope["method"] if scope["method"] in _METHODS else "other"
        with_token = "authorization" in Headers(scope=scope)
        self._counts.answered(route, method, status, took_s, with_token=with_token)
        if REQUESTS.isEnabledFor(logging.INFO):
            told = {"route": route, "method": method, "status": status, "ms": round(took_s * _MS_PER_S, 1)}
            firm = await self._number_of(scope.get("state", {}).get("firm"))
            REQUESTS.info("request", extra={"told": told | ({} if firm is None else {"firm": firm})})

    async def _number_of(self, firm_id: str | None) -> int | None:
        """Return the number of a firm, in the order in which they were entered; None where it is not known."""
        if firm_id is not None and firm_id not in self._firms:
            try:
                firms = await asyncio.to_thread(self._accounts.firms)
            except StoreTroubleError:
                return None
            self._firms = {firm.id: number for number, firm in enumerate(firms, 1)}
        return None if firm_id is None else self._firms.get(firm_id)
