"""What went wrong, as a page for whoever opened an address in a browser; programs get the same words as JSON."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from jinja2 import BaseLoader, Environment
from starlette.responses import HTMLResponse

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from jinja2 import Template
    from starlette.requests import Request
    from starlette.responses import Response

    Handler = Callable[[Request, Exception], Awaitable[Response]]

_TITLES = {404: "Nothing is here", 405: "That cannot be done here", 413: "That is too much at once", 429: "Too fast"}
_OTHER = "That did not work"


def for_people(handler: Handler) -> Handler:
    """Return a handler whose answer is a page where a browser opened the address, and stays as it is elsewhere."""

    async def told(request: Request, problem: Exception) -> Response:
        answered = await handler(request, problem)
        if not _opened_in_a_browser(request):
            return answered
        message = str(json.loads(bytes(answered.body)).get("message", ""))
        page = _template().render(title=_TITLES.get(answered.status_code, _OTHER), message=message)
        kept = {name: answered.headers[name] for name in ("Retry-After",) if name in answered.headers}
        return HTMLResponse(page, answered.status_code, headers={"Cache-Control": "no-store", **kept})

    return told


def _opened_in_a_browser(request: Request) -> bool:
    """Return whether the answer is shown to somebody: a page was asked for, by opening or following an address."""
    if request.method not in {"GET", "HEAD"}:
        return False
    kinds = [kind.partition(";")[0].strip() for kind in request.headers.get("accept", "").split(",")]
    return "text/html" in kinds and "application/json" not in kinds


@cache
def _template() -> Template:
    text = (files("pavewright.web") / "templates" / "trouble.html").read_text("utf-8")
    return Environment(loader=BaseLoader(), autoescape=True).from_string(text)
