"""Working things out: plans, previews, drawings, sums, and long work with progress."""

from __future__ import annotations

import asyncio
import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.desk import (
    DRAWINGS,
    PAPER_KEYS,
    PLAN_PARTS,
    beside_photos,
    job_schema,
    outcome_without_money,
    search,
    sums_told,
)
from pavewright.papers import PaperKey
from pavewright.web._answers import (
    AskedWrongError,
    answer,
    answer_bytes,
    body_of,
    document_in,
    name_in,
    number_in,
    sent,
    text_in,
)
from pavewright.web._long_tasks import LongTasks, file_in, files_in
from pavewright.web._money_hidden import hides_money, refuse_money, shown_plan
from pavewright.web._paper_photos import photos_for_papers
from pavewright.web._people import ASKER
from pavewright.web._signed_in import store_of
from pavewright.web._taking import file_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._workers import Workers

_PREVIEW_S = 5.0
_PLAN_S = 60.0
_SUM_S = 10.0


async def _plan(request: Request) -> Response:
    """Answer with the whole plan, or with parts that the address names: then pieces stand in columns."""
    workers: Workers = request.app.state.workers
    asked = request.query_params.get("parts")
    document = await body_of(request)
    if asked is None:
        return answer_bytes(shown_plan(await workers.ask_kept("plan", "plan", document, seconds=_PLAN_S)))
    wanted = list(PLAN_PARTS) if asked == "every" else asked.split(",")
    if not set(wanted) <= set(PLAN_PARTS):
        raise AskedWrongError(400, f"A plan has the parts {', '.join(PLAN_PARTS)}.")
    payload = ",".join(wanted).encode() + b"\n" + document
    return answer_bytes(shown_plan(await workers.ask_kept("plan", "plan_parts", payload, seconds=_PLAN_S)))


async def _outcome(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    told = await workers.ask_kept("plan", "outcome", await body_of(request), seconds=_PLAN_S)
    return answer_bytes(told) if not hides_money() else answer(outcome_without_money(json.loads(told)))


async def _reprice(request: Request) -> Response:
    """Answer a quoted job with what the prices of today would change, line by line."""
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask_kept("plan", "reprice", await body_of(request), seconds=_PLAN_S))


async def _cash(request: Request) -> Response:
    """Answer a job with its payments and the curve of its cash."""
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask_kept("plan", "cash", await body_of(request), seconds=_PLAN_S))


async def _site_log(request: Request) -> Response:
    """Answer a job with the log of its days and what the firm's book may learn of it."""
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask_kept("plan", "site_log", await body_of(request), seconds=_PLAN_S))


async def _site_water(request: Request) -> Response:
    """Answer a job with standing water on what was read as laid, and the verdicts that count it."""
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask_kept("plan", "site_water", await body_of(request), seconds=_PLAN_S))


async def _quote(request: Request) -> Response:
    """Answer a job with the operations that put into it what it is quoted with on the day that the address names."""
    workers: Workers = request.app.state.workers
    day = request.query_params.get("on", "")
    try:
        on = dt.date.fromisoformat(day)
    except ValueError:
        raise AskedWrongError(400, "on is to be the day of the quotation, such as 2027-04-12.") from None
    payload = on.isoformat().encode() + b"\n" + await body_of(request)
    return answer_bytes(await workers.ask_kept("plan", "quote", payload, seconds=_PLAN_S))


async def _customer(request: Request) -> Response:
    """Answer with what the customer of a kept job may see; the document itself never leaves by this way."""
    workers: Workers = request.app.state.workers
    store = store_of(request)
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    return answer_bytes(await workers.ask_kept("plan", "customer", kept.document.encode(), seconds=_PLAN_S))


