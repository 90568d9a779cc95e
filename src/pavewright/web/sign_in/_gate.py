"""The gate: each request is let through for somebody who may, by the table of rights, or it is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse

from pavewright.store import StoreTroubleError, Who, acting_as
from pavewright.web._addresses import LOOPBACK
from pavewright.web._customers import is_for_customer
from pavewright.web._door import DEVICE, on_this_machine
from pavewright.web._long_tasks import LOG
from pavewright.web._rights import RIGHTS, Need
from pavewright.web._template import template_of
from pavewright.web._who_asks import SIGNED_IN
from pavewright.web.sign_in._guard import address_of
from pavewright.web.sign_in._sign_in_words import NOT_ALLOWED, SIGN_IN_FIRST, TOO_OFTEN

if TYPE_CHECKING:
    from starlette.responses import Response
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from pavewright.web._who_asks import SignedIn
    from pavewright.web.sign_in._guard import Guard

_KEPT_APART = ("/static/", "/sw.js")
_WATCHED = frozenset({"/health", "/ready"})
"""What is answered whether the accounts can be read or not."""
_FOR_PROGRAMS = ("/api/", "/metrics")
"""What programs read: who is refused there gets an answer and is not led to a page."""
_REFUSED_FROM = 400


class Gate:
    """Lets through who may; everybody while no person was entered."""

    def __init__(self, app: ASGIApp, guard: Guard) -> None:
        """Keep the application behind it, and who knows people."""
        self._app = app
        self._guard = guard

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or have it answered for somebody."""
        if scope["type"] != "http" or is_for_customer(scope) or _is_for_all(scope["path"]):
            await self._app(scope, receive, send)
            return
        try:
            asks = await self._guard.asker(scope) if await self._guard.anybody() else None
            refused = await self._refusal(scope, asks)
        except StoreTroubleError as trouble:
            refused, asks = JSONResponse({"message": trouble.message}, 503), None
        if refused is not None:
            await refused(scope, receive, send)
            return
        if asks is not None:
            scope.setdefault("state", {})["firm"] = asks.firm_id
        token = SIGNED_IN.set(asks)
        try:
            with acting_as(_who(asks)):
                await self._app(scope, receive, self._noting(scope, send))
        finally:
            SIGNED_IN.reset(token)

    async def _refusal(self, scope: Scope, asks: SignedIn | None) -> Response | None:
        """Return how a request is refused; None where it is not."""
        if not await self._guard.anybody():
            return None
        need = need_of(scope)
        if asks is None:
            if need is not None and need.from_here and on_this_machine(scope, LOOPBACK):
                return None
            if self._guard.often.is_too_often(address_of(scope)):
                return JSONResponse({"message": TOO_OFTEN}, 429, headers={"Retry-After": "60"})
            return None if need is not None and need.is_public else _sign_in_first(scope)
        if need is None:
            return self._not_listed(scope) if template_of(scope) else None
        return None if need.is_public or need.allows(asks) else _not_allowed(scope)

    def _not_listed(self, scope: Scope) -> Response:
        LOG.error("a route is not in the table of rights: %s", template_of(scope))
        return JSONResponse({"message": NOT_ALLOWED}, 403)

    def _noting(self, scope: Scope, send: Send) -> Send:
        """Return a sender that keeps what was done, where the table says so."""
        need = need_of(scope)
        if need is None or not need.noted or SIGNED_IN.get() is None:
            return send

        async def put(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] < _REFUSED_FROM:
                facts = {name: str(value) for name, value in scope.get("path_params", {}).items()}
                await self._guard.note(Request(scope), need.noted, facts)
            await send(message)

        return put


def _is_for_all(path: str) -> bool:
    return path.startswith(_KEPT_APART) or path in _WATCHED


def need_of(scope: Scope) -> Need | None:
    """Return what the route of a request asks; None where there is none or it is not listed."""
    method = "GET" if scope["method"] == "HEAD" else scope["method"]
    return RIGHTS.get((method, template_of(scope)))


def _not_allowed(scope: Scope) -> Response:
    if _is_page(scope) and scope["path"] == "/":
        return RedirectResponse("/you", 303, headers={"Cache-Control": "no-store"})
    return JSONResponse({"message": NOT_ALLOWED}, 403)


def _is_page(scope: Scope) -> bool:
    """Return whether somebody looks at the answer; the worker of the pages asks for them as for any file."""
    said = Headers(scope=scope).get("accept", "")
    path: str = scope["path"]
    return scope["method"] in {"GET", "HEAD"} and not path.startswith(_FOR_PROGRAMS) and "application/json" not in said


def _sign_in_first(scope: Scope) -> Response:
    if _is_page(scope):
        to = quote(scope["path"], safe="/")
        return RedirectResponse(f"/sign-in?to={to}", 303, headers={"Cache-Control": "no-store"})
    return JSONResponse({"message": SIGN_IN_FIRST, "sign_in": True}, 401, headers={"Cache-Control": "no-store"})


def _who(asks: SignedIn | None) -> Who | None:
    """Return who is noted with a change: the person, or the paired device where nobody signs in."""
    if asks is not None:
        return Who(asks.person_id, asks.name)
    device = DEVICE.get()
    return None if device is None else Who(f"device {device.id}", device.name)
