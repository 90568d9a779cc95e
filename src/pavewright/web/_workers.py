"""The workers beside the server that work things out, each of which can be stopped.

Work is of classes with workers of their own, so that a long search never holds up a drag of the hand. Within a class
people get their turns one after the other. A worker that had to be ended is replaced by a spare one that has loaded
everything already; loading never counts against the time that a request may take.
"""

from __future__ import annotations

import asyncio
import hashlib
import sys
from collections import OrderedDict
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from pavewright.desk import what_weighs
from pavewright.web._hiring import Hiring
from pavewright.web._lanes import IDLE_VERBS, LANES, Lane
from pavewright.web._one_worker import Refusal, Worker, WorkFailedError, WorkOutgrewError
from pavewright.web._people import ASKER, Asker
from pavewright.web._staff import Staff
from pavewright.web._turns import BusyError, Rank

if TYPE_CHECKING:
    from collections.abc import Callable, Coroutine, Mapping, Sequence

    from pavewright.web._turns import Turn

__all__ = ["BusyError", "LeftError", "Refusal", "WorkFailedError", "WorkOutgrewError", "WorkStoppedError", "Workers"]

_WAITING_S = 180.0
"""How long anybody waits for a turn. [s]"""
_ROOM_S = 1.0
"""How long stale work may still stand in somebody's way: ending a worker costs about as much. [s]"""
_STOPPING = "The program is being stopped."
_KEPT_BYTES = 64_000_000
"""Answers kept for the same question. [bytes]"""
_WORDS = (sys.executable, "-m", "pavewright.web._worker")


class WorkStoppedError(Exception):
    """The work took too long or was stopped."""


class LeftError(Exception):
    """Nobody waits for this answer any more: the connection ended, or the same person asked something newer."""


@dataclass(frozen=True)
class _Order:
    """What is to be done, by whom and for whom."""

    staff: Staff
    verb: str
    payload: bytes
    seconds: float
    report: Callable[[str], None]
    asker: Asker

    @property
    def rank(self) -> Rank:
        """What goes first."""
        return Rank.IDLE if self.verb in IDLE_VERBS else Rank.NOW


class _Work:
    """Work under way, and how many wait for it."""

    def __init__(self, workers: Workers, order: _Order) -> None:
        self.dropped = False
        self.staff = order.staff
        self._turn: Turn | None = None
        self._askers = 0
        self._ending: asyncio.TimerHandle | None = None
        self.task = asyncio.create_task(workers.do(order, self))
        self.task.add_done_callback(_seen)

    def join(self) -> None:
        """Count one more who waits."""
        self._askers += 1
        if self._ending is not None:
            self._ending.cancel()
            self._ending = None

    def begin(self, turn: Turn) -> None:
        """Take note that a worker is at it."""
        self._turn = turn

    def leave(self) -> None:
        """Count one less; work that nobody waits for ends, at once where it has not begun."""
        self._askers -= 1
        if self._askers or self.task.done():
            return
        if self._turn is not None and self.staff.lane.grace_s:
            self.staff.is_stale(self._turn)
            self.end_in(min(self.staff.lane.grace_s, _ROOM_S) if self.staff.waiting else self.staff.lane.grace_s)
        else:
            self.drop()

    def end_in(self, seconds: float) -> None:
        """End it so much later, unless somebody waits for it again."""
        loop = asyncio.get_running_loop()
        if self._ending is not None:
            if self._ending.when() <= loop.time() + seconds:
                return
            self._ending.cancel()
        self._ending = loop.call_later(seconds, self.drop)

    @property
    def is_stale(self) -> bool:
        """Whether nobody waits for it though it has begun."""
        return self._ending is not None

    def drop(self) -> None:
        """End it."""
        self.dropped = True
        self.task.cancel()


def _seen(done: asyncio.Task[bytes]) -> None:
    """Look at how work ended, though nobody may wait for it any more."""
    if not done.cancelled():
        done.exception()


