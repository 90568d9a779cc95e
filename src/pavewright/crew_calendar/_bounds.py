"""What no arrangement can weigh less than, without searching."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.crew_calendar._greedy import Filling

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarJob


@dataclass(frozen=True, slots=True)
class Alone:
    """A job that has the calendar to itself.

    Attributes:
        days: From the first day until it is done. [days]
        weight: The same with what its days after the promised end weigh. [job-days]
    """

    days: float
    weight: float


def alone_of(board: Board, jobs: Sequence[CalendarJob]) -> dict[str, Alone]:
    """Return what each job weighs by itself.

    It ends earliest where every stretch begins as early as it may, and no company makes it end earlier. Rain and moves
    weigh no less than zero.
    """
    found = {}
    for job in jobs:
        filling = Filling(board)
        filling.place(job)
        last = filling.taken[job.id, len(job.stretches) - 1][-1]
        days = float((board.days[last] - board.asked.first).days) + 1.0
        found[job.id] = Alone(days, board.finish_weight(job, last))
    return found


def plain_bound(board: Board, jobs: Sequence[CalendarJob], alone: Mapping[str, Alone]) -> float:
    """Return what jobs weigh together at the least. [job-days].

    They have as many people as there are, which ends the k shortest of them no sooner than those people have done that
    much work; and none ends sooner than by itself.

    Source: definition, shortest work first on one resource, and each job by itself
    """
    late = sum(each.weight - each.days for each in alone.values())
    return max(sum(each.days for each in alone.values()), _together(board, jobs)) + late


def _together(board: Board, jobs: Sequence[CalendarJob]) -> float:
    works = sorted(sum(need.hands for stretch in job.stretches for need in stretch.days) for job in jobs)
    found, wanted, had, day = 0.0, 0, 0, -1
    for work in works:
        wanted += work
        while had < wanted and day + 1 < len(board.days):
            day += 1
            had += len(board.at_hand[day])
        found += (board.days[max(day, 0)] - board.asked.first).days + 1.0
    return found
