"""The pages that work without scripts: signing in, joining by an invitation, a new password."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from jinja2 import BaseLoader, Environment
from starlette.responses import HTMLResponse

from pavewright.web._safety import TooMuchError
from pavewright.web.sign_in._sign_in_words import CLOSED

if TYPE_CHECKING:
    from jinja2 import Template
    from starlette.requests import Request
    from starlette.responses import Response

_FORM_MAX = 4_000

NO_STORE = {"Cache-Control": "no-store"}
"""What a page is sent with that nobody may keep."""


@dataclass(frozen=True, slots=True)
class Form:
    """What one of these pages shows.

    Attributes:
        kind: Which of them: sign in, join, password or closed.
        title: Its heading.
        to: The address that takes it.
        said: What went wrong; empty where nothing did.
        name: Name of the person, as far as it is known.
        sign_in: Short name to sign in by, as far as it is known.
        firm: The firm that somebody joins.
        role: What he or she will be there.
        after: Where to go on.
        known: Who is signed in already and joins by a touch; empty where nobody is.
    """

    kind: str
    title: str
    to: str
    said: str = ""
    name: str = ""
    sign_in: str = ""
    firm: str = ""
    role: str = ""
    after: str = ""
    known: str = ""


def page_of(form: Form, status: int = 200) -> Response:
    """Return the page."""
    # a form of a page that sends no referrer has no origin either, and would be refused
    headers = {"Cache-Control": "no-store", "Referrer-Policy": "same-origin"}
    return HTMLResponse(_template().render(form=form), status, headers=headers)


@cache
def _template() -> Template:
    text = (files("pavewright.web") / "templates" / "sign-in.html").read_text("utf-8")
    return Environment(loader=BaseLoader(), autoescape=True).from_string(text)


async def fields_of(request: Request) -> dict[str, str]:
    """Return the fields of a form; none where it is none."""
    if request.headers.get("content-type", "").partition(";")[0].strip() != "application/x-www-form-urlencoded":
        return {}
    content = b""
    try:
        async for part in request.stream():
            content += part
            if len(content) > _FORM_MAX:
                return {}
        found = parse_qs(content.decode("utf-8"), max_num_fields=20)
    except (TooMuchError, ValueError):
        return {}
    return {name: values[0].replace("\x00", "") for name, values in found.items()}


def own_address(typed: str) -> str:
    """Return an address of this server to go on to; the list of jobs where it is another one.

    >>> own_address("/jobs/5f"), own_address("//elsewhere.example/"), own_address("https://elsewhere.example")
    ('/jobs/5f', '/', '/')
    """
    plain = typed.startswith("/") and not typed.startswith(("//", "/\\")) and typed.isprintable()
    return typed if plain and "\\" not in typed else "/"


def closed_page() -> Response:
    """Return the page of a link that opens nothing."""
    return page_of(Form("closed", "This link opens nothing", "", said=CLOSED), 404)