async def _preview(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    return answer_bytes(await workers.ask("quick", "preview", await body_of(request), seconds=_PREVIEW_S))


async def _drains(request: Request) -> Response:
    """Answer a document with what drains to the gully, channel or outfall that the address names."""
    workers: Workers = request.app.state.workers
    kind, name = request.query_params.get("kind", ""), request.query_params.get("name", "")
    if kind not in {"gully", "channel", "outfall"} or not 0 < len(name) <= _NAME_MAX:
        raise AskedWrongError(400, "kind is to be gully, channel or outfall, and name its name.")
    payload = json.dumps({"kind": kind, "name": name}).encode() + b"\n" + await body_of(request)
    return answer_bytes(await workers.ask_kept("plan", "drains", payload, seconds=_PLAN_S))


_NAME_MAX = 60


async def _drawing(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    name = request.path_params["name"]
    if name not in DRAWINGS:
        raise AskedWrongError(404, f"There are drawings of {', '.join(DRAWINGS)}.")
    payload = name.encode() + b"\n" + await body_of(request)
    return answer_bytes(await workers.ask_kept("plan", "drawing", payload, seconds=_PLAN_S), "image/svg+xml")


async def _changes(request: Request) -> Response:
    """Answer ``{"before", "after"}``, two documents of one job, with a drawing of what changed, or nothing."""
    workers: Workers = request.app.state.workers
    body = await body_of(request)
    return answer_bytes(await workers.ask_kept("plan", "changes", body, seconds=_PLAN_S), "image/svg+xml")


async def _schema(_request: Request) -> Response:
    return answer(job_schema())


async def _sums(_request: Request) -> Response:
    return answer({"sums": sums_told()})


async def _search(request: Request) -> Response:
    """Answer with the sums and words of the trade that fit what is looked for."""
    words = request.query_params.get("words", "")[:_WORDS_MAX]
    return answer(await asyncio.to_thread(search, words))


_WORDS_MAX = 200


async def _sum(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    asked = await sent(request)
    given = asked.get("given")
    if not isinstance(given, dict):
        raise AskedWrongError(400, "given is to be an object of inputs.")
    payload = json.dumps({"name": text_in(asked, "name", 100), "given": given}).encode()
    return answer_bytes(await workers.ask("quick", "sum", payload, seconds=_SUM_S))


async def _file(request: Request) -> Response:
    """Read a file of another program: its bytes, and in the address what is said of it."""
    workers: Workers = request.app.state.workers
    try:
        asked = json.loads(request.query_params.get("asked", ""))
    except (ValueError, RecursionError):
        asked = None
    if not isinstance(asked, dict):
        raise AskedWrongError(400, "asked is to be a JSON object that says what kind of file it is.")
    payload = json.dumps(asked).encode() + b"\n" + await file_of(request)
    return answer_bytes(await workers.ask("file", "file", payload, seconds=_FILE_S))


async def _weather(request: Request) -> Response:
    """Read a file of daily weather; its months are known by the limits of the place that the address names."""
    workers: Workers = request.app.state.workers
    locality = request.query_params.get("locality", "")[:_NAME_MAX].replace("\n", " ")
    payload = locality.encode() + b"\n" + await file_of(request)
    return answer_bytes(await workers.ask("file", "weather", payload, seconds=_FILE_S))


_FILE_S = 120.0


async def _begin(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    asked = await sent(request)
    verb, document = text_in(asked, "verb", 20), document_in(asked).encode()
    refuse_money(verb, text_in(asked, "paper", 40) if verb == "paper" else None)
    if verb == "storm":
        head = {name: number_in(asked, name) for name in ("rain_mm_per_h", "minutes", "cell_mm")}
        wanted = {name: value for name, value in head.items() if value is not None}
        document = json.dumps(wanted).encode() + b"\n" + document
    elif verb == "paper":
        key = text_in(asked, "paper", 40)
        if key not in PAPER_KEYS:
            raise AskedWrongError(400, f"paper is to be one of {', '.join(PAPER_KEYS)}.")
        document = key.encode() + b"\n" + document
        document = await _with_photos(request, asked, document, wanted=key == PaperKey.HANDOVER)
    elif verb == "pack":
        document = await _with_photos(request, asked, document, wanted=True)
    elif verb not in {"starts", "risk", "build-ups"}:
        raise AskedWrongError(400, "verb is to be pack, paper, starts, storm, risk or build-ups.")
    return answer({"long_task": long_tasks.begin(verb, document, ASKER.get().person)}, 202)


async def _with_photos(request: Request, asked: dict[str, Any], payload: bytes, *, wanted: bool) -> bytes:
    """Return what is asked of papers with the photos of the kept job that is named, where a paper takes them."""
    store = store_of(request)
    named = "job" in asked and wanted
    photos = await asyncio.to_thread(photos_for_papers, store, name_in(text_in(asked, "job", 64))) if named else ()
    return beside_photos(photos, payload)


async def _long_task(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    return answer(long_tasks.reported(name_in(request.path_params["long_task"])))


async def _stop(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    long_tasks.stop(name_in(request.path_params["long_task"]))
    return answer({"state": "stopped"})


async def _result(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    return answer_bytes(long_tasks.result(name_in(request.path_params["long_task"])))


async def _papers(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    archive = long_tasks.result(name_in(request.path_params["long_task"]))
    return answer({"files": await asyncio.to_thread(files_in, archive)})


_SHOWN = frozenset({"image/svg+xml", "image/png", "text/plain; charset=utf-8"})
"""What a page shows by itself; everything else is kept as a file."""


async def _paper(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    archive = long_tasks.result(name_in(request.path_params["long_task"]))
    name = request.path_params["name"]
    if name == "all.zip":
        return answer_bytes(archive, "application/zip", "job-pack.zip")
    content, media = await asyncio.to_thread(file_in, archive, name)
    shown = media in _SHOWN or (media == "application/pdf" and request.query_params.get("show") == "1")
    return answer_bytes(content, media, None if shown else name.rpartition("/")[2])


ROUTES = (
    Route("/api/plan", _plan, methods=["POST"]),
    Route("/api/outcome", _outcome, methods=["POST"]),
    Route("/api/cash", _cash, methods=["POST"]),
    Route("/api/site-log", _site_log, methods=["POST"]),
    Route("/api/site-water", _site_water, methods=["POST"]),
    Route("/api/reprice", _reprice, methods=["POST"]),
    Route("/api/quote", _quote, methods=["POST"]),
    Route("/api/preview", _preview, methods=["POST"]),
    Route("/api/drains", _drains, methods=["POST"]),
    Route("/api/changes", _changes, methods=["POST"]),
    Route("/api/drawings/{name}", _drawing, methods=["POST"]),
    Route("/api/jobs/{job}/customer", _customer, methods=["GET"]),
    Route("/api/schema", _schema, methods=["GET"]),
    Route("/api/search", _search, methods=["GET"]),
    Route("/api/sums", _sums, methods=["GET"]),
    Route("/api/sums", _sum, methods=["POST"]),
    Route("/api/files", _file, methods=["POST"]),
    Route("/api/weather", _weather, methods=["POST"]),
    Route("/api/long-tasks", _begin, methods=["POST"]),
    Route("/api/long-tasks/{long_task}", _long_task, methods=["GET"]),
    Route("/api/long-tasks/{long_task}", _stop, methods=["DELETE"]),
    Route("/api/long-tasks/{long_task}/result", _result, methods=["GET"]),
    Route("/api/long-tasks/{long_task}/papers", _papers, methods=["GET"]),
    Route("/api/long-tasks/{long_task}/papers/{name:path}", _paper, methods=["GET"]),
)
