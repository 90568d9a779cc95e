"""Errands: long work that tells how far it is and can be stopped."""

from __future__ import annotations

import asyncio
import io
import logging
import secrets
import time
import zipfile
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.web._answers import AskedWrongError
from pavewright.web._crew import BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError
from pavewright.web._people import Asker

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.web._crew import Crew
    from pavewright.web._turns import Person

_LIMIT_S = 600.0
_FOR_ONE = 4
"""Errands of one person that may be under way or waiting."""
_UNDER_WAY = 40
"""Errands of everybody that may be under way or waiting."""
_KEPT_S = 1800.0
"""How long what an errand brought is kept. [s]"""
_KEPT = 60
_KEPT_BYTES = 200_000_000
"""What is kept of errands that are over: so many, and so much. [bytes]"""
LOG = logging.getLogger("pavewright.web")
FAULT = "The program has a fault here. The job itself is safe."
OUTGREW = (
    "This took more memory than one piece of work is given and was stopped. The job itself is safe: make its areas or "
    "its readings fewer, or split it into two jobs."
)
_MEDIA = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "json": "application/json",
    "csv": "text/csv; charset=utf-8",
    "ics": "text/calendar; charset=utf-8",
    "dxf": "image/vnd.dxf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@dataclass(eq=False)
class _Errand:
    verb: str
    person: Person
    state: str = "waiting"
    told: list[str] = field(default_factory=list)
    message: str = ""
    result: bytes = b""
    over_s: float | None = None
    task: asyncio.Task[None] | None = None


class Errands:
    """The errands of this server; what they brought is kept for a while, and none is given up for another."""

    def __init__(self, crew: Crew, now: Callable[[], float] = time.monotonic) -> None:
        """Keep the crew that runs them, and the clock by which they expire. [s]."""
        self._crew = crew
        self._now = now
        self._all: dict[str, _Errand] = {}

    def begin(self, verb: str, payload: bytes, person: Person) -> str:
        """Begin an errand and return its name; it waits for its turn.

        Raises:
            BusyError: the person, or everybody together, has too many under way.
        """
        self._expire()
        going = [errand for errand in self._all.values() if errand.over_s is None]
        if sum(errand.person == person for errand in going) >= _FOR_ONE:
            message = f"{_FOR_ONE} long pieces of work of yours are under way: let one finish, or stop one."
            raise BusyError(message, own=True)
        if len(going) >= _UNDER_WAY:
            message = "Many long pieces of work wait here already: try again in some minutes."
            raise BusyError(message, own=False)
        name = secrets.token_hex(8)
        errand = self._all[name] = _Errand(verb, person)
        errand.task = asyncio.create_task(self._run(errand, payload))
        errand.task.add_done_callback(lambda _: self._over(errand))
        return name

    async def _run(self, errand: _Errand, payload: bytes) -> None:
        def report(words: str) -> None:
            errand.state = "working"
            errand.told.append(words)

        try:
            errand.result = await self._crew.ask(
                "long", errand.verb, payload, seconds=_LIMIT_S, report=report, asker=Asker(errand.person)
            )
            errand.state = "done"
        except (Refusal, WorkStoppedError, BusyError) as refusal:
            errand.state, errand.message = "refused", str(refusal)
        except WorkOutgrewError:
            errand.state, errand.message = "refused", OUTGREW
        except WorkFailedError as problem:
            errand.state, errand.message = "failed", FAULT
            LOG.error("a worker failed: %s", problem)  # noqa: TRY400 - the worker's own words say where
        except LeftError:
            errand.state = "stopped"
        except asyncio.CancelledError:
            errand.state = "stopped"
            raise

    def _over(self, errand: _Errand) -> None:
        errand.over_s = self._now()
        if errand.state in {"waiting", "working"}:  # it was stopped before it began
            errand.state = "stopped"

    def _expire(self) -> None:
        """Forget errands that have been over for long, and the oldest of them where there are too many."""
        over = sorted(
            ((errand.over_s, name) for name, errand in self._all.items() if errand.over_s is not None), reverse=True
        )
        kept_bytes = 0
        for number, (over_s, name) in enumerate(over):
            kept_bytes += len(self._all[name].result)
            if number >= _KEPT or kept_bytes > _KEPT_BYTES or self._now() - over_s > _KEPT_S:
                del self._all[name]

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
        self._expire()
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
