"""What stands before every request: who may ask, how much they may send, and what a page may do."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import JSONResponse

from pavewright.web._customers import is_for_customer
from pavewright.web._uploads import LIMITS, kind_at, too_much_of

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; worker-src 'self'; manifest-src 'self'; frame-ancestors 'none'; base-uri 'none'; "
    "form-action 'self'"
)
_HEADERS = {
    "Content-Security-Policy": _POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "geolocation=(), microphone=()",
}
_SECURE = {"Strict-Transport-Security": "max-age=31536000"}
"""Over a secure connection: a browser that came once comes by no other for a year."""
_READS = {"GET", "HEAD"}
_FOR_PROGRAMS = "/api/"
_AS_FILE = 'attachment; filename="answer.json"'
"""How an answer for a program is saved where somebody opens its address in a browser: it is no page."""
_IN_UTF_8 = frozenset({"image/svg+xml"})
"""Kinds of text that are sent without their encoding by the framework."""


class Safety:
    """Refuses strangers' hosts and pages, caps what is sent, and tells the browser what a page may do."""

    def __init__(
        self, app: ASGIApp, hosts: frozenset[str], *, own_address: bool = False, customers: int | None = None
    ) -> None:
        """Keep the application behind it and the host names that it answers to.

        Args:
            app: The application.
            hosts: Names that it answers to.
            own_address: Whether it answers to the address of the connection too, whichever that is at the time.
            customers: Port at which nothing but quotations is answered, under whatever name; None where there is none.
        """
        self._app = app
        self._hosts = hosts
        self._own_address = own_address
        self._customers = customers

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through or refuse it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        if refusal is not None:
            status, message = refusal
            await JSONResponse({"message": message}, status)(scope, receive, _with_headers(scope, send))
            return
        await self._app(scope, _capped(scope, receive), _with_headers(scope, send))

    def _refusal(self, scope: Scope) -> tuple[int, str] | None:
        """Return why a request is refused, if it is."""
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        stranger = self._refused_place(scope, host)
        if stranger is not None:
            return stranger
        # what a customer opens hangs on his link alone: a page from elsewhere that does not know it can do nothing
        if scope["method"] not in _READS and not is_for_customer(scope):
            origin = headers.get("origin")
            if origin is not None and _place_of(origin) != host:
                return 403, "A page from elsewhere may not change anything here."
            if headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
                return 403, "A page from elsewhere may not change anything here."
        try:
            length = int(headers.get("content-length", "0"))
        except ValueError:
            return 400, "The length that was announced is not a number."
        if length > _most(scope):
            return 413, too_much_of(kind_at(scope["path"]))
        return None

    def _refused_place(self, scope: Scope, host: str) -> tuple[int, str] | None:
        """Return why a request is refused for where it arrived or what it calls this server, if it is."""
        if self._is_at_customers_port(scope):
            return None if is_for_customer(scope) else (404, "There is no such page.")
        if _name_of(host) not in self._hosts | self._address_of(scope):
            return 421, "This server does not answer to that name."
        return None

    def _is_at_customers_port(self, scope: Scope) -> bool:
        server = scope.get("server")
        return self._customers is not None and server is not None and server[1] == self._customers

    def _address_of(self, scope: Scope) -> frozenset[str]:
        """Return the address at which a connection arrived, where it counts as a name."""
        server = scope.get("server")
        return frozenset({server[0]}) if self._own_address and server else frozenset()


class TooMuchError(Exception):
    """More was sent than is taken."""


def _most(scope: Scope) -> int:
    return LIMITS[kind_at(scope["path"])].max_bytes


def _capped(scope: Scope, receive: Receive) -> Receive:
    """Return a stream that ends where more comes than is taken."""
    taken = 0

    async def take() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > _most(scope):
            raise TooMuchError
        return message

    return take


def _with_headers(scope: Scope, send: Send) -> Send:
    told = _HEADERS | (_SECURE if scope.get("scheme") == "https" else {})

    async def put(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in told.items():
                headers.setdefault(name, value)
            kind = headers.get("content-type", "")
            if kind in _IN_UTF_8:
                headers["Content-Type"] = f"{kind}; charset=utf-8"
            if kind == "application/json" and scope["path"].startswith(_FOR_PROGRAMS):
                headers.setdefault("Content-Disposition", _AS_FILE)
        await send(message)

    return put


def _place_of(origin: str) -> str:
    """Return host and port of an origin; nothing where it is no address at all."""
    try:
        return urlsplit(origin).netloc
    except ValueError:
        return ""


def _name_of(host: str) -> str:
    """Return a host without its port."""
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return (host.rpartition(":")[0] or host).lower()
