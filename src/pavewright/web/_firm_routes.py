"""The firm's book: read, kept, checked, exported; price lists brought into it."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.desk import EMPTY_BOOK, firm_schema, units_without_money
from pavewright.store import StaleBookError
from pavewright.web._answers import (
    AskedWrongError,
    answer,
    answer_bytes,
    document_in,
    name_in,
    sent,
    text_in,
    whole_in,
)
from pavewright.web._money_hidden import hides_money
from pavewright.web._signed_in import store_of
from pavewright.web._taking import file_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import KeptBook
    from pavewright.web._workers import Workers

_CHECK_S, _LIST_S, _LOGO_S = 10.0, 60.0, 20.0
_CHANGED = "The book was changed elsewhere meanwhile. Nothing is lost: your change is put on top of it."


def _told(kept: KeptBook) -> dict[str, Any]:
    return {"rev": kept.rev, "document": json.loads(kept.document or EMPTY_BOOK)}


async def _open(request: Request) -> Response:
    store = store_of(request)
    known = request.query_params.get("known")
    if known is not None and known == str((await asyncio.to_thread(store.firm.mark))[0]):
        return answer({"rev": int(known), "same": True})
    return answer(_told(await asyncio.to_thread(store.firm.book)))


async def _checked(request: Request, document: str) -> dict[str, Any]:
    workers: Workers = request.app.state.workers
    told: dict[str, Any] = json.loads(
        await workers.ask("quick", "firm_check", document.encode(), seconds=_CHECK_S),
    )
    return told


async def _check(request: Request) -> Response:
    return answer(await _checked(request, document_in(await sent(request))))


async def _save(request: Request) -> Response:
    """Keep a change of the book; a book that cannot be read is refused with its faults, so that no plan goes by it."""
    store = store_of(request)
    asked = await sent(request)
    document, rev, note = document_in(asked), whole_in(asked, "rev"), text_in(asked, "note", 200, default="")
    key = name_in(text_in(asked, "key", 64)) if "key" in asked else None
    told = await _checked(request, document)
    if told["faults"]:
        return answer({"message": told["faults"][0]["message"], "faults": told["faults"]}, 422)
    try:
        now = await asyncio.to_thread(store.firm.save, rev, document, note, key)
    except StaleBookError as stale:
        return answer({"message": _CHANGED} | _told(stale.kept), 409)
    beside = {name: told[name] for name in ("overhead", "price_age_days", "learnt")}
    return answer({"rev": now, **beside})


async def _schema(_request: Request) -> Response:
    return answer(firm_schema())


async def _export(request: Request) -> Response:
    store = store_of(request)
    kept = await asyncio.to_thread(store.firm.book)
    return answer_bytes((kept.document or EMPTY_BOOK).encode(), name="firm.json")


async def _units(request: Request) -> Response:
    """Answer the paving units of the book without the rest of it: a job chooses among them."""
    store = store_of(request)
    kept = await asyncio.to_thread(store.firm.book)
    book = json.loads(kept.document or EMPTY_BOOK)
    units = book.get("units", [])
    shown = units_without_money(units) if hides_money() else units
    return answer({"rev": kept.rev, "currency": book.get("currency", "GBP"), "units": shown})


async def _revisions(request: Request) -> Response:
    store = store_of(request)
    found = await asyncio.to_thread(store.firm.revisions)
    return answer({"revisions": [{"rev": one.rev, "at": one.at, "note": one.note} for one in found]})


async def _revision(request: Request) -> Response:
    store = store_of(request)
    rev = request.path_params["rev"]
    one = await asyncio.to_thread(store.firm.revision, rev) if 0 < rev < 2**31 else None
    if one is None:
        raise AskedWrongError(404, "There is no such revision.")
    return answer({"rev": one.rev, "at": one.at, "note": one.note, "document": json.loads(one.document)})


def _asked(request: Request) -> dict[str, Any]:
    """Return what is said of a price list in the address."""
    try:
        asked = json.loads(request.query_params.get("asked", ""))
    except (ValueError, RecursionError):
        asked = None
    if not isinstance(asked, dict):
        raise AskedWrongError(400, "asked is to be a JSON object that says whose list it is and of which day.")
    return asked


async def _prices(request: Request) -> Response:
    """Answer a price list with how it is read and what it would change; nothing is taken."""
    workers: Workers = request.app.state.workers
    payload = json.dumps(_asked(request) | {"take": False}).encode() + b"\n" + await file_of(request)
    return answer_bytes(await workers.ask("file", "firm_prices", payload, seconds=_LIST_S))


async def _take(request: Request) -> Response:
    """Bring a price list into the book as it stands."""
    workers: Workers = request.app.state.workers
    store = store_of(request)
    asked = _asked(request)
    rev = whole_in(asked, "rev")
    now = (await asyncio.to_thread(store.firm.mark))[0]
    if now != rev:
        raise AskedWrongError(409, "The book was changed meanwhile: look again at what the list changes.")
    payload = json.dumps(asked | {"take": True}).encode() + b"\n" + await file_of(request)
    made = json.loads(await workers.ask("file", "firm_prices", payload, seconds=_LIST_S))
    note = f"price list of {asked.get('supplier', '')}"[:200]
    try:
        kept = await asyncio.to_thread(store.firm.save, rev, made["document"], note)
    except StaleBookError as stale:
        words = "The book was changed meanwhile: look again at what the list changes."
        raise AskedWrongError(409, words) from stale
    return answer({"rev": kept, "lines": made["lines"], "document": json.loads(made["document"])})


async def _logo(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask("quick", "logo", await file_of(request), seconds=_LOGO_S))


ROUTES = (
    Route("/api/firm", _open, methods=["GET"]),
    Route("/api/firm", _save, methods=["PUT"]),
    Route("/api/firm/check", _check, methods=["POST"]),
    Route("/api/firm/schema", _schema, methods=["GET"]),
    Route("/api/firm/document.json", _export, methods=["GET"]),
    Route("/api/firm/units", _units, methods=["GET"]),
    Route("/api/firm/revisions", _revisions, methods=["GET"]),
    Route("/api/firm/revisions/{rev:int}", _revision, methods=["GET"]),
    Route("/api/firm/prices", _prices, methods=["POST"]),
    Route("/api/firm/prices/take", _take, methods=["POST"]),
    Route("/api/firm/logo", _logo, methods=["POST"]),
)
