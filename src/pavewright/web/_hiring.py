"""New workers, with a spare one that has loaded already, so that nobody waits while one loads."""

from __future__ import annotations

import asyncio
import contextlib
from typing import TYPE_CHECKING

from pavewright.web._one_worker import Worker, WorkFailedError

if TYPE_CHECKING:
    from collections.abc import Sequence

_LOADING_S = 120.0
"""How long loading may take. [s]"""


class Hiring:
    """Workers that have loaded, and all that were handed out and not ended yet."""

    def __init__(self, words: Sequence[str]) -> None:
        """Keep the command of a worker."""
        self._words = words
        self._spare: asyncio.Task[Worker] | None = None
        self._working: set[Worker] = set()
        self._leaving: set[asyncio.Task[None]] = set()
        self._closed = False

    async def new(self) -> Worker:
        """Return a worker that has loaded, and let the next spare one load.

        Raises:
            WorkFailedError: it does not load.
        """
        self.fill()
        loading = self._spare
        assert loading is not None  # noqa: S101 - just filled
        self._spare = None
        try:
            worker = await asyncio.shield(loading)
        except asyncio.CancelledError:
            if self._spare is None and not self._closed:
                self._spare = loading  # the next one gets it
            else:
                self._let_go(loading)
            raise
        self._working.add(worker)
        self.fill()
        return worker

    def fill(self) -> None:
        """Let a spare worker load, where there is none that has not ended."""
        if self._closed:
            message = "the program is being stopped"
            raise WorkFailedError(message)
        if self._spare is not None and self._spare.done() and not _ready(self._spare):
            self._spare = None
        if self._spare is None:
            self._spare = asyncio.create_task(self._load())

    async def end(self, worker: Worker) -> None:
        """End a worker."""
        await worker.stop()
        self._working.discard(worker)

    async def close(self) -> None:
        """End every worker."""
        self._closed = True
        if self._spare is not None:
            self._spare.cancel()
            with contextlib.suppress(asyncio.CancelledError, WorkFailedError):
                self._working.add(await self._spare)
        await asyncio.gather(*(self.end(worker) for worker in tuple(self._working)), *self._leaving)

    async def _load(self) -> Worker:
        try:
            async with asyncio.timeout(_LOADING_S):
                return await Worker.begin(self._words)
        except TimeoutError:
            message = f"a worker did not load within {_LOADING_S:.0f} s"
            raise WorkFailedError(message) from None

    def _let_go(self, loading: asyncio.Task[Worker]) -> None:
        """End a worker that still loads and that nobody wants; closing waits for that."""
        leaving = asyncio.create_task(self._end_loading(loading))
        self._leaving.add(leaving)
        leaving.add_done_callback(self._leaving.discard)

    async def _end_loading(self, loading: asyncio.Task[Worker]) -> None:
        loading.cancel()
        with contextlib.suppress(asyncio.CancelledError, WorkFailedError):
            await (await loading).stop()


def _ready(loading: asyncio.Task[Worker]) -> bool:
    return not loading.cancelled() and loading.exception() is None and loading.result().is_running
