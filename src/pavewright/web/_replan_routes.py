"""Planning all open jobs again: begin, see how far it is, look through what changed, stop."""

from __future__ import annotations

import asyncio
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.desk import Of, replan_csv, replan_page, replan_rows, replan_told
from pavewright.store import UnknownRunError, Who
from pavewright.web._answers import AskedWrongError, answer, answer_bytes, name_in, sent, text_in
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import SIGNED_IN

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Run
    from pavewright.web._replanning import Replanning

_SHOWN = 100
"""So many jobs are shown at a time. [-]"""
_VERB = "replan"


async def _begin(request: Request) -> Response:
    asked = text_in(await sent(request), "of", 20)
    if asked not in tuple(Of):
        raise AskedWrongError(400, "Ask of prices, outputs, edition or all.")
    signed_in = SIGNED_IN.get()
    who = None if signed_in is None else Who(signed_in.person_id, signed_in.name)
    going = _going(request)
    run = await asyncio.to_thread(going.begin, store_of(request), Of(asked), who)
    if run is None:
        raise AskedWrongError(409, "Jobs are planned again already: look how far that is, or stop it.")
    return answer(_told(run, going), 202)


async def _listed(request: Request) -> Response:
    runs = await asyncio.to_thread(store_of(request).runs.runs)
    return answer({"runs": [_told(each, _going(request)) for each in runs if each.verb == _VERB]})


async def _one(request: Request) -> Response:
    store, run = store_of(request), await _run(request)
    first = request.query_params.get("from", "0")
    if not first.isdecimal():
        raise AskedWrongError(400, "Give from as a whole number.")
    shown, of_jobs = await asyncio.to_thread(replan_page, store, run.id, min(int(first), run.pieces), _SHOWN)
    return answer({**_told(run, _going(request)), "jobs": replan_told(shown), "of_jobs": of_jobs})


async def _table(request: Request) -> Response:
    store, run = store_of(request), await _run(request)
    rows = await asyncio.to_thread(replan_rows, store, run.id)
    return answer_bytes(replan_csv(rows), "text/csv; charset=utf-8", "planned-again.csv")


async def _stopped(request: Request) -> Response:
    run, going = await _run(request), _going(request)
    if going.is_going(run.id):
        await asyncio.to_thread(going.stop, run.id)
    return answer({})


async def _run(request: Request) -> Run:
    try:
        run = await asyncio.to_thread(store_of(request).runs.run, name_in(request.path_params["run"]))
    except UnknownRunError as unknown:
        raise AskedWrongError(404, "This was planned too long ago: plan again.") from unknown
    if run.verb != _VERB:
        raise AskedWrongError(404, "This is another kind of run.")
    return run


def _going(request: Request) -> Replanning:
    found: Replanning = request.app.state.replanning
    return found


def _told(run: Run, going: Replanning) -> dict[str, Any]:
    return {**asdict(run), "going": going.is_going(run.id)}


ROUTES = [
    Route("/api/replans", _begin, methods=["POST"]),
    Route("/api/replans", _listed, methods=["GET"]),
    Route("/api/replans/{run}", _one, methods=["GET"]),
    Route("/api/replans/{run}/table", _table, methods=["GET"]),
    Route("/api/replans/{run}", _stopped, methods=["DELETE"]),
]
