"""Who is sent where, day after day: whoever was there yesterday stays, else whoever was near, where that can be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.crew_calendar._crews import day_crews, wanted
from pavewright.crew_calendar._days import needs_on
from pavewright.crew_calendar._types import Placed

if TYPE_CHECKING:
    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._greedy import Taken


def with_crews(board: Board, taken: Taken) -> tuple[Placed, ...]:
    """Return stretches on their days with who is there.

    Raises:
        ValueError: on some day there are too few people: the days do not hold.
    """
    crews: dict[tuple[str, int, int], tuple[str, ...]] = {}
    stayed: dict[str, tuple[str, ...]] = {}
    was_in: dict[str, str] = {}
    for day, needs in sorted(needs_on(board, taken).items()):
        wants = []
        for job, stretch, need in needs:
            pin = board.pins.get((job, stretch))
            near = _near(board, day, board.jobs[job].place, was_in)
            wants.append(wanted(need, () if pin is None else pin.people, stayed.get(job, ()), near))
        found = day_crews(board.at_hand[day], tuple(wants))
        if found is None:
            message = f"too few people on {board.days[day]}"
            raise ValueError(message)
        for (job, stretch, _), crew in zip(needs, found, strict=True):
            crews[job, stretch, day] = crew
            stayed[job] = crew
            was_in |= dict.fromkeys(crew, board.jobs[job].place)
    placed = (
        Placed(
            job,
            stretch,
            tuple(board.days[day] for day in days),
            tuple(crews[job, stretch, day] for day in days),
        )
        for (job, stretch), days in taken.items()
    )
    return tuple(sorted(placed, key=lambda each: (each.days[0], each.job, each.stretch)))


def _near(board: Board, day: int, place: str, was_in: dict[str, str]) -> tuple[str, ...]:
    """Return who does not change place by working there: who was there last, or nowhere that is known."""
    if not board.asked.change_job_days or not place:
        return ()
    return tuple(one.id for one in board.at_hand[day] if was_in.get(one.id, "") in {"", place})
