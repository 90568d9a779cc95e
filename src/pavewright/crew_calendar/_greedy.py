"""A first arrangement: job after job on the earliest days that have room."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarJob

Taken = dict[tuple[str, int], tuple[int, ...]]
"""Working days of each stretch, by job and stretch."""


class Filling:
    """Days as they fill with work."""

    def __init__(self, board: Board, begin: Filling | None = None) -> None:
        """Begin with empty days, or with others as they are now."""
        self.board = board
        self.taken: Taken = {} if begin is None else dict(begin.taken)
        self._on: list[tuple[int, ...]] = [()] * len(board.days)
        self._left: list[int] = [len(people) for people in board.at_hand]
        if begin is not None:
            self._on, self._left = begin.days()

    def days(self) -> tuple[list[tuple[int, ...]], list[int]]:
        """Return the kinds of need on each day, and the hands that are left on it."""
        return list(self._on), list(self._left)

    def copy(self) -> Filling:
        """Return the days as they are now; what is put on them later is not in it."""
        return Filling(self.board, self)

    def as_full_as(self, other: Filling) -> bool:
        """Return whether the same kinds of need stand on the same days."""
        return self._on == other._on

    def fits(self, day: int, kind: int) -> bool:
        """Return whether a day has people and machines for one more need of a kind."""
        limits = self.board.limits
        if limits.hands[kind] > self._left[day]:
            return False
        return limits.holds(day, tuple(sorted((*self._on[day], kind))))

    def put(self, job: CalendarJob, stretch: int, days: tuple[int, ...]) -> None:
        """Put a stretch on its days."""
        self.taken[job.id, stretch] = days
        for kind, day in zip(self.board.limits.kinds[job.id, stretch], days, strict=True):
            self._on[day] = tuple(sorted((*self._on[day], kind)))
            self._left[day] -= self.board.limits.hands[kind]

    def drop(self, job: CalendarJob) -> None:
        """Leave out everything of a job."""
        for stretch in range(len(job.stretches)):
            days = self.taken.pop((job.id, stretch), ())
            for day, kind in zip(days, self.board.limits.kinds[job.id, stretch], strict=False):
                at = self._on[day].index(kind)
                self._on[day] = self._on[day][:at] + self._on[day][at + 1 :]
                self._left[day] += self.board.limits.hands[kind]

    def place(self, job: CalendarJob) -> int | None:
        """Put a job on the earliest days with room, each stretch in turn; return the stretch that finds none."""
        links = self.board.links[job.id]
        for stretch in range(len(job.stretches)):
            found = self._earliest(job, stretch, links.get(stretch, ()))
            if found is None:
                self.drop(job)
                return stretch
            self.put(job, stretch, found)
        return None

    def _earliest(
        self, job: CalendarJob, stretch: int, links: Sequence[tuple[int, int, int, int]]
    ) -> tuple[int, ...] | None:
        days, kinds = self.board.days, self.board.limits.kinds[job.id, stretch]
        due = [(own, days[self.taken[job.id, other][at]] + dt.timedelta(days=apart)) for other, at, own, apart in links]
        starts, all_taken = self.board.in_order[job.id, stretch]
        first = bisect_left(days, max((day for own, day in due if not own), default=days[0])) if days else 0
        place = bisect_left(starts, first)
        while place < len(starts):
            taken = all_taken[place]
            place += 1
            if any(days[taken[own]] < day for own, day in due):
                continue
            if all(self.fits(day, kind) for kind, day in zip(kinds, taken, strict=True)):
                return taken
        return None


@dataclass(frozen=True, slots=True)
class InTurn:
    """Jobs placed one after another.

    Attributes:
        turn: Their order.
        taken: Their days.
        left: Jobs for which there was no room.
        weight: What the days weigh. [job-days]
    """

    turn: tuple[CalendarJob, ...]
    taken: Taken
    left: tuple[str, ...]
    weight: float

    @property
    def rank(self) -> tuple[int, float]:
        """Return by what the better of two is told: more jobs placed first, then less weight."""
        return len(self.left), self.weight


def in_turn(board: Board, turn: Sequence[CalendarJob]) -> InTurn:
    """Return jobs placed in turn, each on the earliest days with room."""
    filling = Filling(board)
    left = tuple(sorted(job.id for job in turn if filling.place(job) is not None))
    return InTurn(tuple(turn), filling.taken, left, weight_of(board, filling.taken))


def pinned_first(board: Board, turn: Sequence[CalendarJob]) -> list[CalendarJob]:
    """Return a turn with pinned jobs at its head: they have no other place."""
    pinned = {pin.job for pin in board.asked.pins}
    return sorted(turn, key=lambda job: job.id not in pinned)


def first_arrangement(board: Board, jobs: Sequence[CalendarJob]) -> InTurn:
    """Return the best of several turns.

    Pinned jobs go first, whatever the turn: they have no other place. The turns are: soonest promised, least work,
    soonest done if it were alone, as they stand now, as listed.
    """
    return min((in_turn(board, turn) for turn in _turns(board, jobs)), key=lambda each: each.rank)


def _turns(board: Board, jobs: Sequence[CalendarJob]) -> Iterable[list[CalendarJob]]:
    end = board.asked.last

    def work(job: CalendarJob) -> int:
        return sum(need.hands for stretch in job.stretches for need in stretch.days)

    def alone(job: CalendarJob) -> int:
        filling = Filling(board)
        last = len(job.stretches) - 1
        return len(board.days) if filling.place(job) is not None else filling.taken[job.id, last][-1]

    def stands(job: CalendarJob) -> dt.date:
        return board.asked.present.get((job.id, 0), end)

    ends = {job.id: alone(job) for job in jobs}
    for key in (
        lambda job: (job.promised or end, work(job)),
        lambda job: (work(job), job.promised or end),
        lambda job: (ends[job.id], work(job)),
        lambda job: (stands(job), ends[job.id]),
        lambda _: 0,
    ):
        yield pinned_first(board, sorted(jobs, key=key))


def weight_of(board: Board, taken: Taken) -> float:
    """Return what days weigh. [job-days]."""
    return sum(board.weight(board.jobs[job], stretch, days) for (job, stretch), days in sorted(taken.items()))
