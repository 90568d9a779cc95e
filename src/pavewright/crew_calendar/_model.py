"""The arrangement as a whole-number programme: starts of stretches, and who is where on each day."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

import highspy
import numpy as np

from pavewright.crew_calendar._days import links_into
from pavewright.crew_calendar._steps_up import StepsUp
from pavewright.job import Skill
from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._greedy import Filling, Taken
    from pavewright.crew_calendar._steps_up import Row
    from pavewright.crew_calendar._types import CalendarJob, DayNeed

_HALF = 0.5
_MANY = 3_000
"""Choices above which the inner points of a programme are quicker than its corners."""
_Cell = tuple[str, int]
"""Job and working day."""
_Wants = dict[_Cell, "list[tuple[int | None, int, DayNeed]]"]
"""What may be wanted on a day of a job: the choice by which it is, None where it stands there anyway; stretch; need."""


@dataclass(frozen=True, slots=True)
class Searched:
    """What a search found.

    Attributes:
        taken: Days of the stretches that were free to move; None where the search found nothing.
        bound: What they weigh at the least; minus infinity where nothing is shown. [job-days]
    """

    taken: Taken | None
    bound: float


class CalendarModel:
    """Free jobs may move, the others stay; people may be sent anywhere."""

    def __init__(
        self,
        board: Board,
        free: Sequence[CalendarJob],
        taken: Taken,
        reach: Mapping[str, int],
        crewed: frozenset[int] = frozenset(),
        room: Filling | None = None,
    ) -> None:
        """Build it.

        Args:
            board: What is asked.
            free: Jobs that may move.
            taken: Where everything stands.
            reach: The working day on which each free job ends at the latest.
            crewed: Working days on which it decides who goes where; on the others people and skills are counted.
            room: The days with what does not move: choices that have no room beside it are left out, which changes
                nothing but the size; None leaves out none.
        """
        self._room = room
        self._board, self._taken, self._crewed = board, taken, crewed
        self._cost: list[float] = []
        self._rows: list[Row] = []
        self._starts: dict[tuple[str, int], dict[int, int]] = {}
        self._options: dict[tuple[str, int], dict[int, tuple[int, ...]]] = {}
        for job in free:
            self._add_starts(job, reach[job.id])
        for job in free:
            self._add_links(job)
        self._crew: dict[_Cell, dict[str, int]] = {}
        self._add_days()

    @property
    def columns(self) -> int:
        """How many choices it holds."""
        return len(self._cost)

    def _column(self, cost: float = 0.0) -> int:
        self._cost.append(cost)
        return len(self._cost) - 1

    def _add_starts(self, job: CalendarJob, reach: int) -> None:
        """Add one choice for each day on which a stretch may begin, of which one is taken."""
        for stretch, reached in in_reach(self._board, job, reach).items():
            key = (job.id, stretch)
            options = reached if self._room is None else self._with_room(self._room, key, reached)
            self._options[key] = options
            self._starts[key] = {
                start: self._column(self._board.weight(job, stretch, days)) for start, days in options.items()
            }

    def _with_room(
        self, room: Filling, key: tuple[str, int], options: dict[int, tuple[int, ...]]
    ) -> dict[int, tuple[int, ...]]:
        kinds = self._board.limits.kinds[key]
        return {
            start: days
            for start, days in options.items()
            if all(room.fits(day, kind) for day, kind in zip(days, kinds, strict=True))
        }

    def _add_links(self, job: CalendarJob) -> None:
        """Add that a stretch has not begun by a day unless what it waits for was done in time for it."""
        days = self._board.days
        for stretch, links in links_into(job).items():
            own = self._options[job.id, stretch]
            for other, at, place, apart in links:
                before = self._options[job.id, other]
                ready = {start: days[taken[at]] + dt.timedelta(days=apart) for start, taken in before.items()}
                began: dict[int, float] = {}
                for start, taken in own.items():
                    began[self._starts[job.id, stretch][start]] = 1.0
                    in_time = [first for first, day in ready.items() if day <= days[taken[place]]]
                    if len(in_time) == len(ready):
                        break
                    row = began | {self._starts[job.id, other][first]: -1.0 for first in in_time}
                    self._rows.append((row, -highspy.kHighsInf, 0.0))

    def _add_days(self) -> None:
        """Add hands, skills and machines of every day, and that nobody is in two places."""
        wants: _Wants = defaultdict(list)
        for (job, stretch), options in self._options.items():
            needs = self._board.jobs[job].stretches[stretch].days
            for start, days in options.items():
                for need, day in zip(needs, days, strict=True):
                    wants[job, day].append((self._starts[job, stretch][start], stretch, need))
        moving = {day for _, day in wants}
        for (job, stretch), days in sorted(self._taken.items()):
            if (job, stretch) not in self._options:
                for need, day in zip(self._board.jobs[job].stretches[stretch].days, days, strict=True):
                    if day in moving:
                        wants[job, day].append((None, stretch, need))
        self._add_people(wants)

    def _add_people(self, wants: _Wants) -> None:
        busy: dict[tuple[str, int], list[int]] = defaultdict(list)
        counted: dict[int, list[tuple[int | None, int]]] = defaultdict(list)
        for (job, day), each in sorted(wants.items()):
            counted[day] += [(column, self._kind(job, stretch, need)) for column, stretch, need in each]
            if day not in self._crewed:
                continue
            crew = {one.id: self._column() for one in self._board.at_hand[day]}
            self._crew[job, day] = crew
            for person, column in crew.items():
                busy[person, day].append(column)
            self._add_crew(day, job, each)
        for columns in busy.values():
            if len(columns) > 1:
                self._rows.append((dict.fromkeys(columns, 1.0), -highspy.kHighsInf, 1.0))
        for day, every in sorted(counted.items()):
            for uses, most in self._board.limits.limits(day):
                self._at_most(most, [(column, uses[kind]) for column, kind in every if uses[kind]])

    def _at_most(self, limit: int, uses: Sequence[tuple[int | None, int]]) -> None:
        """Add that what is taken is no more than there is, where it could be."""
        left = limit - sum(use for column, use in uses if column is None)
        row = {column: float(use) for column, use in uses if column is not None}
        if sum(row.values()) > left:
            self._rows.append((row, -highspy.kHighsInf, float(left)))

    def _add_crew(self, day: int, job: str, wants: Sequence[tuple[int | None, int, DayNeed]]) -> None:
        crew = self._crew[job, day]
        fixed = sum(need.hands for column, _, need in wants if column is None)
        moving: dict[int, float] = {column: -float(need.hands) for column, _, need in wants if column is not None}
        self._rows.append((dict.fromkeys(crew.values(), 1.0) | moving, float(fixed), float(fixed)))
        for skill in sorted({skill for _, _, need in wants for skill in need.skills}):
            able = [crew[one.id] for one in self._board.at_hand[day] if {skill, Skill.ANY} & set(one.skills)]
            asking = [column for column, _, need in wants if skill in need.skills]
            self._add_asked(able, asking)
        for person in sorted({one for _, stretch, _ in wants for one in self._wanted_by_name(job, stretch)}):
            asking = [column for column, stretch, _ in wants if person in self._wanted_by_name(job, stretch)]
            self._add_asked([crew[person]] if person in crew else [], asking)

    def _wanted_by_name(self, job: str, stretch: int) -> tuple[str, ...]:
        pin = self._board.pins.get((job, stretch))
        return () if pin is None else pin.people

    def _add_asked(self, able: Sequence[int], asking: Sequence[int | None]) -> None:
        """Add that one of some people is there where any of some starts is taken."""
        row = dict.fromkeys(able, 1.0) | {column: -1.0 for column in asking if column is not None}
        self._rows.append((row, 1.0 if None in asking else 0.0, highspy.kHighsInf))

    def _kind(self, job: str, stretch: int, need: DayNeed) -> int:
        """Return of which kind the need of a day is."""
        place = self._board.jobs[job].stretches[stretch].days.index(need)
        return self._board.limits.kinds[job, stretch][place]

    def search(self, max_nodes: int, cutoff: float) -> Searched:
        """Return the best that so many branches show, no heavier than the present one.

        Args:
            max_nodes: Branches looked at: a number, not a time, so that the answer is the same on every machine.
            cutoff: What the present one weighs. [job-days]
        """
        solver = quiet_solver()
        solver.setOptionValue("mip_max_nodes", max_nodes)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 1e-6)
        solver.setOptionValue("objective_bound", cutoff + 1e-3)
        solver.passModel(self._lp())
        self._begin_with_the_present(solver)
        solver.run()
        info = solver.getInfo()
        bound = info.mip_dual_bound if np.isfinite(info.mip_dual_bound) else -np.inf
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return Searched(None, bound)
        values = solver.getSolution().col_value
        taken = {
            key: self._options[key][min(start for start, column in starts.items() if values[column] > _HALF)]
            for key, starts in self._starts.items()
        }
        return Searched(taken, bound)

    def _begin_with_the_present(self, solver: highspy.Highs) -> None:
        """Tell the solver where the free stretches stand: it then finds who goes where."""
        columns, values = [], []
        for key, starts in self._starts.items():
            stands = self._taken[key][0]
            for start, column in starts.items():
                columns.append(column)
                values.append(1.0 if start >= stands else 0.0)
        solver.setSolution(len(columns), np.array(columns, dtype=np.int32), np.array(values))

    def _lp(self) -> highspy.HighsLp:
        steps = StepsUp([tuple(starts.values()) for starts in self._starts.values()])
        rows, size = steps.turned_rows(self._rows), len(self._cost)
        costs, always = steps.turned(dict(enumerate(self._cost)))
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = size, len(rows)
        model.offset_ = always
        model.col_cost_ = np.array([costs.get(column, 0.0) for column in range(size)])
        model.col_lower_ = np.array([1.0 if column in steps.last else 0.0 for column in range(size)])
        model.col_upper_ = np.ones(size)
        model.row_lower_ = np.array([lower for _, lower, _ in rows])
        model.row_upper_ = np.array([upper for _, _, upper in rows])
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        model.a_matrix_.start_ = np.cumsum([0, *(len(row) for row, _, _ in rows)])
        model.a_matrix_.index_ = np.array([column for row, _, _ in rows for column in row])
        model.a_matrix_.value_ = np.array([value for row, _, _ in rows for value in row.values()])
        model.integrality_ = [highspy.HighsVarType.kInteger] * size
        return model

    def relaxed(self) -> float:
        """Return what the free jobs weigh at the least where they may be split over starts. [job-days]."""
        solver, model = quiet_solver(), self._lp()
        model.integrality_ = []
        if self.columns > _MANY:
            solver.setOptionValue("solver", "ipm")
        solver.passModel(model)
        solver.run()
        if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return -np.inf
        return float(solver.getInfo().objective_function_value)


def in_reach(board: Board, job: CalendarJob, reach: int) -> dict[int, dict[int, tuple[int, ...]]]:
    """Return where each stretch of a job may begin so that the job ends by a working day."""
    days, links = board.days, links_into(job)
    found: dict[int, dict[int, tuple[int, ...]]] = {}
    for stretch in reversed(range(len(job.stretches))):
        options = {start: taken for start, taken in board.starts(job, stretch).items() if taken[-1] <= reach}
        for other, waits in links.items():
            for before, at, own, apart in waits:
                if before == stretch and other in found:
                    latest = max((days[taken[own]] for taken in found[other].values()), default=dt.date.min)
                    options = {
                        start: taken
                        for start, taken in options.items()
                        if latest >= days[taken[at]] + dt.timedelta(days=apart)
                    }
        found[stretch] = options
    return dict(sorted(found.items()))
