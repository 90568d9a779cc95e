"""The pages of a customer, whole without any script: his quotation, what he accepted, and a link that opens nothing."""

from __future__ import annotations

import datetime as dt
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from jinja2 import BaseLoader, Environment, StrictUndefined
from starlette.responses import HTMLResponse, JSONResponse, Response

from pavewright.desk import NAME_MAX, QUESTION_MAX, SIGNED_HIGH, SIGNED_WIDE, Chosen, FormFault, signature_of
from pavewright.web._answers import answer
from pavewright.web._customers import FOLDER
from pavewright.writing import Writing, day_text, written_as

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from jinja2 import Template
    from starlette.requests import Request

    from pavewright.store import OpenQuotation, Question

PRIVATE = {
    "Cache-Control": "no-store, private",
    "Referrer-Policy": "no-referrer",
    "X-Robots-Tag": "noindex, nofollow, noarchive",
}
"""What goes with everything that a customer opens: it is kept nowhere, listed nowhere and named to nobody."""


def quotation_page(
    opened: OpenQuotation,
    shown: Mapping[str, Any],
    token: str,
    questions: Sequence[Question],
    *,
    chosen: Chosen,
    today: dt.date,
    fields: Mapping[str, str],
    faults: Sequence[FormFault] = (),
    said: str = "",
    status: int = 200,
) -> Response:
    """Return the page of a quotation.

    Args:
        opened: What the token opens.
        shown: What it shows.
        token: The token.
        questions: What was asked by this link.
        chosen: What is ticked.
        today: The day.
        fields: What stands in the form.
        faults: Fields that could not be taken.
        said: What is said at the head of the page; empty where nothing is.
        status: The status of the answer.
    """
    with written_as(Writing(str(shown["region"]))):
        page = _page(opened, shown, token, questions, chosen, today, fields, faults, said)
    return HTMLResponse(page, status, headers=PRIVATE)


def _page(
    opened: OpenQuotation,
    shown: Mapping[str, Any],
    token: str,
    questions: Sequence[Question],
    chosen: Chosen,
    today: dt.date,
    fields: Mapping[str, str],
    faults: Sequence[FormFault],
    said: str,
) -> str:
    link = opened.link
    return _template("quotation.html").render(
        folder=FOLDER,
        here=f"{FOLDER}{token}",
        job=shown,
        sha256=link.pdf_sha256,
        has_notice=shown["has_notice"],
        acceptance=opened.acceptance,
        accepted_total=_total_of(shown, opened),
        questions=questions,
        chosen=chosen,
        today=today.isoformat(),
        fields={name: fields.get(name, "")[:NAME_MAX] for name in ("name", "on", "typed")},
        drawn=signature_of(fields.get("drawn", "")),
        faults=faults,
        wrong={fault.field.value for fault in faults},
        said=said,
        name_max=NAME_MAX,
        question_max=QUESTION_MAX,
        wide=SIGNED_WIDE,
        high=SIGNED_HIGH,
        moment=_moment,
        day=_day,
    )


def closed_page(request: Request, status: int = 404) -> Response:
    """Return what a link answers that opens nothing: always the same, whatever the reason."""
    headers = PRIVATE | ({"Retry-After": "60"} if status == _TOO_MANY else {})
    return _said(request, _CLOSED, status, headers)


def trouble_page(request: Request) -> Response:
    """Return what is answered while the links cannot be read: nothing of the reason is for a customer."""
    return _said(request, _TROUBLE, 503, PRIVATE)


_TOO_MANY = 429
_CLOSED = (
    "This link opens nothing",
    "It may have been withdrawn, it may be over, or a letter of it may be missing. Ask the contractor for a new one.",
)
_TROUBLE = (
    "Try again in a minute",
    "The quotation cannot be opened at this moment. Nothing of it is lost.",
)


def _said(request: Request, words: tuple[str, str], status: int, headers: dict[str, str]) -> Response:
    """Return a sentence as a page where a browser asks for one, else as JSON."""
    if "text/html" not in request.headers.get("accept", ""):
        return JSONResponse({"message": f"{words[0]}. {words[1]}"}, status, headers=headers)
    page = _template("quotation-closed.html").render(folder=FOLDER, title=words[0], words=words[1])
    return HTMLResponse(page, status, headers=headers)


def _total_of(shown: Mapping[str, Any], opened: OpenQuotation) -> str:
    """Return what was accepted to be paid, as it was written beside the options."""
    if opened.acceptance is None:
        return ""
    options = list(opened.acceptance.accepted.options)
    return next((str(each["total"]) for each in shown["totals"] if each["options"] == options), "")


def _moment(at: str) -> str:
    """Return a time of the store as a person reads it, with the clock that it is by.

    >>> _moment("2027-04-12T08:05:09.120+00:00")
    'Mon 12 Apr 2027, 08:05 UTC'
    """
    found = dt.datetime.fromisoformat(at)
    return f"{day_text(found.date())}, {found.hour:02d}:{found.minute:02d} UTC"


def _day(on: str) -> str:
    return day_text(dt.date.fromisoformat(on))


@cache
def _template(name: str) -> Template:
    text = (files("pavewright.web") / "templates" / name).read_text("utf-8")
    kept = Environment(loader=BaseLoader(), autoescape=True, undefined=StrictUndefined, trim_blocks=True)
    return kept.from_string(text)


def file_told(content: bytes, name: str) -> Response:
    """Return a PDF that is read at once, and kept by nobody on the way."""
    headers = PRIVATE | {"Content-Disposition": f'inline; filename="{name}"'}
    return Response(content, media_type="application/pdf", headers=headers)


def json_told(value: dict[str, Any], status: int = 200) -> Response:
    """Return an answer for the script of the page, kept by nobody on the way."""
    answered = answer(value, status)
    answered.headers.update(PRIVATE)
    return answered
