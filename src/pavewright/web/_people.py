"""Who asks: known by address and by a name that the browser keeps, and whether he or she is still there."""

from __future__ import annotations

import asyncio
import contextlib
import re
import secrets
from contextvars import ContextVar
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING

from starlette.datastructures import Headers, MutableHeaders

from pavewright.web._customers import FOLDER
from pavewright.web._turns import Person

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

_COOKIE = "pavewright"
_NAME = re.compile(r"[0-9a-f]{32}")
_SUBJECT = re.compile(r"[A-Za-z0-9_-]{1,64}")
_WATCHED = ("/health", "/ready", "/metrics")
_KEPT_S = 365 * 24 * 3600


SOMEBODY = Person()
"""Whoever is not known."""


@dataclass(frozen=True)
class Asker:
    """Somebody who waits for an answer.

    Attributes:
        person: Whose work it is.
        subject: What the answer is about: a newer request of the same person about it makes this one stale; empty
            where requests do not replace each other.
        receive: Tells when the connection ends; None where nobody holds one.
    """

    person: Person = SOMEBODY
    subject: str = ""
    receive: Receive | None = None

    async def left(self) -> None:
        """Return when nobody waits any more."""
        if self.receive is None:
            await asyncio.Event().wait()
        else:
            while (await self.receive())["type"] != "http.disconnect":
                pass


NOBODY = Asker()
ASKER: ContextVar[Asker] = ContextVar("asker", default=NOBODY)
"""For whom this request is answered."""


class People:
    """Tells every request whose it is, and gives a browser that opens a page a name."""

    def __init__(self, app: ASGIApp) -> None:
        """Keep the application behind it."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer for somebody."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        name = _name_in(headers.get("cookie", ""))
        subject = headers.get("x-subject", "")
        client = scope.get("client")
        asker = Asker(
            Person(client[0] if client else "", name), subject if _SUBJECT.fullmatch(subject) else "", receive
        )
        token = ASKER.set(asker)
        try:
            await self._app(scope, receive, send if name or not _opens_page(scope) else _with_name(scope, send))
        finally:
            ASKER.reset(token)


def _opens_page(scope: Scope) -> bool:
    path: str = scope["path"]
    return scope["method"] == "GET" and not path.startswith(
        ("/api/", "/static/", "/health", "/ready", "/metrics", FOLDER)
    )


def _name_in(cookies: str) -> str:
    found: SimpleCookie = SimpleCookie()
    with contextlib.suppress(CookieError):
        found.load(cookies)
    value = found[_COOKIE].value if _COOKIE in found else ""
    return value if _NAME.fullmatch(value) else ""


def _with_name(scope: Scope, send: Send) -> Send:
    secure = "; Secure" if scope.get("scheme") == "https" else ""

    async def put(message: Message) -> None:
        if message["type"] == "http.response.start":
            cookie = f"{_COOKIE}={secrets.token_hex(16)}; Path=/; Max-Age={_KEPT_S}; HttpOnly; SameSite=Strict{secure}"
            MutableHeaders(scope=message).append("Set-Cookie", cookie)
        await send(message)

    return put
