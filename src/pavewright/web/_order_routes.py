"""The order book: what is due, money by weeks, a state set by hand, saved views, templates, the pages of the bar."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING

from starlette.routing import Route

from pavewright.desk import HIDDEN_WITH_MONEY, NOTHING_HIDDEN, due_told, hand_set, like_document, money_told
from pavewright.people import Right
from pavewright.store import StaleRevision, read_back
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in
from pavewright.web._customer_routes import today_here
from pavewright.web._rights import RIGHTS
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import SIGNED_IN, may

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

_DUE_MAX = 200
"""Due things told at once; how many there are in all is told with them."""
_BAR = (("/", "Jobs"), ("/calendar", "Calendar"), ("/firm", "Firm"), ("/people", "People"), ("/devices", "Devices"))
"""Pages of the bar at the head of every page, in their order."""
_OWN = (("/you", "You"),)
"""Pages of the bar for who is signed in: the own password, the own devices, signing out."""
_VIEW = ("words", "state", "place", "person", "owing", "lapsing", "sort")
"""What a saved view holds."""


async def _due(request: Request) -> Response:
    store, today, money = store_of(request), today_here(), may(Right.SEE_MONEY)
    found = await asyncio.to_thread(store.orders.due_list, today, _DUE_MAX, money=money)
    told = {"today": today.isoformat(), "total": found.total, "due": due_told(found.items, money=money)}
    return answer(told)


async def _money(request: Request) -> Response:
    today = today_here()
    monday = today.fromordinal(today.toordinal() - today.weekday())
    return answer(money_told(await asyncio.to_thread(store_of(request).orders.money, monday)))


async def _set_state(request: Request) -> Response:
    """Keep the state that a person sets; an empty one goes back to what follows from the job."""
    store, asked = store_of(request), await sent(request)
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    job = read_back(kept.document).document
    if job is None:
        raise AskedWrongError(422, "This job cannot be read as it was kept: open it and go back to a revision first.")
    fields = {name: text_in(asked, name, 2000, default="") for name in ("state", "why", "note")}
    who = SIGNED_IN.get()
    try:
        hand_set(job, fields | {"by": "" if who is None else who.name}, today_here().isoformat())
    except (ValueError, AttributeError, TypeError):
        raise AskedWrongError(400, "There is no such state, or no such reason.") from None
    document = json.dumps(job, ensure_ascii=False, indent=1)
    try:
        return answer({"rev": await asyncio.to_thread(store.save, kept.id, kept.rev, document, "state set by hand")})
    except StaleRevision:
        raise AskedWrongError(409, "Somebody changed this job in this very moment: set the state again.") from None


async def _views(request: Request) -> Response:
    found = await asyncio.to_thread(store_of(request).views.all)
    return answer({"views": [{"id": view.id, "name": view.name, "body": view.body} for view in found]})


async def _keep_view(request: Request) -> Response:
    asked = await sent(request)
    name = text_in(asked, "name", 60).strip()
    if not name:
        raise AskedWrongError(400, "Give the view a name.")
    body = {each: text_in(asked, each, 200) for each in _VIEW if each in asked}
    view = await asyncio.to_thread(store_of(request).views.keep, name, body)
    return answer({"id": view.id}, 201)


async def _remove_view(request: Request) -> Response:
    if not await asyncio.to_thread(store_of(request).views.remove, name_in(request.path_params["view"])):
        raise AskedWrongError(404, "There is no such view.")
    return answer({"removed": True})


async def _templates(request: Request) -> Response:
    found = await asyncio.to_thread(store_of(request).views.templates)
    return answer({"templates": [{"id": one.id, "name": one.name, "made": one.made} for one in found]})


async def _keep_template(request: Request) -> Response:
    """Keep a job as a template: what is the firm's of it, nothing of the house."""
    store, asked = store_of(request), await sent(request)
    kept = await asyncio.to_thread(store.job, name_in(text_in(asked, "job", 64)))
    job, name = read_back(kept.document).document, text_in(asked, "name", 60).strip()
    if job is None or not name:
        raise AskedWrongError(422, "Give the template a name, and take a job that can be read.")
    made = await asyncio.to_thread(store.views.keep_template, name, like_document(job, name))
    return answer({"id": made.id}, 201)


async def _remove_template(request: Request) -> Response:
    if not await asyncio.to_thread(store_of(request).views.remove_template, name_in(request.path_params["template"])):
        raise AskedWrongError(404, "There is no such template.")
    return answer({"removed": True})


async def _pages(request: Request) -> Response:
    """Answer with the pages that there are and that who asks may open, and what of a job is not for him."""
    there = {getattr(route, "path", "") for route in request.app.routes}
    who = SIGNED_IN.get()
    shown = [
        {"path": path, "name": name}
        for path, name in (_BAR if who is None else (*_BAR, *_OWN))
        if path in there and (who is None or (("GET", path) in RIGHTS and RIGHTS["GET", path].allows(who)))
    ]
    hidden = NOTHING_HIDDEN if may(Right.SEE_MONEY) else HIDDEN_WITH_MONEY
    return answer({"pages": shown, "hidden": {**hidden, "acts": [each.value for each in Right if not may(each)]}})


ROUTES = (
    Route("/api/due", _due, methods=["GET"]),
    Route("/api/money-weeks", _money, methods=["GET"]),
    Route("/api/jobs/{job}/state", _set_state, methods=["POST"]),
    Route("/api/views", _views, methods=["GET"]),
    Route("/api/views", _keep_view, methods=["POST"]),
    Route("/api/views/{view}", _remove_view, methods=["DELETE"]),
    Route("/api/templates", _templates, methods=["GET"]),
    Route("/api/templates", _keep_template, methods=["POST"]),
    Route("/api/templates/{template}", _remove_template, methods=["DELETE"]),
    Route("/api/pages", _pages, methods=["GET"]),
)
