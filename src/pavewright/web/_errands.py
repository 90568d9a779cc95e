"""Errands: long work that tells how far it is and can be stopped."""

from __future__ import annotations

import asyncio
import io
import secrets
import zipfile
from collections import OrderedDict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.web._answers import AskedWrongError
from pavewright.web._crew import Refusal, WorkFailedError, WorkStoppedError

if TYPE_CHECKING:
    from pavewright.web._crew import Crew

_LIMIT_S = 600.0
_KEPT = 12
_MEDIA = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "json": "application/json",
    "csv": "text/csv; charset=utf-8",
    "ics": "text/calendar; charset=utf-8",
    "dxf": "image/vnd.dxf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@dataclass
class _Errand:
    verb: str
    state: str = "waiting"
    told: list[str] = field(default_factory=list)
    message: str = ""
    result: bytes = b""
    task: asyncio.Task[None] | None = None


class Errands:
    """The errands of this server, the last few of them kept with what they brought."""

    def __init__(self, crew: Crew) -> None:
        """Keep the crew that runs them."""
        self._crew = crew
        self._all: OrderedDict[str, _Errand] = OrderedDict()

    def begin(self, verb: str, payload: bytes) -> str:
        """Begin an errand and return its name."""
        name = secrets.token_hex(8)
        errand = _Errand(verb)
        self._all[name] = errand
        errand.task = asyncio.create_task(self._run(errand, payload))
        while len(self._all) > _KEPT:
            _, oldest = self._all.popitem(last=False)
            if oldest.task is not None:
                oldest.task.cancel()
        return name

    async def _run(self, errand: _Errand, payload: bytes) -> None:
        def report(words: str) -> None:
            errand.state = "working"
            errand.told.append(words)

        try:
            errand.result = await self._crew.ask("long", errand.verb, payload, seconds=_LIMIT_S, report=report)
            errand.state = "done"
        except (Refusal, WorkStoppedError) as refusal:
            errand.state, errand.message = "refused", str(refusal)
        except WorkFailedError:
            errand.state, errand.message = "failed", "The program has a fault here. The job itself is safe."
            raise
        except asyncio.CancelledError:
            errand.state = "stopped"
            raise

    def told(self, name: str) -> dict[str, Any]:
        """Return how far an errand is."""
        errand = self._of(name)
        return {"verb": errand.verb, "state": errand.state, "told": errand.told[-1:], "message": errand.message}

    def stop(self, name: str) -> None:
        """Stop an errand; one that is over stays as it is."""
        errand = self._of(name)
        if errand.task is not None and errand.task.cancel():
            errand.state = "stopped"

    def result(self, name: str) -> bytes:
        """Return what an errand brought.

        Raises:
            AskedWrongError: it is not done.
        """
        errand = self._of(name)
        if errand.state != "done":
            raise AskedWrongError(409, errand.message or "This is not done yet.")
        return errand.result

    def close(self) -> None:
        """Stop everything."""
        for errand in self._all.values():
            if errand.task is not None:
                errand.task.cancel()

    def _of(self, name: str) -> _Errand:
        errand = self._all.get(name)
        if errand is None:
            raise AskedWrongError(404, "This was made too long ago: make it again.")
        return errand


def files_in(archive: bytes) -> list[dict[str, Any]]:
    """Return the names and sizes of the files of an archive."""
    try:
        with zipfile.ZipFile(io.BytesIO(archive)) as source:
            return [{"name": entry.filename, "bytes": entry.file_size} for entry in source.infolist()]
    except zipfile.BadZipFile as problem:
        raise AskedWrongError(404, "This made no papers.") from problem


def file_in(archive: bytes, name: str) -> tuple[bytes, str]:
    """Return a file of an archive with its media type.

    Raises:
        AskedWrongError: there is none of that name.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(archive)) as source:
            content = source.read(name)
    except (KeyError, zipfile.BadZipFile) as problem:
        raise AskedWrongError(404, "There is no paper of that name.") from problem
    return content, _MEDIA.get(name.rpartition(".")[2], "application/octet-stream")
