"""The crew: workers beside the server that work things out, each of which can be stopped."""

from __future__ import annotations

import asyncio
import contextlib
import hashlib
import sys
from collections import OrderedDict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright.web._frames import ASK, DONE, REFUSED, TOLD, packed, receive

if TYPE_CHECKING:
    from collections.abc import Callable

LANES = {"quick": 1, "plan": 1, "long": 1}
"""How many workers each kind of work has, so that a long search never holds up a drag of the hand."""

_WARM_S = 120.0
"""How long loading may take. [s]"""
_KEPT_BYTES = 64_000_000
"""Answers kept for the same question. [bytes]"""


class Refusal(Exception):  # noqa: N818 - told as it is
    """The request cannot be answered; the message says what to change."""


class WorkStoppedError(Exception):
    """The work took too long or was stopped."""


class WorkFailedError(Exception):
    """The worker has a fault or died; carries its words for the log."""


@dataclass
class _Lane:
    """Workers of one kind of work, and who may use the next one."""

    free: asyncio.Queue[_Worker] = field(default_factory=asyncio.Queue)


class _Worker:
    """One process, started when it is first needed."""

    def __init__(self) -> None:
        self.process: asyncio.subprocess.Process | None = None

    async def start(self) -> asyncio.subprocess.Process:
        """Return the process, started if it is not running."""
        if self.process is None or self.process.returncode is not None:
            self.process = await asyncio.create_subprocess_exec(
                sys.executable,
                "-m",
                "pavewright.web._worker",
                stdin=asyncio.subprocess.PIPE,
                stdout=asyncio.subprocess.PIPE,
            )
        return self.process

    async def stop(self) -> None:
        """Kill the process."""
        if self.process is not None and self.process.returncode is None:
            with contextlib.suppress(ProcessLookupError):
                self.process.kill()
            await self.process.wait()
        self.process = None

    async def ask(self, verb: str, payload: bytes, report: Callable[[str], None]) -> bytes:
        """Return the answer of the process."""
        process = await self.start()
        assert process.stdin is not None  # noqa: S101 - both are pipes
        assert process.stdout is not None  # noqa: S101
        try:
            process.stdin.write(packed(ASK, verb.encode() + b"\n" + payload))
            await process.stdin.drain()
            while True:
                kind, content = await receive(process.stdout)
                if kind == TOLD:
                    report(content.decode())
                elif kind == DONE:
                    return content
                elif kind == REFUSED:
                    raise Refusal(content.decode())
                else:
                    raise WorkFailedError(content.decode())
        except (asyncio.IncompleteReadError, ConnectionError, BrokenPipeError) as problem:
            await self.stop()
            message = "the worker ended"
            raise WorkFailedError(message) from problem


class Crew:
    """Workers in lanes."""

    def __init__(self) -> None:
        """Make the lanes; a worker starts with its first work."""
        self._lanes: dict[str, _Lane] = {}
        self._workers: list[_Worker] = []
        self._kept: OrderedDict[str, bytes] = OrderedDict()
        self._asked: dict[str, asyncio.Task[bytes]] = {}
        for name, count in LANES.items():
            lane = _Lane()
            for _ in range(count):
                worker = _Worker()
                self._workers.append(worker)
                lane.free.put_nowait(worker)
            self._lanes[name] = lane

    async def warm(self) -> None:
        """Let every worker load what it needs, so that the first request need not wait for it."""
        await asyncio.gather(
            *(self.ask(name, "warm", name.encode(), seconds=120.0) for name in LANES), return_exceptions=True
        )

    async def ask(
        self, lane: str, verb: str, payload: bytes, *, seconds: float, report: Callable[[str], None] | None = None
    ) -> bytes:
        """Return the answer of a worker.

        Raises:
            Refusal: the request cannot be answered as it is.
            WorkStoppedError: it took longer than the seconds given; the worker was ended.
            WorkFailedError: the worker has a fault.
            asyncio.CancelledError: it was stopped from outside; the worker was ended.
        """
        queue = self._lanes[lane].free
        worker = await queue.get()
        try:
            return await asyncio.wait_for(worker.ask(verb, payload, report or (lambda _: None)), seconds)
        except TimeoutError as problem:
            await worker.stop()
            message = f"This took longer than {seconds:.0f} s and was stopped."
            raise WorkStoppedError(message) from problem
        except asyncio.CancelledError:
            await worker.stop()
            raise
        finally:
            queue.put_nowait(worker)

    async def ask_kept(self, lane: str, verb: str, payload: bytes, *, seconds: float) -> bytes:
        """Return an answer, the kept one where the same was asked before; two who ask the same share the work."""
        key = hashlib.sha256(verb.encode() + b"\n" + payload).hexdigest()
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        if key not in self._asked:
            task = asyncio.create_task(self.ask(lane, verb, payload, seconds=seconds))
            self._asked[key] = task
            task.add_done_callback(lambda done: self._keep(key, done))
        return await asyncio.shield(self._asked[key])

    def _keep(self, key: str, done: asyncio.Task[bytes]) -> None:
        self._asked.pop(key, None)
        if done.cancelled() or done.exception() is not None:
            return
        self._kept[key] = done.result()
        while sum(map(len, self._kept.values())) > _KEPT_BYTES:
            self._kept.popitem(last=False)

    async def close(self) -> None:
        """End every worker."""
        for task in tuple(self._asked.values()):
            task.cancel()
        for worker in self._workers:
            await worker.stop()
