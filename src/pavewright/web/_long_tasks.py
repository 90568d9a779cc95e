"""LongTasks: long work that tells how far it is and can be stopped."""

from __future__ import annotations

import asyncio
import io
import json
import logging
import secrets
import time
import zipfile
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.desk import PART
from pavewright.web._answers import AskedWrongError
from pavewright.web._people import Asker
from pavewright.web._who_asks import SIGNED_IN
from pavewright.web._workers import BusyError, LeftError, Refusal, WorkFailedError, WorkOutgrewError, WorkStoppedError

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.web._turns import Person
    from pavewright.web._workers import Workers

_LIMIT_S = 600.0
_FOR_ONE = 4
"""LongTasks of one person that may be under way or waiting."""
_UNDER_WAY = 40
"""LongTasks of everybody that may be under way or waiting."""
_KEPT_S = 1800.0
"""How long what a long task brought is kept. [s]"""
_KEPT = 60
_KEPT_BYTES = 200_000_000
"""What is kept of long tasks that are over: so many, and so much. [bytes]"""
LOG = logging.getLogger("pavewright.web")
FAULT = "The program has a fault here. The job itself is safe."
OUTGREW = (
    "This took more memory than one piece of work is given and was stopped. The job itself is safe: make its areas or "
    "its readings fewer, or split it into two jobs."
)
_MEDIA = {
    "pdf": "application/pdf",
    "png": "image/png",
    "txt": "text/plain; charset=utf-8",
    "svg": "image/svg+xml",
    "json": "application/json",
    "csv": "text/csv; charset=utf-8",
    "ics": "text/calendar; charset=utf-8",
    "dxf": "image/vnd.dxf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@dataclass(eq=False)
class _LongTask:
    verb: str
    person: Person
    owner: str | None = None
    state: str = "waiting"
    reported: list[str] = field(default_factory=list)
    message: str = ""
    result: bytes = b""
    so_far: Any = None
    answers: dict[str, str] = field(default_factory=dict)
    over_s: float | None = None
    task: asyncio.Task[None] | None = None


def _owner() -> str | None:
    """Return whose a long task is that is begun or asked for now; None while nobody signs in."""
    asks = SIGNED_IN.get()
    return None if asks is None else f"{asks.firm_id} {asks.person_id}"


class LongTasks:
    """The long tasks of this server; what they brought is kept for a while, and none is given up for another."""

    def __init__(self, workers: Workers, now: Callable[[], float] = time.monotonic) -> None:
        """Keep the workers that runs them, and the clock by which they expire. [s]."""
        self._workers = workers
        self._now = now
        self._all: dict[str, _LongTask] = {}

    def begin(self, verb: str, payload: bytes, person: Person) -> str:
        """Begin a long task and return its name; it waits for its turn.

        Raises:
            BusyError: the person, or everybody together, has too many under way.
        """
        self._expire()
        going = self._going()
        if sum(long_task.person == person for long_task in going) >= _FOR_ONE:
            message = f"{_FOR_ONE} long pieces of work of yours are under way: let one finish, or stop one."
            raise BusyError(message, own=True)
        if len(going) >= _UNDER_WAY:
            message = "Many long pieces of work wait here already: try again in some minutes."
            raise BusyError(message, own=False)
        name = secrets.token_hex(8)
        long_task = self._all[name] = _LongTask(verb, person, _owner())
        long_task.task = asyncio.create_task(self._run(long_task, payload))
        long_task.task.add_done_callback(lambda _: self._over(long_task))
        return name

    def _going(self) -> list[_LongTask]:
        return [long_task for long_task in self._all.values() if long_task.over_s is None]

    def going(self) -> int:
        """Return how many are under way or wait."""
        return len(self._going())

    async def _run(self, long_task: _LongTask, payload: bytes) -> None:
        def report(words: str) -> None:
            long_task.state = "working"
            if words.startswith(PART):
                part = json.loads(words.removeprefix(PART))
                long_task.so_far = part["so_far"]
                long_task.answers |= part["answers"]
            else:
                long_task.reported.append(words)

        try:
            long_task.result = await self._workers.ask(
                "long", long_task.verb, payload, seconds=_LIMIT_S, report=report, asker=Asker(long_task.person)
            )
            long_task.state = "done"
        except (Refusal, WorkStoppedError, BusyError) as refusal:
            long_task.state, long_task.message = "refused", str(refusal)
        except WorkOutgrewError:
            long_task.state, long_task.message = "refused", OUTGREW
        except WorkFailedError as problem:
            long_task.state, long_task.message = "failed", FAULT
            LOG.error("a worker failed: %s", problem)  # noqa: TRY400 - the worker's own words say where
        except LeftError:
            long_task.state = "stopped"
        except asyncio.CancelledError:
            long_task.state = "stopped"
            raise

    def _over(self, long_task: _LongTask) -> None:
        long_task.over_s = self._now()
        if long_task.state in {"waiting", "working"}:  # it was stopped before it began
            long_task.state = "stopped"

    def _expire(self) -> None:
        """Forget long tasks that have been over for long, and the oldest of them where there are too many."""
        over = sorted(
            ((one.over_s, name) for name, one in self._all.items() if one.over_s is not None),
            reverse=True,
        )
        kept_bytes = 0
        for number, (over_s, name) in enumerate(over):
            kept_bytes += len(self._all[name].result)
            if number >= _KEPT or kept_bytes > _KEPT_BYTES or self._now() - over_s > _KEPT_S:
                del self._all[name]

    def reported(self, name: str) -> dict[str, Any]:
        """Return how far a long task is."""
        long_task = self._of(name)
        return {
            "verb": long_task.verb,
            "state": long_task.state,
            "told": long_task.reported[-1:],
            "message": long_task.message,
        }

    def so_far(self, name: str) -> Any:  # noqa: ANN401 - any JSON value
        """Return what a long task has found so far; None where it reports nothing before its end."""
        return self._of(name).so_far

    def answers(self, name: str, person: Person) -> dict[str, str]:
        """Return the parts that a long task of the same person made, by their keys; nothing where it is forgotten."""
        long_task = self._all.get(name)
        return dict(long_task.answers) if long_task is not None and long_task.person == person else {}

    def stop(self, name: str) -> None:
        """Stop a long task; one that is over stays as it is."""
        long_task = self._of(name)
        if long_task.task is not None and long_task.task.cancel():
            long_task.state = "stopped"

    def result(self, name: str) -> bytes:
        """Return what a long task brought.

        Raises:
            AskedWrongError: it is not done.
        """
        long_task = self._of(name)
        if long_task.state != "done":
            raise AskedWrongError(409, long_task.message or "This is not done yet.")
        return long_task.result

    def close(self) -> None:
        """Stop everything."""
        for long_task in self._all.values():
            if long_task.task is not None:
                long_task.task.cancel()

    def _of(self, name: str) -> _LongTask:
        self._expire()
        long_task = self._all.get(name)
        if long_task is None or long_task.owner != _owner():
            raise AskedWrongError(404, "This was made too long ago: make it again.")
        return long_task


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
