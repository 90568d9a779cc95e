"""What every route takes and answers, as OpenAPI and as a page."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse
from starlette.routing import Route

from pavewright.web._answers import answer_bytes
from pavewright.web.openapi import docs_page, openapi_document

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


@cache
def _document() -> bytes:
    return json.dumps(openapi_document(), ensure_ascii=False).encode()


async def _openapi(_request: Request) -> Response:
    return answer_bytes(_document())


async def _docs(_request: Request) -> Response:
    return HTMLResponse(docs_page(), headers={"Cache-Control": "no-cache"})


ROUTES = (
    Route("/api/openapi.json", _openapi, methods=["GET"]),
    Route("/api/docs", _docs, methods=["GET"]),
)
"""Routes of the description."""
