"""What a customer opens by his link: the quotation, its total with options, its PDF, questions, and accepting it.

Nothing here reads a job, a plan or the firm's book: there is only what was frozen when the link was made.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import json
from dataclasses import dataclass
from functools import wraps
from typing import TYPE_CHECKING, Any

from starlette.background import BackgroundTask
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from pavewright.desk import Chosen, FormFault, FormField, Signed, chosen_of, question_of, signed_of
from pavewright.store import (
    Accepted,
    AcceptedEarlierError,
    OpenQuotation,
    QuotationClosedError,
    StoreTroubleError,
    TooManyQuestionsError,
    acting_as,
    customer_by,
)
from pavewright.web._customer_form import form_of
from pavewright.web._customer_noted import note_customer, write_accepted
from pavewright.web._customer_pages import PRIVATE, closed_page, file_told, json_told, quotation_page, trouble_page
from pavewright.web._customers import FOLDER, ForCustomers, WrongTokens
from pavewright.web._door import DEVICE, on_this_machine
from pavewright.web._pages import static_files
from pavewright.web._signed_in import firms_of, store_of
from pavewright.web._who_asks import FIRM

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, Mapping

    from starlette.requests import Request

    from pavewright.store import Quotations

_SEEN_AFTER_S = 60.0
_MINE = {"quotation.css": "text/css; charset=utf-8", "quotation.js": "text/javascript; charset=utf-8"}
_LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class _Visit:
    """A request whose token opens something.

    Attributes:
        request: The request.
        token: The token.
        opened: What it opens.
        shown: What that shows.
        today: The day here.
    """

    request: Request
    token: str
    opened: OpenQuotation
    shown: dict[str, Any]
    today: dt.date


def today_here() -> dt.date:
    """Return the day where this server stands: a price holds until the end of a day there."""
    return dt.datetime.now(dt.UTC).astimezone().date()


def _by_link(handler: Callable[[_Visit], Awaitable[Response]]) -> Callable[[Request], Awaitable[Response]]:
    """Return a handler that is asked only where the token opens something; else the answer is always the same."""

    @wraps(handler)
    async def answered(request: Request) -> Response:
        token, today = str(request.path_params["token"]), today_here()
        try:
            installed = firms_of(request).installed
            found = await asyncio.to_thread(installed.find, lambda store: store.quotations.opened(token, today))
            if found is None:
                return _closed(request)
            firm_id, _, opened = found
            FIRM.set(firm_id)
            with acting_as(customer_by(opened.link.id)):
                return await handler(_Visit(request, token, opened, json.loads(opened.shown), today))
        except QuotationClosedError:
            return _closed(request)
        except StoreTroubleError:
            return trouble_page(request)

    return answered


def _quotations(request: Request) -> Quotations:
    found: Quotations = store_of(request).quotations
    return found


def _closed(request: Request) -> Response:
    wrong: WrongTokens = request.app.state.wrong_tokens
    address = request.client.host if request.client else ""
    return closed_page(request, 429 if wrong.is_too_many(address) else 404)


@_by_link
async def _page(visit: _Visit) -> Response:
    link, request = visit.opened.link, visit.request
    if request.method == "GET" and not _is_ours(request) and _is_long_ago(link.seen):
        await asyncio.to_thread(_quotations(request).note_opened, link.id)
    chosen = chosen_of(visit.shown, request.query_params.getlist("option")) or _none_chosen(visit)
    return await _shown(visit, chosen)


def _is_ours(request: Request) -> bool:
    """Return whether the contractor himself looks, on his machine or a paired device: no customer opened it then."""
    customers: ForCustomers = request.app.state.for_customers
    server = request.scope.get("server")
    if customers.port is not None and server and server[1] == customers.port:
        return False
    return DEVICE.get() is not None or on_this_machine(request.scope, _LOOPBACK)


def _is_long_ago(at: str | None) -> bool:
    return at is None or (dt.datetime.now(dt.UTC) - dt.datetime.fromisoformat(at)).total_seconds() > _SEEN_AFTER_S


def _none_chosen(visit: _Visit) -> Chosen:
    found = chosen_of(visit.shown, ())
    assert found is not None  # noqa: S101 - a quotation without options is always there
    return found


async def _shown(
    visit: _Visit,
    chosen: Chosen,
    fields: Mapping[str, str] | None = None,
    faults: tuple[FormFault, ...] = (),
    *,
    said: str = "",
    status: int = 200,
) -> Response:
    questions = await asyncio.to_thread(_quotations(visit.request).questions, link_id=visit.opened.link.id)
    return quotation_page(
        visit.opened,
        visit.shown,
        visit.token,
        questions,
        chosen=chosen,
        today=visit.today,
        fields=fields or {},
        faults=faults,
        said=said,
        status=status,
    )


@_by_link
async def _sent(visit: _Visit) -> Response:
    """Take the form: show what the ticked options come to, or accept."""
    form = await form_of(visit.request)
    if not form:
        return await _shown(visit, _none_chosen(visit), said=_UNREAD, status=422)
    fields = {name: values[0] for name, values in form.items()}
    chosen = chosen_of(visit.shown, form.get("option", ()))
    if chosen is None:
        fault = FormFault(FormField.OPTIONS, "Tick only options that stand here.")
        return await _shown(visit, _none_chosen(visit), fields, (fault,), status=422)
    if fields.get("do") != "accept":
        return await _shown(visit, chosen, fields)
    if visit.opened.acceptance is not None:
        return await _shown(visit, chosen, said=_EARLIER, status=409)
    link = visit.opened.link
    days = (dt.datetime.fromisoformat(link.made).date() - _DAY, visit.today + _DAY)
    signed = signed_of(fields, days)
    faults = (*_money_faults(chosen, fields), *(() if isinstance(signed, Signed) else signed))
    if faults or not isinstance(signed, Signed) or chosen.total_minor is None:
        return await _shown(visit, chosen, fields, faults, status=422)
    return await _accept(visit, _accepted(chosen, signed, visit.shown))


def _money_faults(chosen: Chosen, fields: Mapping[str, str]) -> tuple[FormFault, ...]:
    """Return what keeps a total from being accepted: it is accepted as it was read, and never another one."""
    if chosen.total_minor is None:
        return (FormFault(FormField.OPTIONS, chosen.why_not),)
    if fields.get("seen_total") != str(chosen.total_minor):
        words = f"With what is ticked {chosen.total} is to pay. Look at it, and accept again if that is what you want."
        return (FormFault(FormField.TOTAL, words),)
    return ()


def _accepted(chosen: Chosen, signed: Signed, shown: Mapping[str, Any]) -> Accepted:
    return Accepted(
        name=signed.name,
        on=signed.on.isoformat(),
        options=chosen.options,
        names=chosen.names,
        total_minor=chosen.total_minor or 0,
        currency=str(shown["currency"]),
        drawn=signed.drawn,
        typed=signed.typed,
    )


_UNREAD = "The form could not be read: fill it in again, and draw a shorter signature."
_EARLIER = "This quotation was accepted before. Nothing was changed."


async def _accept(visit: _Visit, accepted: Accepted) -> Response:
    try:
        kept = await asyncio.to_thread(_quotations(visit.request).accept, visit.token, accepted, visit.today)
    except AcceptedEarlierError:
        again = await asyncio.to_thread(_quotations(visit.request).opened, visit.token, visit.today)
        now = visit if again is None else _Visit(visit.request, visit.token, again, visit.shown, visit.today)
        return await _shown(now, _none_chosen(visit), said=_EARLIER, status=409)
    answered = _back(visit, "accepted")
    await note_customer(visit.request, visit.opened.link, "quotation accepted")
    answered.background = BackgroundTask(write_accepted, visit.request, kept)
    return answered


@_by_link
async def _ask(visit: _Visit) -> Response:
    words = question_of((await form_of(visit.request)).get("words", [""])[0])
    if not words:
        return await _shown(visit, _none_chosen(visit), said="Write what you want to ask.", status=422)
    try:
        await asyncio.to_thread(_quotations(visit.request).ask, visit.token, words, visit.today)
    except TooManyQuestionsError as refusal:
        return await _shown(visit, _none_chosen(visit), said=str(refusal), status=429)
    await note_customer(visit.request, visit.opened.link, "question asked")
    return _back(visit, "questions")


@_by_link
async def _total(visit: _Visit) -> Response:
    """Answer with what is to pay with the options that the address names."""
    chosen = chosen_of(visit.shown, visit.request.query_params.getlist("option"))
    if chosen is None:
        return json_told({"message": "There is no such option."}, 422)
    found = {"options": list(chosen.options), "names": list(chosen.names), "total_minor": chosen.total_minor}
    return json_told(found | {"total": chosen.total, "days": chosen.days, "why_not": chosen.why_not})


@_by_link
async def _pdf(visit: _Visit) -> Response:
    content = await asyncio.to_thread(_quotations(visit.request).pdf, visit.opened.link.id)
    return file_told(content, "quotation.pdf")


@_by_link
async def _notice(visit: _Visit) -> Response:
    content = await asyncio.to_thread(_quotations(visit.request).notice, visit.opened.link.id)
    return file_told(content, "cancellation.pdf") if content is not None else closed_page(visit.request)


@_by_link
async def _picture(visit: _Visit) -> Response:
    numbered = {str(number): each["svg"] for number, each in enumerate(visit.shown["pictures"])}
    found = numbered.get(str(visit.request.path_params["number"]))
    if found is None:
        return closed_page(visit.request)
    return Response(found, media_type="image/svg+xml", headers=PRIVATE)


def _back(visit: _Visit, part: str) -> Response:
    return RedirectResponse(f"{FOLDER}{visit.token}#{part}", 303, headers=PRIVATE)


async def _own_file(request: Request) -> Response:
    """Answer with the style or the script of these pages; nothing in them is of a customer."""
    name = str(request.path_params["name"])
    if name not in _MINE:
        return closed_page(request)
    kept = PRIVATE | {"Cache-Control": "no-cache"}
    return Response(static_files()[f"customer/{name}"], media_type=_MINE[name], headers=kept)


async def _nothing(request: Request) -> Response:
    """Answer whatever else is asked under the addresses of customers as a link that opens nothing."""
    return _closed(request)


ROUTES = (
    Route("/quotation/-/{name}", _own_file, methods=["GET"]),
    Route("/quotation/{token}", _page, methods=["GET"]),
    Route("/quotation/{token}", _sent, methods=["POST"]),
    Route("/quotation/{token}/questions", _ask, methods=["POST"]),
    Route("/quotation/{token}/total", _total, methods=["GET"]),
    Route("/quotation/{token}/quotation.pdf", _pdf, methods=["GET"]),
    Route("/quotation/{token}/cancellation.pdf", _notice, methods=["GET"]),
    Route("/quotation/{token}/pictures/{number}.svg", _picture, methods=["GET"]),
    Route("/quotation/{rest:path}", _nothing, methods=["GET", "POST", "PUT", "PATCH", "DELETE"]),
)
