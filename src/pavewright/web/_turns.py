"""Turns: who of those that wait gets the next free worker, so that nobody's work stands before everybody's."""

from __future__ import annotations

import asyncio
from collections import Counter, OrderedDict
from dataclasses import dataclass, field
from enum import IntEnum

_REMEMBERED = 2000
"""People whose last turn is remembered."""


class Rank(IntEnum):
    """What goes first."""

    NOW = 0
    """Somebody waits for it."""
    IDLE = 1
    """Nobody waits for it: done only while nothing else is."""


@dataclass(frozen=True)
class Person:
    """Whose work it is: an address, and a name by which the browser there is known."""

    address: str = ""
    name: str = ""


class BusyError(Exception):
    """No more can wait; says whether it is the person's own work that fills the list."""

    def __init__(self, message: str, *, own: bool) -> None:
        """Keep both."""
        super().__init__(message)
        self.own = own


@dataclass(eq=False)
class Turn:
    """A place in the list, and once it is given, at a worker."""

    person: Person
    rank: Rank
    stale: bool = False
    """Whether nobody waits any more for what is done there."""
    given: asyncio.Future[None] = field(default_factory=lambda: asyncio.get_running_loop().create_future())


class Turns:
    """Places at workers, as many as are ready to work."""

    def __init__(self, places: int, *, for_one: int, waiting: int, waiting_for_one: int) -> None:
        """Begin without a place; each is added when there is somebody to work there.

        Args:
            places: How many there are going to be.
            for_one: How many of them one person may hold.
            waiting: How many may wait.
            waiting_for_one: How many of them may be one person's.
        """
        self._all = places
        self._places = self._free = 0
        self._for_one = for_one
        self._waiting_max, self._waiting_for_one = waiting, waiting_for_one
        self._waiting: list[Turn] = []
        self._held: Counter[Person] = Counter()
        self._served: OrderedDict[str | Person, int] = OrderedDict()
        self._number = 0

    @property
    def free(self) -> int:
        """How many places nobody holds."""
        return self._free

    @property
    def places(self) -> int:
        """How many places there are."""
        return self._places

    @property
    def waiting(self) -> int:
        """How many wait."""
        return len(self._waiting)

    async def take(self, person: Person, rank: Rank = Rank.NOW) -> Turn:
        """Wait for a place; it has to be given back.

        Raises:
            BusyError: too many wait already.
        """
        if rank is Rank.NOW:
            self._refuse_more(person)
        turn = Turn(person, rank)
        self._waiting.append(turn)
        self._serve()
        try:
            await turn.given
        except asyncio.CancelledError:
            if turn in self._waiting:
                self._waiting.remove(turn)
            elif not turn.given.exception():  # it was given in the same moment
                self.give_back(turn)
            raise
        return turn

    def add_place(self) -> None:
        """Add a place: one more is ready to work."""
        self._places += 1
        self._free += 1
        self._serve()

    def refuse_all(self, reason: Exception) -> None:
        """Tell all who wait why there is no place for them."""
        for turn in self._waiting:
            if not turn.given.done():
                turn.given.set_exception(reason)
        self._waiting.clear()

    def give_back(self, turn: Turn, *, lost: bool = False) -> None:
        """Give a place back, to whoever is next; a lost one is there no more."""
        if lost:
            self._places -= 1
        else:
            self._free += 1
        self._count_off(turn)
        self._serve()

    def is_stale(self, turn: Turn) -> None:
        """Let the person of a place have another one: nobody waits for what is still done at this one."""
        self._count_off(turn)
        turn.stale = True
        self._serve()

    def _count_off(self, turn: Turn) -> None:
        if turn.rank is not Rank.NOW or turn.stale:
            return
        self._held[turn.person] -= 1
        if not self._held[turn.person]:
            del self._held[turn.person]

    def _refuse_more(self, person: Person) -> None:
        here = [turn for turn in self._waiting if turn.rank is Rank.NOW]
        if sum(turn.person == person for turn in here) >= self._waiting_for_one:
            message = f"{self._waiting_for_one} requests of yours are waiting already: let one of them finish."
            raise BusyError(message, own=True)
        if len(here) >= self._waiting_max:
            message = "Too many people are working here at this moment: ask again in a minute."
            raise BusyError(message, own=False)

    def _serve(self) -> None:
        while (turn := self._next()) is not None:
            self._waiting.remove(turn)
            self._free -= 1
            self._held[turn.person] += turn.rank is Rank.NOW
            self._number += 1
            for key in (turn.person.address, turn.person):
                self._served[key] = self._number
                self._served.move_to_end(key)
            while len(self._served) > _REMEMBERED:
                self._served.popitem(last=False)
            turn.given.set_result(None)

    def _next(self) -> Turn | None:
        """Return who is next: the address, then the person there, whose last turn is the longest ago."""
        able = [turn for turn in self._waiting if self._able(turn)]

        def order(turn: Turn) -> tuple[int, int, int]:
            person = turn.person
            return turn.rank, self._served.get(person.address, 0), self._served.get(person, 0)

        return min(able, key=order, default=None)

    def _able(self, turn: Turn) -> bool:
        if turn.given.done():  # whoever waited has just left, and is not off the list yet
            return False
        if turn.rank is Rank.IDLE:
            return self._free == self._places == self._all
        return self._free > 0 and self._held[turn.person] < self._for_one
