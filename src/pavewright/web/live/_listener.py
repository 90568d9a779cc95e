"""A listener: one open page or program, with what it was not told yet, which is never more than a little."""

from __future__ import annotations

import asyncio
import time
from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.web.live._events import Kind

if TYPE_CHECKING:
    from anyio import CancelScope

    from pavewright.web._who_asks import SignedIn
    from pavewright.web.live._events import Told

WAITING_MAX = 64
"""Events that wait for one listener; one that falls behind by more is told to read anew. [events]"""
HEARTBEAT_S = 15.0
"""After how long without an event a line is sent that says nothing, so that nobody between ends the line. [s]"""
LONGEST_S = 1_800.0
"""After how long a stream ends and is opened again, so that who listens is judged anew. [s]"""


@dataclass(frozen=True, slots=True)
class Whose:
    """Whose stream it is.

    Attributes:
        person: The person; where nobody signs in the paired device or the browser.
        place: The browser, the paired device or the program that listens.
        asks: Who is signed in; None where nobody is.
        device_id: The paired device; None on this machine, and where somebody signs in.
    """

    person: str
    place: str
    asks: SignedIn | None = None
    device_id: str | None = None


class Listener:
    """Somebody who is told what happens to a job, or to every job of a firm."""

    def __init__(self, whose: Whose, job: str | None) -> None:
        """Begin with nothing to tell.

        Args:
            whose: Whose it is.
            job: The job; None for every job.
        """
        self.whose, self.job = whose, job
        self.over = False
        self.scope: CancelScope | None = None
        self.begun_s = self.taken_s = time.monotonic()
        self._waiting: deque[Told] = deque()
        self._behind = False
        self._woken = asyncio.Event()

    def offer(self, told: Told) -> None:
        """Tell an event, where it is about what is listened to; one who is behind is told to read anew instead."""
        if self.over or (self.job != told.job if self.job is not None else told.kind is Kind.HERE):
            return
        if len(self._waiting) >= WAITING_MAX:
            self._waiting.clear()
            self._behind = True
        if not self._behind:
            self._waiting.append(told)
        self._woken.set()

    def end(self) -> None:
        """End the stream once what waits was told."""
        self.over = True
        self._woken.set()

    async def take(self) -> tuple[list[Told], bool]:
        """Return what is to be told, and whether everything is to be read anew; neither after a while of silence."""
        self.taken_s = time.monotonic()
        try:
            async with asyncio.timeout(HEARTBEAT_S):
                await self._woken.wait()
        except TimeoutError:
            return [], False
        self._woken.clear()
        told, behind = list(self._waiting), self._behind
        self._waiting.clear()
        self._behind = False
        return told, behind