class Workers:
    """Workers in classes."""

    def __init__(self, lanes: Mapping[str, Lane] = LANES, words: Sequence[str] = _WORDS) -> None:
        """Make the classes; a worker starts with its first work.

        Args:
            lanes: The classes of work.
            words: The command of a worker.
        """
        self._hiring = Hiring(words)
        self._staff = {name: Staff(lane, self._hiring) for name, lane in lanes.items()}
        self._kept: OrderedDict[str, bytes] = OrderedDict()
        self._shared: dict[str, _Work] = {}
        self._works: set[_Work] = set()
        self._newest: dict[tuple[object, ...], asyncio.Event] = {}
        self._closed = False
        self.beside: Callable[[str, bytes], bytes] = lambda _verb, payload: payload  # the book goes with it

    async def warm(self) -> None:
        """Let a worker of each class that people wait for load, and a spare one, so that no request waits for it."""
        for name in ("quick", "plan"):
            if name in self._staff:
                await self._staff[name].warm()

    async def ask(
        self,
        lane: str,
        verb: str,
        payload: bytes,
        *,
        seconds: float,
        report: Callable[[str], None] | None = None,
        asker: Asker | None = None,
    ) -> bytes:
        """Return the answer of a worker.

        Args:
            lane: Class of the work.
            verb: What to do.
            payload: With what.
            seconds: How long it may take, from when a worker has it. [s]
            report: Told the name of each stage before it starts.
            asker: Who waits; whoever this request is answered for, where none is given.

        Raises:
            Refusal: the request cannot be answered as it is.
            BusyError: too many wait already.
            WorkStoppedError: it took longer than the seconds given; the worker was ended.
            WorkOutgrewError: it asked for too much memory; the worker was ended.
            WorkFailedError: the worker has a fault.
            LeftError: nobody waits any more.
            asyncio.CancelledError: it was stopped from outside; the worker is ended where nobody else waits for it.
        """
        payload = self.beside(verb, payload)
        order = _Order(self._staff[lane], verb, payload, seconds, report or (lambda _: None), asker or ASKER.get())
        return await self._await(self._begin(order), order)

    async def ask_kept(self, lane: str, verb: str, payload: bytes, *, seconds: float) -> bytes:
        """Return an answer, the kept one where the same was asked before; those who ask the same share the work."""
        payload = self.beside(verb, payload)
        key = hashlib.sha256(verb.encode() + b"\n" + payload).hexdigest()
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        order = _Order(self._staff[lane], verb, payload, seconds, lambda _: None, ASKER.get())
        work = self._shared.get(key)
        if work is None or work.dropped:
            work = self._shared[key] = self._begin(order)
            work.task.add_done_callback(partial(self._keep, key, work))
        return await self._await(work, order)

    async def close(self) -> None:
        """End every worker."""
        self._closed = True
        works = tuple(self._works)
        for work in works:
            work.drop()
        await asyncio.gather(*(work.task for work in works), return_exceptions=True)
        for staff in self._staff.values():
            await staff.close()
        await self._hiring.close()

    async def do(self, order: _Order, work: _Work) -> bytes:
        """Wait for a turn and work with it."""
        self._make_room(order)
        try:
            async with asyncio.timeout(None if order.rank is Rank.IDLE else _WAITING_S):
                turn, worker = await order.staff.take(order.asker.person, order.rank)
        except TimeoutError:
            message = "Too many people are working here at this moment: ask again in a minute."
            raise BusyError(message, own=False) from None
        work.begin(turn)
        try:
            return await self._with(worker, order)
        finally:
            await order.staff.give_back(turn, worker)

    def _make_room(self, order: _Order) -> None:
        """End soon what nobody waits for, where somebody has to wait for it: it may be done in a moment by itself."""
        if order.staff.is_full and order.rank is Rank.NOW:
            for work in self._works:
                if work.staff is order.staff and work.is_stale:
                    work.end_in(min(work.staff.lane.grace_s, _ROOM_S))

    def _begin(self, order: _Order) -> _Work:
        if self._closed:
            raise LeftError(_STOPPING)
        work = _Work(self, order)
        self._works.add(work)
        work.task.add_done_callback(lambda _: self._works.discard(work))
        return work

    async def _await(self, work: _Work, order: _Order) -> bytes:
        """Return what comes of work, for as long as somebody waits for it."""
        work.join()
        leaving = [asyncio.create_task(each) for each in self._reasons_to_leave(order)]
        try:
            await asyncio.wait({work.task, *leaving}, return_when=asyncio.FIRST_COMPLETED)
            if not work.task.done():
                message = "A newer change of this job is worked out instead."
                raise LeftError(message)
            if work.task.cancelled():
                raise LeftError(_STOPPING)
            return work.task.result()
        finally:
            work.leave()
            for task in leaving:
                task.cancel()
            await asyncio.gather(*leaving, return_exceptions=True)

    def _reasons_to_leave(self, order: _Order) -> list[Coroutine[None, None, None]]:
        if order.rank is Rank.IDLE:
            return []
        return [order.asker.left(), self._newer(order)] if order.asker.subject else [order.asker.left()]

    async def _newer(self, order: _Order) -> None:
        """Return when the same person asks the same of a newer state of the same thing; an older request is let go."""
        key = (order.asker.person, order.asker.subject, order.verb)
        if key in self._newest:
            self._newest[key].set()
        mine = self._newest[key] = asyncio.Event()
        try:
            await mine.wait()
        finally:
            if self._newest.get(key) is mine:
                del self._newest[key]

    def _keep(self, key: str, work: _Work, done: asyncio.Task[bytes]) -> None:
        if self._shared.get(key) is work:
            del self._shared[key]
        if done.cancelled() or done.exception() is not None:
            return
        self._kept[key] = done.result()
        while sum(map(len, self._kept.values())) > _KEPT_BYTES:
            self._kept.popitem(last=False)

    async def _with(self, worker: Worker, order: _Order) -> bytes:
        """Return the answer of a worker."""
        stages: list[str] = []

        def tell(words: str) -> None:
            stages.append(words)
            order.report(words)

        try:
            async with asyncio.timeout(order.seconds):
                return await worker.ask(order.verb, order.payload, tell)
        except TimeoutError:
            where = f" in the midst of {stages[-1]}" if stages else ""
            cause = await asyncio.to_thread(what_weighs, order.verb, order.payload)
            message = f"This took longer than {order.seconds:.0f} s and was stopped{where}. {cause}".strip()
            raise WorkStoppedError(message) from None
