"""The finished work for other programs: a building model, and map features.

``POST /api/exchange/ifc`` and ``POST /api/exchange/geojson`` take a job document and answer the file. Where it lies on
the earth stands in the address: ``latitude``, ``longitude`` and ``point``; with ``local=1`` map features are in metres.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.exchange import EXCHANGE_FILES, ExchangeKind
from pavewright.web._answers import AskedWrongError, answer_bytes, body_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._workers import Workers

_EXCHANGE_S = 120.0
_NAME_MAX = 60


async def _exchange(request: Request) -> Response:
    workers: Workers = request.app.state.workers
    kind = request.path_params["kind"]
    if kind not in set(ExchangeKind):
        raise AskedWrongError(404, f"There are files of {', '.join(ExchangeKind)}.")
    asked = {"kind": kind, "earth": _earth(request), "local": request.query_params.get("local") == "1"}
    payload = json.dumps(asked).encode() + b"\n" + await body_of(request)
    name, media = EXCHANGE_FILES[ExchangeKind(kind)]
    return answer_bytes(await workers.ask_kept("plan", "exchange", payload, seconds=_EXCHANGE_S), media, name)


def _earth(request: Request) -> dict[str, Any] | None:
    said = request.query_params
    if "latitude" not in said and "longitude" not in said:
        return None
    try:
        place = {"latitude_deg": float(said["latitude"]), "longitude_deg": float(said["longitude"])}
    except (KeyError, ValueError) as problem:
        raise AskedWrongError(400, "latitude and longitude are to be degrees, both of them.") from problem
    return place | {"point": said.get("point", "")[:_NAME_MAX]}


ROUTES = (Route("/api/exchange/{kind}", _exchange, methods=["POST"]),)
"""Routes of files for other programs."""
