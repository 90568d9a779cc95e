"""Changes of place: how often somebody works in another place than the day before, and orders of jobs with fewer."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from pavewright.crew_calendar._arrangement import Weighed
from pavewright.crew_calendar._costs import place_changes, travel_min
from pavewright.crew_calendar._greedy import in_turn, pinned_first, weight_of
from pavewright.crew_calendar._sent import with_crews

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._greedy import Taken
    from pavewright.crew_calendar._types import CalendarJob, Placed

MAX_TURNS = 200
"""Orders of the jobs that are tried for fewer changes of place, at the most: a number, not a time."""
_LITTLE = 1e-6


@dataclass(frozen=True, slots=True)
class Whole:
    """Days with who is sent where, as they are weighed together.

    Attributes:
        taken: The days.
        placed: The same with who is there.
        left: Jobs without room.
        changes: How often somebody works in another place than on their day of work before.
        weight: What all of it weighs. [job-days]
    """

    taken: Taken
    placed: tuple[Placed, ...]
    left: tuple[str, ...]
    changes: int
    weight: float

    @property
    def rank(self) -> tuple[int, float]:
        """Return by what the better of two is told: more jobs placed first, then less weight."""
        return len(self.left), self.weight


def whole_of(board: Board, taken: Taken, left: tuple[str, ...]) -> Whole:
    """Return days with people sent to them, and what they weigh with the changes of place."""
    placed = with_crews(board, taken)
    changes = place_changes(board.jobs, placed)
    return Whole(taken, placed, left, changes, weight_of(board, taken) + board.asked.change_job_days * changes)


def fewest_changes(board: Board, jobs: Sequence[CalendarJob]) -> int:
    """Return how many changes of place no arrangement of the jobs goes below.

    Of a place that at the most takes h people at a time h people see at least that one. Whoever sees k places changes
    k - 1 times. So all together change no less often than the sum of h over the places, less how many people there are.
    A job without a known place breaks the count off: then none is shown.

    Source: definition, people and the places that they see
    """
    hands: dict[str, int] = {}
    for job in jobs:
        most = max((need.hands for stretch in job.stretches for need in stretch.days), default=0)
        hands[job.place] = max(hands.get(job.place, 0), most)
    if "" in hands:
        return 0
    return max(0, sum(hands.values()) - len(board.asked.people))


def fewer_changes(board: Board, jobs: Sequence[CalendarJob], begin: Whole) -> Iterator[Whole]:
    """Give the best so far while jobs of one place are put after each other, until no order tried is better.

    Args:
        board: What is asked.
        jobs: The jobs that have a place on the calendar.
        begin: The best so far.
    """
    best, per_change = begin, board.asked.change_job_days
    surely = per_change * fewest_changes(board, jobs)
    tried, at = 0, 0
    turn = _by_start(board, jobs, best)
    while tried < MAX_TURNS and at < len(turn) and best.changes * per_change > surely + _LITTLE:
        better = None
        for other in islice(_beside(turn, at), MAX_TURNS - tried):
            tried += 1
            found = in_turn(board, pinned_first(board, other))
            if found.left or found.weight + surely >= best.weight - _LITTLE:
                continue
            whole = whole_of(board, found.taken, best.left)
            if whole.weight < best.weight - _LITTLE and (better is None or whole.weight < better.weight):
                better = whole
        at += 1
        if better is not None:
            best, at = better, 0
            turn = _by_start(board, jobs, best)
        yield best


def _by_start(board: Board, jobs: Sequence[CalendarJob], whole: Whole) -> list[CalendarJob]:
    return pinned_first(board, sorted(jobs, key=lambda job: (whole.taken[job.id, 0][0], job.id)))


def _beside(turn: Sequence[CalendarJob], at: int) -> Iterator[list[CalendarJob]]:
    """Give the turn with one job before and after each other job of its place, the nearest first."""
    job = turn[at]
    rest = [*turn[:at], *turn[at + 1 :]]
    same = [place for place, other in enumerate(rest) if job.place and other.place == job.place]
    for place in sorted(same, key=lambda each: abs(each - at)):
        for to in (place, place + 1):
            if to != at:
                yield [*rest[:to], job, *rest[to:]]


def weighed(board: Board, whole: Whole) -> Weighed:
    """Return what an arrangement weighs, by what weighs in it. [job-days]."""
    asked, rain, moved, late, days = board.asked, 0.0, 0.0, 0.0, 0.0
    for (name, stretch), taken in sorted(whole.taken.items()):
        job, first = board.jobs[name], board.days[taken[0]]
        rain += board.rain_weight(job, stretch, taken)
        moved += asked.stay_job_days * (asked.present.get((name, stretch), first) != first)
        if stretch == len(job.stretches) - 1:
            until = (board.days[taken[-1]] - asked.first).days + 1.0
            days += until
            late += board.finish_weight(job, taken[-1]) - until
    changing = asked.change_job_days * whole.changes
    return Weighed(days, late, rain, moved, changing, whole.changes, travel_min(board, whole.placed))
