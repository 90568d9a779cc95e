"""The staff of one class of work: workers that are ready, and who gets the next one."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from pavewright.web._one_worker import WorkFailedError
from pavewright.web._turns import Rank, Turns

if TYPE_CHECKING:
    from pavewright.web._hiring import Hiring
    from pavewright.web._lanes import Lane
    from pavewright.web._one_worker import Worker
    from pavewright.web._turns import Person, Turn


class Staff:
    """Workers of one class; it grows to its full number as they are needed."""

    def __init__(self, lane: Lane, hiring: Hiring) -> None:
        """Keep the class and where its workers come from; nobody is there yet."""
        self.lane = lane
        self._hiring = hiring
        self._free: list[Worker] = []
        self._coming: set[asyncio.Task[None]] = set()
        self._turns = Turns(
            lane.workers, for_one=lane.for_one, waiting=lane.waiting, waiting_for_one=lane.waiting_for_one
        )

    async def warm(self) -> None:
        """Have one worker ready."""
        if not self._turns.places:
            self._hire()
        await asyncio.gather(*self._coming)

    async def take(self, person: Person, rank: Rank) -> tuple[Turn, Worker]:
        """Return a place and the worker there, to be given back.

        Where all are busy one more begins to load, but whichever is free first is taken.

        Raises:
            BusyError: too many wait already.
            WorkFailedError: no worker loads.
        """
        while True:
            if not self._turns.free or rank is Rank.IDLE:
                self._hire()
            turn = await self._turns.take(person, rank)
            worker = self._free.pop()
            if worker.is_sound:
                return turn, worker
            await self.give_back(turn, worker)

    async def give_back(self, turn: Turn, worker: Worker) -> None:
        """Give a place back; a worker that was interrupted in its work is ended and replaced."""
        if worker.is_sound:
            self._free.append(worker)
            self._turns.give_back(turn)
            return
        self._turns.give_back(turn, lost=True)
        if self._turns.waiting:
            self._hire()
        await self._hiring.end(worker)

    @property
    def is_full(self) -> bool:
        """Whether whoever comes now has to wait."""
        return not self._turns.free

    @property
    def waiting(self) -> int:
        """How many wait for a worker."""
        return self._turns.waiting

    def is_stale(self, turn: Turn) -> None:
        """Let the person of a place have another one: nobody waits for what is still done there."""
        self._turns.is_stale(turn)

    async def close(self) -> None:
        """Let nobody come any more."""
        for task in tuple(self._coming):
            task.cancel()
        await asyncio.gather(*self._coming, return_exceptions=True)

    def _hire(self) -> None:
        """Let one more worker load, where the class has not all of its own."""
        if self._turns.places + len(self._coming) < self.lane.workers:
            coming = asyncio.create_task(self._come())
            self._coming.add(coming)
            coming.add_done_callback(self._coming.discard)

    async def _come(self) -> None:
        try:
            worker = await self._hiring.new()
        except WorkFailedError as problem:
            if not self._turns.places:
                self._turns.refuse_all(problem)
            return
        worker.own({"memory_bytes": self.lane.memory_bytes, "nice": self.lane.nice})
        self._free.append(worker)
        task = asyncio.current_task()
        if task is not None:
            self._coming.discard(task)
        self._turns.add_place()
        if self._turns.waiting:
            self._hire()
