"""The contractor's side of quotations that are open to a customer: links, questions and what was accepted."""

from __future__ import annotations

import asyncio
import base64
import datetime as dt
import json
import secrets
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.job import NotJobJsonError, strict_json
from pavewright.store import Acceptance, Batch, Kept, Made, Question, QuotationLink, StaleRevision, UnknownJob
from pavewright.web._acceptances import is_written
from pavewright.web._answers import AskedWrongError, answer, answer_bytes, name_in, sent, text_in
from pavewright.web._customer_routes import today_here
from pavewright.web._customers import FOLDER, ForCustomers
from pavewright.web._device_routes import OnNetwork, code_of
from pavewright.web._signed_in import store_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Store
    from pavewright.web._workers import Workers

_MAKING_S = 180.0
_ANSWER_MAX = 2_000
_AFTERWARDS = frozenset(
    {"accepted", "variations", "settled", "bills", "received", "handed_over", "as_laid", "done", "site_days"}
)
"""Fields of a job that come after it was accepted: they change nothing of what was."""


async def _listed(request: Request) -> Response:
    """Answer with the links of a job, what was asked by them and what was accepted."""
    store = store_of(request)
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    return answer(await asyncio.to_thread(_told, store, kept.id, kept.rev))


def _told(store: Store, job_id: str, rev: int) -> dict[str, Any]:
    quotations = store.quotations
    accepted = {each.link_id: each for each in quotations.acceptances(job_id)}
    asked = quotations.questions(job_id=job_id)
    document = store.job(job_id).document
    links = [
        _link(link, accepted.get(link.id), [each for each in asked if each.link_id == link.id])
        | {
            "changed_since": link.rev != rev and _is_changed(store, link, accepted.get(link.id), document),
            "written": link.id in accepted and is_written(store, accepted[link.id], document),
        }
        for link in quotations.links(job_id)
    ]
    return {"rev": rev, "today": today_here().isoformat(), "links": links}


def _link(link: QuotationLink, acceptance: Acceptance | None, asked: list[Question]) -> dict[str, Any]:
    told = asdict(link) | {"expires": link.expires.isoformat(), "state": _state(link, acceptance)}
    return told | {
        "acceptance": None if acceptance is None else asdict(acceptance),
        "questions": [asdict(each) for each in asked],
    }


def _state(link: QuotationLink, acceptance: Acceptance | None) -> str:
    if link.withdrawn is not None:
        return "withdrawn"
    if acceptance is not None:
        return "accepted"
    return "over" if link.expires < today_here() else "open"


def _is_changed(store: Store, link: QuotationLink, acceptance: Acceptance | None, document: str) -> bool:
    """Return whether a job is another one than was quoted or accepted, but for what comes after it was accepted."""
    written = None if acceptance is None else store.quotations.document_with(acceptance)
    then = store.revision(link.job_id, link.rev).document if written is None else written
    return _before(then) != _before(document)


def _before(document: str | None) -> dict[str, Any] | str | None:
    try:
        fields = strict_json(document or "")
    except NotJobJsonError:
        return document
    if not isinstance(fields, dict):
        return document
    return {name: value for name, value in fields.items() if name not in _AFTERWARDS}


async def _make(request: Request) -> Response:
    """Make a link to the job as it stands, or answer why it cannot be opened to the customer yet."""
    store = store_of(request)
    workers: Workers = request.app.state.workers
    asked = await sent(request)
    others, last = asked.get("withdraw_others", True), text_in(asked, "last", 10, default="")
    if not isinstance(others, bool):
        raise AskedWrongError(400, "withdraw_others is to be true or false.")
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    head = {"today": today_here().isoformat(), "last": _day_in(last)}
    payload = json.dumps(head).encode() + b"\n" + kept.document.encode()
    found = json.loads(await workers.ask("long", "quotation", payload, seconds=_MAKING_S))
    if found["reason"] is not None:
        return answer({"reason": found["reason"], "message": found["words"]}, 422)
    rev = await _quoted(store, kept, found["operations"])
    notice = base64.b64decode(found["notice"]) if found.get("notice") else None
    made = Made(
        kept.id,
        rev,
        dt.date.fromisoformat(found["expires"]),
        json.dumps(found["shown"], ensure_ascii=False),
        base64.b64decode(found["pdf"]),
        notice,
    )
    try:
        link, token = await asyncio.to_thread(store.quotations.make, made, withdraw_others=others)
    except StaleRevision:
        raise AskedWrongError(409, "This job was changed while the link was made: make it again.") from None
    return answer({"link": _link(link, None, []), "ways": _ways(request, token)}, 201)


