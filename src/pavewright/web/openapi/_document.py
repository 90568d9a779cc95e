"""The table of routes as OpenAPI 3.1."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import TYPE_CHECKING, Any

from pavewright.desk import firm_schema, job_schema
from pavewright.people import Right
from pavewright.web._rights import PUBLIC, RIGHTS, Need
from pavewright.web.openapi import _openapi_words as words
from pavewright.web.openapi._table import described, kinds

if TYPE_CHECKING:
    from pavewright.web.openapi._table import Described

VERSION = "1"
"""Of what programs may ask; strangers read it, so that it says nothing of the version of the program."""
_PARAMETER = re.compile(r"\{(\w+)(?::\w+)?\}")


def path_of(template: str) -> str:
    """Return the template of a route without the kinds of its parameters.

    >>> path_of("/api/jobs/{job}/revisions/{rev:int}")
    '/api/jobs/{job}/revisions/{rev}'
    """
    return _PARAMETER.sub(r"{\1}", template)


def openapi_document() -> dict[str, Any]:
    """Return the description of every route, the same on every server."""
    paths: dict[str, Any] = {}
    for name, route in described().items():
        method, _, path = name.partition(" ")
        if not route.hidden:
            paths.setdefault(path, {})[method.lower()] = _operation(method, path, route)
    return {
        "openapi": "3.1.0",
        "info": {"title": "pavewright", "version": VERSION, "description": words.ABOUT},
        "servers": [{"url": "/"}],
        "security": [{"signIn": []}, {"token": []}],
        "paths": paths,
        "components": {
            "schemas": kinds() | _documents(),
            "securitySchemes": {
                "signIn": {"type": "apiKey", "in": "cookie", "name": "pavewright-sign-in", "description": words.COOKIE},
                "token": {
                    "type": "http",
                    "scheme": "bearer",
                    "description": words.token([each.value for each in Right]),
                },
            },
        },
    }


def _operation(method: str, path: str, route: Described) -> dict[str, Any]:
    found: dict[str, Any] = {
        "operationId": re.sub(r"\W+", "_", f"{method.lower()}{path}").strip("_"),
        "tags": [route.tag],
        "summary": route.summary,
        "parameters": [
            *(
                {"name": each, "in": "path", "required": True, "schema": {"type": "string"}}
                for each in _PARAMETER.findall(path)
            ),
            *(
                {"name": each, "in": "query", "description": meaning, "schema": {"type": "string"}}
                for each, meaning in route.query.items()
            ),
        ],
        "responses": _responses(path, route, is_public=need_of(method, path).is_public),
    }
    if route.takes is not None:
        content = {} if route.takes_media == "application/octet-stream" else {"schema": route.takes}
        found["requestBody"] = {"required": True, "content": {route.takes_media: content}}
    need = need_of(method, path)
    if need.is_public:
        found["security"] = []
    else:
        rights = sorted(right.value for right in need.rights)
        ways = [{"signIn": rights}, *([] if need.by_hand else [{"token": rights}])]
        found["security"] = ways
    return found


def need_of(method: str, path: str) -> Need:
    """Return what a route asks of whoever comes, by its path without the kinds of its parameters."""
    return _needs().get((method, path), PUBLIC)


@cache
def _needs() -> dict[tuple[str, str], Need]:
    return {(method, path_of(template)): need for (method, template), need in RIGHTS.items()}


def _responses(path: str, route: Described, *, is_public: bool) -> dict[str, Any]:
    good: dict[str, Any] = {"description": words.LEADS.get(route.status, words.GOOD)}
    if route.status not in words.LEADS:
        good["content"] = {route.media: {} if route.answers is None else {"schema": route.answers}}
    also = {str(each): {"description": words.LEADS[each]} for each in route.also}
    refusals = set(route.refusals) | {503}
    if not is_public:
        refusals |= {401, 403}
    if "{" in path:
        refusals.add(404)
    if route.takes is not None:
        refusals |= {400, 413, 422, 429}
    if route.takes_media == "application/json" and route.takes is not None:
        refusals.add(415)
    problem: dict[str, Any] = {"application/json": {"schema": {"$ref": "#/components/schemas/Problem"}}}
    if route.media == "text/html":  # the same page, with what is wrong on it
        problem["text/html"] = {}
    told = {str(each): {"description": words.REFUSALS[each], "content": problem} for each in sorted(refusals)}
    return {str(route.status): good} | also | told


def _documents() -> dict[str, Any]:
    """Return the schemas of the documents that people write: their parts stand beside them under names of their own."""
    found: dict[str, Any] = {"Operation": {"type": "object", "description": words.OPERATION}}
    for name, schema in (("Job", job_schema()), ("FirmBook", firm_schema())):
        text = json.dumps(schema).replace('"#/$defs/', f'"#/components/schemas/{name}.')
        whole = json.loads(text)
        whole.pop("$schema", None)
        whole.pop("$id", None)
        parts = whole.pop("$defs", {})
        found |= {name: whole} | {f"{name}.{part}": each for part, each in parts.items()}
    return found
