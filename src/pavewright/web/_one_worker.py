"""One worker as the server sees it: a process that loads, answers, and can be ended with all that it started."""

from __future__ import annotations

import asyncio
import json
import signal
from typing import TYPE_CHECKING

from pavewright import children
from pavewright.web._frames import ASK, DONE, LIMITS, OUTGREW, READY, REFUSED, TOLD, packed, receive

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

_ENDED_FROM_OUTSIDE = {-signal.SIGABRT, -getattr(signal, "SIGKILL", signal.SIGTERM)}
"""How a worker ends that had no memory left: by itself, or by the system."""


class Refusal(Exception):  # noqa: N818 - reported as it is
    """The request cannot be answered; the message says what to change."""


class WorkFailedError(Exception):
    """The worker has a fault or died; carries its words for the log."""


class WorkOutgrewError(WorkFailedError):
    """The work asked for more memory than it was given, or than there is."""


class Worker:
    """A process that answers one request at a time."""

    def __init__(self, process: asyncio.subprocess.Process) -> None:
        """Keep the process."""
        self.process = process
        self._in_midst = False

    @classmethod
    async def begin(cls, words: Sequence[str]) -> Worker:
        """Start a process and wait until everything is loaded.

        Raises:
            WorkFailedError: it ended before.
        """
        worker = cls(
            await asyncio.create_subprocess_exec(
                *words,
                stdin=asyncio.subprocess.PIPE,
                stdout=asyncio.subprocess.PIPE,
                env=children.surroundings(),
                start_new_session=True,
            )
        )
        try:
            kind, _ = await worker._read()
        except BaseException:
            await worker.stop()
            raise
        assert kind == READY  # noqa: S101 - it says nothing else before
        return worker

    def own(self, limits: dict[str, int]) -> None:
        """Let the worker answer under limits from now on."""
        self._write(LIMITS, json.dumps(limits).encode())

    @property
    def is_running(self) -> bool:
        """Whether the process has not ended."""
        return self.process.returncode is None

    @property
    def is_sound(self) -> bool:
        """Whether the next request can be put: the last one was answered and the process has not ended."""
        return self.is_running and not self._in_midst

    def kill(self) -> None:
        """End the process and all that it started, without waiting for it."""
        if self.is_running:
            children.end_group(self.process.pid)

    async def stop(self) -> None:
        """End the process and all that it started."""
        self.kill()
        # waited for whatever happens to the one who waits: nothing is left behind
        await asyncio.shield(self.process.wait())

    async def ask(self, verb: str, payload: bytes, report: Callable[[str], None]) -> bytes:
        """Return the answer of the process.

        Raises:
            Refusal: the request cannot be answered as it is.
            WorkOutgrewError: it asked for too much memory.
            WorkFailedError: the worker has a fault.
        """
        self._in_midst = True
        self._write(ASK, verb.encode() + b"\n" + payload)
        while True:
            kind, content = await self._read()
            if kind == TOLD:
                report(content.decode())
                continue
            self._in_midst = kind == OUTGREW
            if kind == DONE:
                return content
            if kind == REFUSED:
                raise Refusal(content.decode())
            if kind == OUTGREW:
                message = f"too much memory: {verb}"
                raise WorkOutgrewError(message)
            raise WorkFailedError(content.decode())

    def _write(self, kind: bytes, content: bytes) -> None:
        assert self.process.stdin is not None  # noqa: S101 - it is a pipe
        self.process.stdin.write(packed(kind, content))

    async def _read(self) -> tuple[bytes, bytes]:
        assert self.process.stdout is not None  # noqa: S101 - it is a pipe
        try:
            return await receive(self.process.stdout)
        except (asyncio.IncompleteReadError, ConnectionError) as problem:
            code = await self.process.wait()
            message = f"the worker ended by itself ({code})"
            kind = WorkOutgrewError if code in _ENDED_FROM_OUTSIDE else WorkFailedError
            raise kind(message) from problem
