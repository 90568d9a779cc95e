"""The table of routes as one page, without anything from elsewhere."""

from __future__ import annotations

import json
from functools import cache

from markupsafe import Markup, escape

from pavewright.web.openapi import _openapi_words as words
from pavewright.web.openapi._document import need_of
from pavewright.web.openapi._table import Described, described


@cache
def docs_page() -> str:
    """Return the page."""
    tags: dict[str, list[tuple[str, Described]]] = {}
    for name, route in described().items():
        if not route.hidden:
            tags.setdefault(route.tag, []).append((name, route))
    parts = [
        Markup("<h2>{}</h2>{}").format(tag, Markup("").join(_shown(name, route) for name, route in routes))
        for tag, routes in tags.items()
    ]
    return str(
        Markup(
            "<!doctype html><html lang='en'><head><meta charset='utf-8'>"
            "<meta name='viewport' content='width=device-width, initial-scale=1'><title>{title}</title>"
            "<link rel='stylesheet' href='/static/style.css'><link rel='stylesheet' href='/static/pages.css'></head>"
            "<body><main><h1>{title}</h1><p>{intro}</p>{parts}</main></body></html>"
        ).format(title=words.DOCS_TITLE, intro=Markup(words.DOCS_INTRO), parts=Markup("").join(parts))  # noqa: S704 - our own words
    )


def _shown(name: str, route: Described) -> Markup:
    query = Markup("").join(
        Markup("<li><code>{}</code>: {}</li>").format(each, meaning) for each, meaning in route.query.items()
    )
    schema = "" if route.answers is None else json.dumps(route.answers, indent=1)
    return Markup(
        "<details><summary><code>{name}</code> {summary}</summary><p>{rights}</p><ul>{query}</ul><pre>{curl}</pre>"
        "<p>{status} <code>{media}</code></p><pre>{schema}</pre></details>"
    ).format(
        name=name,
        summary=escape(route.summary),
        query=query,
        rights=_rights(name),
        curl=_curl(name, route),
        status=route.status,
        media=route.media,
        schema=schema,
    )


def _curl(name: str, route: Described) -> str:
    """Return how a route is asked from a shell."""
    method, _, path = name.partition(" ")
    need = need_of(method, path)
    head = "" if need.is_public or need.by_hand else " -H 'Authorization: Bearer TOKEN'"
    sends = {
        "application/json": " -H 'Content-Type: application/json' -d @body.json",
        "application/octet-stream": " --data-binary @file",
    }
    body = "" if route.takes is None else sends.get(route.takes_media, " -d 'do=look'")
    return f"curl -X {method}{head}{body} 'http://127.0.0.1:8321{path}'"


def _rights(name: str) -> str:
    """Return what a route asks of whoever comes, in words."""
    method, _, path = name.partition(" ")
    need = need_of(method, path)
    if need.is_public:
        return words.OPEN
    if need.by_hand:
        return words.BY_HAND
    return words.scopes(sorted(right.value for right in need.rights))
