"""The record of a job: shown, handed out, and stamped with the time of an authority.

``GET /api/jobs/{job}/record`` answers what a screen shows of it. ``GET /api/jobs/{job}/record/{name}`` answers it as
``record.pdf``, ``record.zip`` with the photos, ``record.jsonl``, or ``instructions.txt``. ``POST
/api/jobs/{job}/record/tokens`` takes the token of an authority as it came, and answers ``{"entry"}``: the entry whose
hash it stamps. Nothing here changes an entry.
"""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING

from starlette.routing import Route

from pavewright.desk import record_zip
from pavewright.record import INSTRUCTIONS, RECORD, TOKEN_BYTES_MAX, TokenRefusedError, files_beside
from pavewright.store import TokenOfAnotherError, UnknownJob
from pavewright.web._answers import AskedWrongError, answer, answer_bytes, name_in
from pavewright.web._signed_in import store_of
from pavewright.web._taking import file_of
from pavewright.web._told import told_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Store
    from pavewright.web._workers import Workers

_TOLD_S, _PDF_S = 30.0, 180.0
_PDF, _ZIP = "record.pdf", "record.zip"
_MEDIA = {_PDF: "application/pdf", _ZIP: "application/zip", RECORD: "application/jsonl", INSTRUCTIONS: "text/plain"}


async def _shown(request: Request) -> Response:
    store = store_of(request)
    workers: Workers = request.app.state.workers
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    content = await asyncio.to_thread(store.records.content, kept.id)
    told = json.loads(await workers.ask("quick", "record", content, seconds=_TOLD_S))
    fields = told_of(kept.document)["document"] or {}
    identity = fields.get("identity")
    title = identity.get("title", "") if isinstance(identity, dict) else ""
    return answer({"id": kept.id, "title": title, **told})


async def _file(request: Request) -> Response:
    store = store_of(request)
    workers: Workers = request.app.state.workers
    name = request.path_params["name"]
    if name not in _MEDIA:
        raise AskedWrongError(404, "There is no such file of a record.")
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    content = await asyncio.to_thread(store.records.content, kept.id)
    if name in {RECORD, INSTRUCTIONS}:
        beside = await asyncio.to_thread(files_beside, content)
        return answer_bytes(beside[name], _MEDIA[name], name)
    document = kept.document.encode()
    asked = str(len(document)).encode() + b"\n" + document + content
    made = await workers.ask("long", "record_pdf", asked, seconds=_PDF_S)
    if name == _ZIP:
        made = await asyncio.to_thread(_zipped, store, kept.id, content, made)
    return answer_bytes(made, _MEDIA[name], name)


def _zipped(store: Store, job_id: str, content: bytes, pdf: bytes) -> bytes:
    def image(photo_id: str) -> bytes | None:
        try:
            return store.photo(job_id, photo_id)
        except UnknownJob:
            return None

    return record_zip(content, pdf, image)


async def _token(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    body = await file_of(request)
    if not body or len(body) > TOKEN_BYTES_MAX:
        raise AskedWrongError(413 if body else 400, "Send the answer of the authority as it came.")
    try:
        entry = await asyncio.to_thread(store.records.add_token, job_id, body)
    except TokenRefusedError:
        raise AskedWrongError(422, "That is no timestamp that can be read: send the answer as it came.") from None
    except TokenOfAnotherError:
        words = "That timestamp is not of an entry of this record: ask for one by the hash that stands here."
        raise AskedWrongError(422, words) from None
    return answer({"entry": entry}, 201)


ROUTES = (
    Route("/api/jobs/{job}/record", _shown, methods=["GET"]),
    Route("/api/jobs/{job}/record/tokens", _token, methods=["POST"]),
    Route("/api/jobs/{job}/record/{name}", _file, methods=["GET"]),
)
"""Routes of records."""