async def _quoted(store: Store, kept: Kept, operations: list[dict[str, Any]]) -> int:
    """Put into a job what it is quoted with, and return the revision that its customer is shown."""
    if not operations:
        return kept.rev
    batch = Batch(secrets.token_hex(16), kept.rev, "", tuple(operations), "quoted for the customer")
    rev = (await asyncio.to_thread(store.operations.take, kept.id, batch)).rev
    if rev != kept.rev + 1:
        raise AskedWrongError(409, "This job was changed while the link was made: make it again.")
    return rev


def _day_in(text: str) -> str | None:
    if not text:
        return None
    try:
        return dt.date.fromisoformat(text).isoformat()
    except ValueError:
        raise AskedWrongError(400, "last is to be a day, such as 2027-04-12.") from None


def _ways(request: Request, token: str) -> list[dict[str, Any]]:
    """Return under which addresses a customer opens a link, and from where each can be reached."""
    customers: ForCustomers = request.app.state.for_customers
    network: OnNetwork | None = request.app.state.on_network
    path = f"{FOLDER}{token}"
    found = [("anywhere", f"{customers.address}{path}")] if customers.address else []
    found += [("network", f"{each}{path}") for each in (network.addresses() if network is not None else ())]
    found = found or [("here", f"{str(request.base_url).rstrip('/')}{path}")]
    return [{"from": where, "address": address, "code": code_of(address)} for where, address in found]


async def _withdraw(request: Request) -> Response:
    store = store_of(request)
    job_id, link_id = (name_in(request.path_params[name]) for name in ("job", "link"))
    if not await asyncio.to_thread(store.quotations.withdraw, job_id, link_id):
        raise AskedWrongError(404, "There is no such link.")
    return answer({"withdrawn": True})


async def _write(request: Request) -> Response:
    """Write into the job what was accepted by a link, where that could not be done at once."""
    store = store_of(request)
    job_id, link_id = (name_in(request.path_params[name]) for name in ("job", "link"))
    found = [each for each in await asyncio.to_thread(store.quotations.acceptances, job_id) if each.link_id == link_id]
    if not found:
        raise AskedWrongError(404, "Nothing was accepted by this link.")
    why = await request.app.state.write_acceptance(found[0])
    if why:
        raise AskedWrongError(409, f"It could not be written into the job: {why}")
    return answer({"written": True})


async def _answer(request: Request) -> Response:
    store = store_of(request)
    job_id, question = (name_in(request.path_params[name]) for name in ("job", "question"))
    words = text_in(await sent(request), "answer", _ANSWER_MAX).strip()
    if not words:
        raise AskedWrongError(400, "Write an answer.")
    try:
        await asyncio.to_thread(store.quotations.answer, job_id, question, words)
    except UnknownJob:
        raise AskedWrongError(404, "There is no such question.") from None
    return answer({"answered": True})


async def _pdf(request: Request) -> Response:
    """Answer with the PDF that the customer has, byte for byte."""
    store = store_of(request)
    job_id, link_id = (name_in(request.path_params[name]) for name in ("job", "link"))
    links = await asyncio.to_thread(store.quotations.links, job_id)
    if all(each.id != link_id for each in links):
        raise AskedWrongError(404, "There is no such link.")
    content = await asyncio.to_thread(store.quotations.pdf, link_id)
    return answer_bytes(content, "application/pdf", f"quotation-{link_id}.pdf")


ROUTES = (
    Route("/api/jobs/{job}/quotations", _listed, methods=["GET"]),
    Route("/api/jobs/{job}/quotations", _make, methods=["POST"]),
    Route("/api/jobs/{job}/quotations/{link}", _withdraw, methods=["DELETE"]),
    Route("/api/jobs/{job}/quotations/{link}/written", _write, methods=["POST"]),
    Route("/api/jobs/{job}/quotations/{link}/quotation.pdf", _pdf, methods=["GET"]),
    Route("/api/jobs/{job}/questions/{question}", _answer, methods=["POST"]),
)
