"""Why a job has no place even where it has the calendar to itself."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.crew_calendar._crews import day_crews, wanted
from pavewright.crew_calendar._days import Board
from pavewright.crew_calendar._greedy import Filling
from pavewright.crew_calendar._types import NotPlaced, WhyNot

if TYPE_CHECKING:
    from pavewright.crew_calendar._types import CalendarJob, DayNeed


def why_not_alone(board: Board, job: CalendarJob) -> NotPlaced | None:
    """Return why a job has no place by itself; None where it has one."""
    if not job.stretches or any(not stretch.days for stretch in job.stretches):
        return NotPlaced(job.id, WhyNot.LENGTH_UNKNOWN)
    for number, stretch in enumerate(job.stretches):
        for need in stretch.days:
            found = _never(board, job, number, need)
            if found is not None:
                return found
    stuck = Filling(board).place(job)
    if stuck is None:
        return None
    late = [each for each in job.deliveries if each.earliest is not None and each.earliest > board.asked.last]
    if late:
        return NotPlaced(job.id, WhyNot.DELIVERY_AFTER_END, late[0].at[0])
    if any(pin.job == job.id for pin in board.asked.pins):
        without = Board(replace(board.asked, pins=()), board.days, board.skills_nobody_has)
        if Filling(without).place(job) is None:
            return NotPlaced(job.id, WhyNot.PIN_CANNOT_HOLD, stuck)
    return NotPlaced(job.id, WhyNot.HORIZON_TOO_SHORT, stuck)


def _never(board: Board, job: CalendarJob, number: int, need: DayNeed) -> NotPlaced | None:
    """Return why a day of work is possible on no day, whatever else there is; None where it is."""
    if need.hands > len(board.asked.people):
        return NotPlaced(job.id, WhyNot.TOO_FEW_PEOPLE, number, hands=need.hands)
    if day_crews(board.asked.people, (wanted(need),)) is None:
        return NotPlaced(job.id, WhyNot.NO_CREW_WITH_SKILLS, number, need.skills, hands=need.hands)
    for machine in need.machines:
        if board.asked.plant.get(machine, 1) < 1:
            return NotPlaced(job.id, WhyNot.TOO_FEW_MACHINES, number, machine=machine)
    return None
