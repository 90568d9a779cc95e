"""The door to the network: off this machine only paired devices are answered, and customers what their link opens."""

from __future__ import annotations

import asyncio
import base64
import contextlib
import hashlib
import time
from contextvars import ContextVar
from http.cookies import CookieError, SimpleCookie
from importlib.resources import files
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from jinja2 import BaseLoader, Environment
from markupsafe import Markup
from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse

from pavewright.store import StoreTroubleError
from pavewright.web._addresses import is_loopback
from pavewright.web._customers import is_for_customer
from pavewright.web._pairing import TooManyWrongError, device_name
from pavewright.web._safety import TooMuchError

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from starlette.responses import Response
    from starlette.types import ASGIApp, Receive, Scope, Send

    from pavewright.store import Device, Installation, Store
    from pavewright.web._pairing import Pairing

_COOKIE = "pavewright-device"
_KEPT_S = 365 * 24 * 3600
_SEEN_AFTER_S = 600.0
_FORM_MAX = 2000
_PATH = "/pair"

DEVICE: ContextVar[Device | None] = ContextVar("device", default=None)
"""The paired device that asks; None for this machine."""


def on_this_machine(scope: Scope, hosts: frozenset[str]) -> bool:
    """Return whether a request comes from this machine and means this machine.

    Args:
        scope: The request: its connection has to begin and end on the loopback, and its host name to be one of it.
        hosts: Names of the loopback.
    """
    client, server = scope.get("client"), scope.get("server")
    host = Headers(scope=scope).get("host", "")
    name = host.partition("]")[0] + "]" if host.startswith("[") else host.partition(":")[0]
    return bool(client and server and is_loopback(client[0]) and is_loopback(server[0]) and name in hosts)


class Door:
    """Lets this machine and paired devices in, pairs a device by a word, and answers nothing else."""

    def __init__(
        self,
        app: ASGIApp,
        installed: Installation,
        pairing: Pairing,
        loopback: frozenset[str],
        signs_in: Callable[[], Awaitable[bool]],
    ) -> None:
        """Keep the application behind it, the firms, and who says whether everybody signs in behind this door."""
        self._app = app
        self._installed = installed
        self._pairing = pairing
        self._loopback = loopback
        self._signs_in = signs_in
        self._seen: dict[str, float] = {}
        self._firms: dict[str, str] = {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or have it answered; what a customer opens needs his link and no pairing."""
        if scope["type"] != "http" or on_this_machine(scope, self._loopback) or is_for_customer(scope):
            await self._app(scope, receive, send)
            return
        try:
            device = await self._device(scope)
            if device is None and not await self._signs_in():
                answered = await self._stranger(Request(scope, receive))
                await answered(scope, receive, send)
                return
        except StoreTroubleError as trouble:
            await JSONResponse({"message": trouble.message}, 503)(scope, receive, send)
            return
        token = DEVICE.set(device)
        try:
            await self._app(scope, receive, send)
        finally:
            DEVICE.reset(token)

    async def _device(self, scope: Scope) -> Device | None:
        token = _token_in(Headers(scope=scope).get("cookie", ""), _cookie_of(scope))
        found = await asyncio.to_thread(self._found, token) if token else None
        if found is None:
            return None
        store, device = found
        if time.monotonic() - self._seen.get(device.id, -_SEEN_AFTER_S) >= _SEEN_AFTER_S:
            self._seen[device.id] = time.monotonic()
            await asyncio.to_thread(store.devices.note_seen, device.id)
        return device

    def _found(self, token: str) -> tuple[Store, Device] | None:
        """Return the device of a token with the store of its firm; None where there is none or it was withdrawn."""
        key = hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
        if key in self._firms:
            store = self._installed.store_of(self._firms[key])
            device = store.devices.of_token(token)
            if device is not None:
                return store, device
            del self._firms[key]
        found = self._installed.find(lambda store: store.devices.of_token(token))
        if found is None:
            return None
        firm_id, store, device = found
        self._firms[key] = firm_id
        return store, device

    async def _stranger(self, request: Request) -> Response:
        """Answer a device that is not paired: the page that pairs it, or that it has to be."""
        path = request.url.path
        if path != _PATH and not path.startswith(f"{_PATH}/"):
            if "text/html" in request.headers.get("accept", ""):
                return _page("not paired", status=401)
            return JSONResponse({"message": "This device is not paired: scan the code on the office machine."}, 401)
        word = path.removeprefix(_PATH).strip("/")
        try:
            if request.method == "POST":
                return await self._pair(request)
            return _page("name it" if word and self._pairing.holds(word) else "type it" if not word else "wrong", word)
        except TooManyWrongError:
            return _page("wait", status=429)

    async def _pair(self, request: Request) -> Response:
        body = await _form_of(request)
        word, name = body.get("word", ""), device_name(body.get("name", ""))
        if not self._pairing.holds(word):
            return _page("wrong", status=403)
        if not name:
            return _page("name it", word, status=422)
        firm_id = self._pairing.use(word)
        if firm_id is None:
            return _page("wrong", status=403)
        token = await asyncio.to_thread(self._paired, firm_id, name)
        answered = RedirectResponse("/", 303, headers={"Cache-Control": "no-store"})
        name, secure = _cookie_of(request.scope), request.url.scheme == "https"
        answered.set_cookie(name, token, max_age=_KEPT_S, path="/", httponly=True, samesite="lax", secure=secure)
        return answered

    def _paired(self, firm_id: str, name: str) -> str:
        """Keep a new device with the firm of who pairs it, and return its token."""
        store = self._installed.store_of(firm_id) if firm_id else self._installed.first
        return store.devices.pair(name)[1]


async def _form_of(request: Request) -> dict[str, str]:
    """Return the fields of a small form; none where it is none."""
    content = b""
    try:
        async for part in request.stream():
            content += part
            if len(content) > _FORM_MAX:
                return {}
    except TooMuchError:
        return {}
    return {name: values[0] for name, values in parse_qs(content.decode("utf-8", "replace")).items()}


def _cookie_of(scope: Scope) -> str:
    """Return the name of the cookie: over a secure connection one that no other host can set."""
    return f"__Host-{_COOKIE}" if scope.get("scheme") == "https" else _COOKIE


def _token_in(cookies: str, name: str) -> str:
    found: SimpleCookie = SimpleCookie()
    with contextlib.suppress(CookieError):
        found.load(cookies)
    return found[name].value if name in found else ""


def _page(state: str, word: str = "", *, status: int = 200) -> Response:
    """Return the page that pairs a device; it works without scripts and needs no other file."""
    source = files("pavewright.web") / "templates"
    style = (source / "pair.css").read_text("utf-8")
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    template = Environment(loader=BaseLoader(), autoescape=True).from_string((source / "pair.html").read_text("utf-8"))
    written = template.render(state=state, word=word, style=Markup(style))  # noqa: S704 - our own file
    policy = (
        f"default-src 'none'; style-src 'sha256-{digest}'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    )
    # a form of a page that sends no referrer has no origin either, and would be refused
    headers = {"Content-Security-Policy": policy, "Cache-Control": "no-store", "Referrer-Policy": "same-origin"}
    return HTMLResponse(written, status, headers=headers)
