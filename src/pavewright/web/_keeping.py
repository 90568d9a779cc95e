"""Keeping the store: its log brought into its file at quiet times, a backup to take away, and one brought back."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.background import BackgroundTask
from starlette.responses import FileResponse
from starlette.routing import Route

from pavewright.store import StoreTroubleError, Trouble, back_up, in_words, restore_open
from pavewright.web._answers import AskedWrongError, answer
from pavewright.web._door import DEVICE
from pavewright.web._signed_in import store_of
from pavewright.web._taking import must_be_taken, scan_file
from pavewright.web._uploads import LOOKED_AT
from pavewright.web._who_asks import SIGNED_IN

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._firms import Firms

QUIET_S = 2.0
"""So long nobody saved: then the log is brought into the file. [s]"""


async def keep_tidy(firms: Firms) -> None:
    """Bring the log of each store into its file whenever nobody saves there, until it is stopped."""
    seen: dict[int, int] = {}
    done: dict[int, int] = {}
    while True:
        for store in firms.seen():
            key, writes = id(store), store.writes
            if key not in seen:
                done[key] = writes
            elif seen[key] == writes != done[key]:
                with contextlib.suppress(StoreTroubleError):
                    if await asyncio.to_thread(store.tidy):
                        done[key] = writes
            seen[key] = writes
        await asyncio.sleep(QUIET_S)


async def _backup(request: Request) -> Response:
    """Answer with a whole copy of the store, made while people work."""
    store = store_of(request)
    one_at_a_time: asyncio.Lock = request.app.state.backing_up
    if request.headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        raise AskedWrongError(403, "A page from elsewhere may not ask for a backup.")
    if not store.is_file:
        raise StoreTroubleError(Trouble.NO_FILE, store.name)
    folder = tempfile.TemporaryDirectory(prefix="pavewright-backup-")
    name = f"pavewright-{dt.datetime.now(dt.UTC):%Y-%m-%d-%H%M}.sqlite"
    try:
        async with one_at_a_time:
            await asyncio.to_thread(back_up, Path(store.name), Path(folder.name) / name, store.outside)
    except BaseException:
        folder.cleanup()
        raise
    return FileResponse(
        Path(folder.name) / name,
        media_type="application/vnd.sqlite3",
        filename=name,
        headers={"Cache-Control": "no-store"},
        background=BackgroundTask(folder.cleanup),
    )


async def _restore(request: Request) -> Response:
    """Take a backup that is sent and put it in the place of the store; what was kept stays in a file beside it."""
    store = store_of(request)
    one_at_a_time: asyncio.Lock = request.app.state.backing_up
    if DEVICE.get() is not None and SIGNED_IN.get() is None:
        raise AskedWrongError(403, "A backup is brought back on the machine where pavewright runs.")
    if request.headers.get("content-type", "") != "application/octet-stream":
        raise AskedWrongError(415, "Send the file of a backup.")
    if not store.is_file:
        raise StoreTroubleError(Trouble.NO_FILE, store.name)
    kept = Path(store.name)
    with tempfile.TemporaryDirectory(prefix=".pavewright-restore-", dir=kept.parent) as folder:
        sent = Path(folder) / "the file that was sent"
        await _receive(request, sent)
        await scan_file(request, sent)
        async with one_at_a_time:
            restored = await asyncio.to_thread(restore_open, sent, kept)
    found = restored.contents
    return answer(
        {
            "jobs": found.jobs,
            "revisions": found.revisions,
            "photos": found.photos,
            "aside": None if restored.aside is None else restored.aside.name,
        }
    )


async def _receive(request: Request, path: Path) -> None:
    """Write a file that is sent to the disk; one that begins as something else is not taken, however it comes."""
    beginning = b""
    with in_words(str(path.parent.parent)), path.open("wb") as opened:
        async for part in request.stream():
            if len(beginning) < LOOKED_AT:
                beginning += part[:LOOKED_AT]
                if len(beginning) >= LOOKED_AT:
                    must_be_taken(request, beginning)
            await asyncio.to_thread(opened.write, part)
    must_be_taken(request, beginning)


ROUTES = (
    Route("/api/backup", _backup, methods=["GET"]),
    Route("/api/restore", _restore, methods=["POST"]),
)
