"""Whether the server runs, and whether it can do its work: for whoever watches over it, without signing in."""

from __future__ import annotations

import asyncio
import time
from typing import TYPE_CHECKING

from prometheus_client import CONTENT_TYPE_LATEST
from starlette.routing import Route

from pavewright.store import Amiss, amiss_of, size_bytes_of
from pavewright.web._addresses import LOOPBACK
from pavewright.web._answers import AskedWrongError, answer, answer_bytes
from pavewright.web._door import on_this_machine
from pavewright.web._health_words import ALIVE, COUNTS_HERE, NOT_READY, READY
from pavewright.web._signed_in import firms_of
from pavewright.web._who_asks import SIGNED_IN

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Installation
    from pavewright.web._counts import Counts

_LOOK_S = 3.0
"""How long a store has for its answer. [s]"""
_KEPT_S = 2.0
"""How long what was found counts: however often somebody asks, the store is asked no more often. [s]"""


class Readiness:
    """Whether the store of the first firm can be used: looked at by one at a time, and not at each question."""

    def __init__(
        self, installed: Installation, clock: Callable[[], float] = time.monotonic, look_s: float = _LOOK_S
    ) -> None:
        """Keep the installation, the clock, and how long a store has for its answer. [s]."""
        self._installed = installed
        self._clock = clock
        self._look_s = look_s
        self._looking: asyncio.Task[tuple[Amiss, ...]] | None = None
        self._found: tuple[Amiss, ...] = ()
        self._found_s: float | None = None

    async def amiss(self) -> tuple[Amiss, ...]:
        """Return why the store cannot be used; nothing where it can."""
        if self._found_s is not None and self._clock() - self._found_s < _KEPT_S:
            return self._found
        if self._looking is None or self._looking.done():
            self._looking = asyncio.create_task(asyncio.to_thread(amiss_of, self._installed.first))
        try:
            # a store that hangs keeps one thread and no more: who asks next waits for the same answer
            found = await asyncio.wait_for(asyncio.shield(self._looking), self._look_s)
        except TimeoutError:
            return (Amiss.STORE,)
        self._found, self._found_s = found, self._clock()
        return found


async def _alive(_request: Request) -> Response:
    return answer({"alive": True, "message": ALIVE})


async def _ready(request: Request) -> Response:
    readiness: Readiness = request.app.state.readiness
    amiss = await readiness.amiss()
    message = " ".join(NOT_READY[each] for each in amiss) or READY
    return answer(
        {"ready": not amiss, "amiss": [each.value for each in amiss], "message": message}, 503 if amiss else 200
    )


async def _counted(request: Request) -> Response:
    """Answer with what the server counts, to this machine and to who has the right: the gate let through who has it."""
    if SIGNED_IN.get() is None and not on_this_machine(request.scope, LOOPBACK):
        raise AskedWrongError(403, COUNTS_HERE)
    counts: Counts = request.app.state.counts
    stores = firms_of(request).seen()
    of_files = [each for each in stores if each.is_file] or stores[:1]
    held = [await asyncio.to_thread(size_bytes_of, each) for each in of_files]
    return answer_bytes(counts.text(sum(held)), CONTENT_TYPE_LATEST)


ROUTES = (
    Route("/health", _alive, methods=["GET"]),
    Route("/ready", _ready, methods=["GET"]),
    Route("/metrics", _counted, methods=["GET"]),
)
"""Routes for whoever watches over the server."""
