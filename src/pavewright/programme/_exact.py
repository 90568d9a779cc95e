"""The shortest schedule under limits, by an exact search that says how far it got."""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy
import numpy as np

from pavewright.programme._cpm import in_order
from pavewright.programme._limited import LimitedSchedule, list_schedule
from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.programme._limited import Activity

MAX_NODES = 500
"""Branches looked at for each length that is tried."""
_MAX_PLACES = 20_000
"""Starts that a model may hold; above, the search is left out and the gap is shown."""


def shortest_schedule(
    activities: Sequence[Activity], room: Sequence[int], max_nodes: int = MAX_NODES
) -> LimitedSchedule:
    """Return the shortest schedule, or the best that was found and the length below which none can go.

    Every length from the bound up is tried: either nothing fits into it, which raises the bound, or what fits is
    shortest. The search stops after a number of branches, not of seconds, so that it ends the same way everywhere.

    Args:
        activities: What is to be done; none takes more of anything than there is.
        room: How much there is of each limited thing.
        max_nodes: Branches for each length.

    Source: definition, whole-number programme over starts, one for each activity and unit of time
    """
    found = list_schedule(activities, room)
    bound = found.bound
    while bound < found.length:
        starts, settled = within(activities, room, bound, max_nodes)
        if starts is not None:
            return LimitedSchedule(starts, bound, bound)
        if not settled:
            break
        bound += 1
    return LimitedSchedule(found.starts, found.length, bound)


def within(
    activities: Sequence[Activity], room: Sequence[int], length: int, max_nodes: int, max_places: int = _MAX_PLACES
) -> tuple[tuple[int, ...] | None, bool]:
    """Return starts that end within a length, None where there are none or none was found, and whether that is sure.

    Args:
        activities: What is to be done.
        room: How much there is of each limited thing.
        length: By when all has ended.
        max_nodes: Branches looked at.
        max_places: Starts that the model may hold; nothing is found above that.
    """
    windows = windows_within(activities, length)
    if any(not window for window in windows):
        return None, True
    if sum(len(each) for each in windows) > max_places:
        return None, False
    first = np.cumsum([0, *(len(each) for each in windows)])
    solver = quiet_solver()
    solver.setOptionValue("mip_max_nodes", max_nodes)
    solver.passModel(_model(activities, room, windows, first))
    solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, True
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None, False
    values = np.array(solver.getSolution().col_value)
    starts = tuple(
        windows[number][int(np.argmax(values[first[number] : first[number + 1]]))] for number in range(len(activities))
    )
    return (starts, True) if holds(activities, room, starts) else (None, False)


def windows_within(activities: Sequence[Activity], length: int) -> list[range]:
    """Return the starts that each activity may have, as far as the order alone shows; empty where it has none."""
    order = in_order([each.after for each in activities])
    early = [each.release for each in activities]
    for number in order:
        one = activities[number]
        early[number] = max([one.release, *(activities[each].ready(early[each]) for each in one.after)])
    late = [length - each.length for each in activities]
    for number in reversed(order):
        for before in activities[number].after:
            start = late[before]
            while start >= early[before] and activities[before].ready(start) > late[number]:
                start -= 1
            late[before] = start
    return [range(first, last + 1) for first, last in zip(early, late, strict=True)]


def holds(activities: Sequence[Activity], room: Sequence[int], starts: Sequence[int]) -> bool:
    """Return whether starts keep every order and every limit."""
    in_turn = all(
        activities[before].ready(starts[before]) <= starts[number]
        for number, each in enumerate(activities)
        for before in each.after
    )
    end = max((start + each.length for start, each in zip(starts, activities, strict=True)), default=0)
    taken = np.zeros((end, len(room)), dtype=np.int64)
    for start, each in zip(starts, activities, strict=True):
        taken[start : start + each.length] += np.array(each.uses, dtype=np.int64)
    return in_turn and bool((taken <= np.array(room, dtype=np.int64)).all())


class _Rows:
    """Rows of a model, one entry at a time."""

    def __init__(self) -> None:
        self.starts = [0]
        self.columns: list[int] = []
        self.values: list[float] = []
        self.lower: list[float] = []
        self.upper: list[float] = []

    def add(self, entries: dict[int, float], lower: float, upper: float) -> None:
        self.columns += entries
        self.values += entries.values()
        self.starts.append(len(self.columns))
        self.lower.append(lower)
        self.upper.append(upper)


def _model(
    activities: Sequence[Activity], room: Sequence[int], windows: Sequence[range], first: np.ndarray
) -> highspy.HighsLp:
    rows = _Rows()
    for number, window in enumerate(windows):
        rows.add({int(first[number]) + place: 1.0 for place in range(len(window))}, 1.0, 1.0)
    _add_links(rows, activities, windows, first)
    _add_limits(rows, activities, room, windows, first)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = int(first[-1]), len(rows.lower)
    model.col_cost_ = np.zeros(model.num_col_)
    model.col_lower_, model.col_upper_ = np.zeros(model.num_col_), np.ones(model.num_col_)
    model.row_lower_, model.row_upper_ = np.array(rows.lower), np.array(rows.upper)
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.array(rows.starts)
    model.a_matrix_.index_ = np.array(rows.columns)
    model.a_matrix_.value_ = np.array(rows.values)
    model.integrality_ = [highspy.HighsVarType.kInteger] * model.num_col_
    return model


def _add_links(rows: _Rows, activities: Sequence[Activity], windows: Sequence[range], first: np.ndarray) -> None:
    """Add that nothing has started by a time unless what comes first has ended by then."""
    for number, each in enumerate(activities):
        for before in each.after:
            latest = windows[before].start - 1
            for time in windows[number]:
                while latest + 1 < windows[before].stop and activities[before].ready(latest + 1) <= time:
                    latest += 1
                if latest >= windows[before].stop - 1:
                    break
                row = {int(first[number]) + place: 1.0 for place in range(time - windows[number].start + 1)}
                row |= {int(first[before]) + place: -1.0 for place in range(latest - windows[before].start + 1)}
                rows.add(row, -highspy.kHighsInf, 0.0)


def _add_limits(
    rows: _Rows, activities: Sequence[Activity], room: Sequence[int], windows: Sequence[range], first: np.ndarray
) -> None:
    """Add that at no time more is taken than there is."""
    end = max((window.stop - 1 + each.length for window, each in zip(windows, activities, strict=True)), default=0)
    for place, limit in enumerate(room):
        for time in range(end):
            row = {
                int(first[number]) + start - window.start: float(each.uses[place])
                for number, (window, each) in enumerate(zip(windows, activities, strict=True))
                if each.uses[place]
                for start in range(max(window.start, time - each.length + 1), min(window.stop, time + 1))
            }
            if row:
                rows.add(row, -highspy.kHighsInf, float(limit))
