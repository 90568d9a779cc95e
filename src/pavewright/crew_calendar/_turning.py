"""Orders of the jobs, one after another: a job goes to another place of the turn, and the days are filled anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.crew_calendar._greedy import Filling, InTurn, in_turn

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarJob

MAX_PLACED = 200_000
"""How often a job is put on days in one search: a number, not a time."""
_NEAR, _FAR = 3, 2
"""How many places nearby a job goes to, sooner and later, and how many drawn from the whole turn."""
_KICKED, _MAX_KICKS = 3, 60
"""How many jobs change places at once where no single one is better off, and how often in a row without gain."""
_WORSE = 0.005
"""By how much of its weight a turn may be heavier than the best, and the search still goes on from it. [-]"""
_LITTLE = 1e-6


class _Turning:
    """A turn of jobs with the days as they were before each of them, so that a change begins where it changes."""

    def __init__(self, board: Board, best: InTurn, alone: Mapping[str, float]) -> None:
        """Take a turn, and what each job weighs by itself. [job-days]."""
        self.best = best
        self.placed = 0
        self._board, self._alone = board, alone
        self._before: list[tuple[Filling, tuple[str, ...], float]] = []
        self._note(0)

    def _note(self, place: int) -> None:
        """Note the days before each job from a place of the turn on."""
        filling, left, weight = self._before[place] if place else (Filling(self._board), (), 0.0)
        del self._before[place:]
        for job in self.best.turn[place:]:
            self._before.append((filling, left, weight))
            filling = filling.copy()
            left, weight = self._next(filling, job, left, weight)
        self._before.append((filling, left, weight))

    def _next(
        self, filling: Filling, job: CalendarJob, left: tuple[str, ...], weight: float
    ) -> tuple[tuple[str, ...], float]:
        """Return which jobs are left, and the weight, with one job more."""
        self.placed += 1
        if filling.place(job) is not None:
            return (*left, job.id), weight
        own = (self._board.weight(job, at, filling.taken[job.id, at]) for at in range(len(job.stretches)))
        return left, weight + sum(own)

    def tried(self, place: int, to: int) -> InTurn | None:
        """Return the turn with one job at another place; None where it is seen on the way to be no better."""
        rest = [*self.best.turn[:place], *self.best.turn[place + 1 :]]
        turn = [*rest[:to], self.best.turn[place], *rest[to:]]
        same, past = min(place, to), max(place, to)
        before, left, weight = self._before[same]
        filling = before.copy()
        ahead = sum(self._alone[job.id] for job in turn[same:])
        for at, job in enumerate(turn[same:], same):
            ahead -= self._alone[job.id]
            left, weight = self._next(filling, job, left, weight)
            if len(left) > len(self.best.left):
                return None
            if len(left) == len(self.best.left) and weight + ahead >= self.best.weight - _LITTLE:
                return None
            if at >= past and filling.as_full_as(self._before[at + 1][0]):
                # from here on all days are as they were
                _, left_then, then = self._before[at + 1]
                if (len(left), weight) >= (len(left_then), then - _LITTLE):
                    return None
        return InTurn(tuple(turn), filling.taken, tuple(sorted(left)), weight)

    def take(self, found: InTurn) -> None:
        """Go on from another turn."""
        pairs = enumerate(zip(found.turn, self.best.turn, strict=True))
        same = next((at for at, (new, old) in pairs if new is not old), None)
        self.best = found
        if same is not None:
            self._note(same)


def _better(found: InTurn, than: InTurn) -> bool:
    return found.rank < (than.rank[0], than.rank[1] - _LITTLE)


def other_turns(
    board: Board, best: InTurn, alone: Mapping[str, float], max_placed: int = MAX_PLACED
) -> Iterator[InTurn]:
    """Give the best turn found so far after each try: one job at a time goes to another place of the turn.

    Where no job is better off anywhere, some change places at once and it begins anew from there, as long as that is
    not much heavier than the best. It ends after so many jobs put on days, or so many beginnings without gain. What is
    drawn is drawn from a seed.

    Args:
        board: What is asked.
        best: The best turn so far; its pinned jobs are at its head, and stay there.
        alone: What each job weighs by itself. [job-days]
        max_placed: How often a job is put on days: a number, not a time.
    """
    drawn = np.random.default_rng(0)
    pinned = {pin.job for pin in board.asked.pins}
    first, size = sum(job.id in pinned for job in best.turn), len(best.turn)
    turning = _Turning(board, best, alone)
    quiet, kicks = 0, 0
    order = [*range(first, size)]
    while size - first > 1 and turning.placed < max_placed and kicks <= _MAX_KICKS:
        if quiet >= len(order):
            if turning.best.rank[0] > best.rank[0] or turning.best.weight > best.weight * (1.0 + _WORSE):
                turning.take(best)
            kicks, quiet = kicks + 1, 0
            turning.take(_kicked(board, turning.best, drawn, first))
            order = [first + int(each) for each in drawn.permutation(size - first)]
        here = order[quiet % len(order)]
        if _moved(turning, here, first, drawn):
            quiet = 0
        else:
            quiet += 1
        if _better(turning.best, best):
            best, kicks = turning.best, 0
        yield best


def _moved(turning: _Turning, here: int, first: int, drawn: np.random.Generator) -> bool:
    """Put the job at a place where it weighs least, and return whether that is better than where it was."""
    size = len(turning.best.turn)
    near = range(max(first, here - _NEAR), min(size, here + _NEAR + 1))
    far = (first + int(each) for each in drawn.permutation(size - first)[:_FAR])
    places = sorted({*near, *far} - {here})
    others = [each for at in places if (each := turning.tried(here, at)) is not None]
    found = min(others, key=lambda each: each.rank, default=turning.best)
    if not _better(found, turning.best):
        return False
    turning.take(found)
    return True


def _kicked(board: Board, best: InTurn, drawn: np.random.Generator, first: int) -> InTurn:
    """Return a turn with some jobs at other places, drawn."""
    turn = list(best.turn)
    for _ in range(_KICKED):
        job = turn.pop(int(drawn.integers(first, len(turn))))
        turn.insert(int(drawn.integers(first, len(turn) + 1)), job)
    return in_turn(board, turn)
