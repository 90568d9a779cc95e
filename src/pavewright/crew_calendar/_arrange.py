"""The best arrangement that a bounded search finds, with what no arrangement can weigh less than."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.crew_calendar._arrangement import Arrangement
from pavewright.crew_calendar._bounds import alone_of, plain_bound
from pavewright.crew_calendar._days import board_of, kinds_on
from pavewright.crew_calendar._greedy import Filling, first_arrangement, in_turn, pinned_first, weight_of
from pavewright.crew_calendar._model import CalendarModel, Searched
from pavewright.crew_calendar._prices import priced
from pavewright.crew_calendar._turning import MAX_PLACED, other_turns
from pavewright.crew_calendar._types import NotPlaced, WhyNot
from pavewright.crew_calendar._ways import Whole, fewer_changes, fewest_changes, weighed, whole_of
from pavewright.crew_calendar._why_not import why_not_alone

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.crew_calendar._bounds import Alone
    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._greedy import InTurn, Taken
    from pavewright.crew_calendar._types import CalendarAsked, CalendarJob

MAX_SEARCHED = 600
"""Choices of a search of all jobs at once; above, jobs are searched some at a time and the rest stays."""
MAX_COLUMNS = 4_000
"""Choices up to which the bound is looked for by one linear programme beside that by prices."""
MAX_NODES = 200
"""Branches of one search."""
_WINDOW_JOBS = 4
"""Jobs that move at a time where there are too many for one search."""
_WINDOW_NODES = 20
_MAX_ROUNDS = 4
_MAX_WINDOWS = 40
"""Searches of some jobs at a time."""
_MAX_CREWED = 8
_LITTLE = 1e-6
_ROOM_DAYS = 15
"""Working days beyond the present end that a search may use."""


class Searching(StrEnum):
    """What the search does."""

    TURNS = "turns"
    BOUND = "bound"
    AGAIN = "again"
    SOME = "some"
    ALL = "all"
    WAYS = "ways"


@dataclass(frozen=True, slots=True)
class ArrangingStep:
    """How far the search is.

    Attributes:
        searching: What it does now.
        job_days: What the best days so far weigh, without changes of place. [job-days]
        bound_job_days: What none can weigh less than, as far as it is shown, without changes of place. [job-days]
        best: Gives the best so far with its bound: who stops here has it.
    """

    searching: Searching
    job_days: float
    bound_job_days: float
    best: Callable[[], Arrangement]


Report = Callable[[ArrangingStep], bool]
"""Takes how far it is, returns whether to go on: where not, the best so far holds."""


def go_on(_step: ArrangingStep) -> bool:
    """Go on to the end."""
    return True


def arrange(asked: CalendarAsked, report: Report = go_on, max_placed: int = MAX_PLACED) -> Arrangement:
    """Return which stretch goes on which days by whom.

    Every job that has room is placed; of those placements the one that weighs least is looked for. The same question
    has the same answer each time, unless somebody stops the search: tries and branches are counted, not seconds.

    Args:
        asked: Jobs, people, plant, days.
        report: Is told after each search how far it is.
        max_placed: How often a job is put on days in each of the two searches of orders.

    Source: definition, whole-number programme over starts and people
    """
    search = _Search(board_of(asked), report, max_placed)
    search.run()
    return search.best()


class _Search:
    """The best days so far, what no days weigh less than, and whether to go on."""

    def __init__(self, board: Board, report: Report, max_placed: int) -> None:
        self.board, self._report, self._max_placed = board, report, max_placed
        refused = {job.id: why_not_alone(board, job) for job in board.asked.jobs}
        self._refused = [each for each in refused.values() if each is not None]
        self._all = [job for job in board.asked.jobs if refused[job.id] is None]
        self._alone = alone_of(board, self._all)
        self._weights = {name: each.weight for name, each in self._alone.items()}
        self.going, self.bound = True, 0.0
        self._kept: Whole | None = None
        self.turn: InTurn = first_arrangement(board, self._all)
        self._take_turn(self.turn)

    def _take_turn(self, turn: InTurn) -> None:
        """Take a turn; where it leaves out other jobs than before, what was shown of the others is shown no more."""
        if self.bound <= 0.0 or turn.left != self.turn.left:
            self.jobs = [job for job in self._all if job.id not in turn.left]
            self.bound = plain_bound(self.board, self.jobs, {job.id: self._alone[job.id] for job in self.jobs})
            self._kept = None
        self.turn, self.taken, self.weight = turn, turn.taken, turn.weight

    def best(self) -> Arrangement:
        """Return the best so far as it is to be kept, changes of place weighed with it."""
        whole = self._sent()
        left = [*self._refused, *(NotPlaced(each, WhyNot.NO_ROOM_FOUND) for each in self.turn.left)]
        changing = self.board.asked.change_job_days * fewest_changes(self.board, self.jobs)
        return Arrangement(
            placed=whole.placed,
            not_placed=tuple(sorted(left, key=lambda each: each.job)),
            job_days=whole.weight,
            bound_job_days=min(self.bound + changing, whole.weight),
            skills_nobody_has=self.board.skills_nobody_has,
            weighed=weighed(self.board, whole),
        )

    def _sent(self) -> Whole:
        """Return the best so far with people: the days found last, or those before where they change place less."""
        found = self._kept
        if found is None or found.taken is not self.taken:
            made = whole_of(self.board, self.taken, self.turn.left)
            found = made if found is None or made.weight < found.weight else found
        self._kept = found
        return found

    def _ways(self) -> None:
        """Put jobs of one place after each other where that weighs less; the days alone may weigh more then."""
        if not self.board.asked.change_job_days or not self.jobs:
            return
        for whole in fewer_changes(self.board, self.jobs, self._sent()):
            self._kept = whole
            step = ArrangingStep(Searching.WAYS, self.weight, min(self.bound, self.weight), self.best)
            if not self._report(step):
                return

    def _tell(self, searching: Searching) -> bool:
        """Tell how far it is, and return whether there is more to look for."""
        step = ArrangingStep(searching, self.weight, min(self.bound, self.weight), self.best)
        self.going = self.going and self._report(step)
        return self.going and self.weight > self.bound + _LITTLE

    def run(self) -> None:
        """Look for better days, a better bound and fewer changes of place, until there is no more or somebody stops."""
        self._days_and_bound()
        if self.going:
            self._ways()

    def _days_and_bound(self) -> None:
        if not self._turns(self.turn, Searching.TURNS) or not self.jobs:
            return
        turns = self._prices()
        if self._tell(Searching.BOUND) and self._again(turns) and self._relaxed():
            self._windows()
            self._whole()
            self._tell(Searching.ALL)

    def _turns(self, begin: InTurn, searching: Searching) -> bool:
        for turn in other_turns(self.board, begin, self._weights, self._max_placed):
            if turn.rank < (self.turn.rank[0], self.weight - _LITTLE):
                self._take_turn(turn)
            if not self._tell(searching):
                return False
        return self._tell(searching)

    def _prices(self) -> list[InTurn]:
        """Find a bound by prices of days; return the jobs in turn as they go at those prices."""
        found = []
        for each in priced(self.board, self.jobs, self.weight):
            self.bound = max(self.bound, each.bound)
            found.append(in_turn(self.board, pinned_first(self.board, each.turn)))
            if not self._tell(Searching.BOUND):
                break
        return found

    def _again(self, turns: list[InTurn]) -> bool:
        """Go on from the best turn by prices: it lies elsewhere than where the first search ended."""
        if self.turn.left:
            return True  # those turns know only the jobs that have a place
        return self._turns(min(turns, key=lambda each: each.rank), Searching.AGAIN)

    def _relaxed(self) -> bool:
        """Find the bound by a linear programme where that is small enough for it."""
        whole = CalendarModel(self.board, self.jobs, self.taken, self._reach())
        if whole.columns <= MAX_COLUMNS:
            self.bound = max(self.bound, whole.relaxed())
        return self._tell(Searching.BOUND)

    def _reach(self) -> dict[str, int]:
        own = {job.id: self._alone[job.id] for job in self.jobs}
        return {job.id: _reach(self.board, job, own, self.weight) for job in self.jobs}

    def _windows(self) -> None:
        """Move some jobs at a time, those beside each other in time, until a round changes nothing."""
        searched = 0
        for _ in range(_MAX_ROUNDS):
            before = self.weight
            for place in range(0, len(self.jobs), _WINDOW_JOBS // 2):
                if searched >= _MAX_WINDOWS:
                    return
                turn = sorted(self.jobs, key=lambda job: (self.taken[job.id, 0][0], job.id))
                self._take(_window(self.board, turn[place : place + _WINDOW_JOBS], self.taken))
                searched += 1
                if not self._tell(Searching.SOME):
                    return
            if self.weight >= before - _LITTLE:
                return

    def _whole(self) -> None:
        """Search all jobs at once where they are few."""
        if not self.going or self.weight <= self.bound + _LITTLE:
            return
        if CalendarModel(self.board, self.jobs, self.taken, self._reach()).columns <= MAX_SEARCHED:
            found = _searched(self.board, self.jobs, self.taken, self._reach(), MAX_NODES)
            self.bound = max(self.bound, found.bound)
            self._take(found.taken)

    def _take(self, taken: Taken | None) -> None:
        """Take days where they are lighter."""
        if taken is not None and weight_of(self.board, taken) < self.weight - _LITTLE:
            self.taken, self.weight = taken, weight_of(self.board, taken)


def _reach(board: Board, job: CalendarJob, alone: Mapping[str, Alone], weight: float) -> int:
    """Return the last working day on which a job can end in anything lighter: the others weigh what they do alone."""
    most = weight - sum(each.weight for name, each in alone.items() if name != job.id)
    return max(day for day in range(len(board.days)) if board.finish_weight(job, day) <= most + _LITTLE)


def _searched(
    board: Board,
    free: Sequence[CalendarJob],
    taken: Taken,
    reach: Mapping[str, int],
    max_nodes: int,
    room: Filling | None = None,
) -> Searched:
    """Return the best days of the free jobs, and what those weigh at the least.

    People are counted first. Where it then turns out that on some day nobody can be sent so, who goes where is decided
    for that day together with the rest: counting leaves nothing out that is possible, so every bound holds.
    """
    crewed: frozenset[int] = frozenset()
    own = {job.id for job in free}
    weight = weight_of(board, {key: days for key, days in taken.items() if key[0] in own})
    bound = -math.inf
    for _ in range(_MAX_CREWED):
        found = CalendarModel(board, free, taken, reach, crewed, room).search(max_nodes, weight)
        bound = max(bound, found.bound)
        if found.taken is None:
            break
        filled = kinds_on(board, taken | found.taken)
        short = frozenset(day for day, kinds in filled.items() if not board.limits.holds(day, kinds))
        if not short:
            return Searched(found.taken, bound)
        crewed |= short
    return Searched(None, bound)


def _window(board: Board, free: Sequence[CalendarJob], taken: Taken) -> Taken | None:
    """Return days with some jobs moved into what the others leave; None where nothing is found."""
    own = {job.id for job in free}
    room = Filling(board)
    for job in board.asked.jobs:
        for stretch in range(len(job.stretches)):
            if job.id not in own and (job.id, stretch) in taken:
                room.put(job, stretch, taken[job.id, stretch])
    last = max(days[-1] for (job, _), days in taken.items() if job in own)
    reach = dict.fromkeys(own, min(len(board.days) - 1, last + _ROOM_DAYS))
    found = _searched(board, free, taken, reach, _WINDOW_NODES, room)
    return None if found.taken is None else taken | found.taken
