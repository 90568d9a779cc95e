"""The pages themselves: files of this package, and the worker that keeps them for a place without signal."""

from __future__ import annotations

import hashlib
import json
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from starlette.responses import Response
from starlette.routing import Route

from pavewright.desk import screen_lists
from pavewright.web._answers import AskedWrongError

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

    from starlette.requests import Request

_MEDIA = {
    "html": "text/html; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "svg": "image/svg+xml",
    "png": "image/png",
    "json": "application/json",
    "webmanifest": "application/manifest+json",
    "ttf": "font/ttf",
    "woff2": "font/woff2",
    "txt": "text/plain; charset=utf-8",
}
_PAGES = {
    "/": "jobs/page.html",
    "/jobs/{job}": "job/page.html",
    "/jobs/{job}/site": "site/page.html",
    "/jobs/{job}/walk": "walk/page.html",
    "/jobs/{job}/customer": "customer/page.html",
    "/jobs/{job}/record": "record/page.html",
    "/sums": "sums/page.html",
    "/devices": "devices/page.html",
    "/firm": "firm/page.html",
    "/calendar": "calendar/page.html",
    "/replan": "replan/page.html",
    "/people": "people/page.html",
    "/programs": "programs/page.html",
    "/you": "you/page.html",
    "/audit": "audit/page.html",
}


@cache
def static_files() -> dict[str, bytes]:
    """Return every file of the pages by its path, with the lists that they share with the program."""
    found: dict[str, bytes] = {}

    def walk(folder: Traversable, path: str) -> None:
        for entry in folder.iterdir():
            if entry.is_dir():
                walk(entry, f"{path}{entry.name}/")
            elif entry.name.rpartition(".")[2] in _MEDIA:
                found[path + entry.name] = entry.read_bytes()

    walk(files("pavewright.web") / "static", "")
    found["lib/lists.json"] = json.dumps(screen_lists(), ensure_ascii=False).encode()
    return dict(sorted(found.items()))


@cache
def edition() -> str:
    """Return a word that changes whenever a file of the pages does."""
    digest = hashlib.sha256()
    for name, content in static_files().items():
        digest.update(f"{name}\n{len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()[:16]


def _file(name: str, *, keep: str) -> Response:
    content = static_files().get(name)
    if content is None:
        raise AskedWrongError(404, "There is no such page.")
    media = _MEDIA[name.rpartition(".")[2]]
    return Response(content, media_type=media, headers={"Cache-Control": keep})


async def _static(request: Request) -> Response:
    return _file(request.path_params["path"], keep="no-cache")


async def _worker(_request: Request) -> Response:
    """Answer with the worker of the pages, with which files there are and which edition."""
    names = [f"/static/{name}" for name in static_files() if not name.startswith("vendor/") and name != "sw.js"]
    head = f"const EDITION = {json.dumps(edition())};\nconst FILES = {json.dumps(names)};\n"
    content = head.encode() + static_files()["sw.js"]
    return Response(content, media_type=_MEDIA["js"], headers={"Cache-Control": "no-cache"})


def _page(name: str) -> Route:
    async def page(_request: Request) -> Response:
        return _file(name, keep="no-cache")

    path = next(path for path, file in _PAGES.items() if file == name)
    return Route(path, page, methods=["GET"], name=name)


ROUTES = (
    *(_page(name) for name in _PAGES.values()),
    Route("/sw.js", _worker, methods=["GET"]),
    Route("/static/{path:path}", _static, methods=["GET"]),
)
