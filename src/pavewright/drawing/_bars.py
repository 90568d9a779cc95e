"""The programme as bars on paper: what is critical is black, waits are dashed, so that it reads in black and white."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._bars_axis import axis_of
from pavewright.drawing._bars_supply import supply_rows
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Hatch, Path, Region, Scene, Stroke, Words
from pavewright.drawing._type import MIN_TYPE_MM, wrapped
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from pavewright.drawing._bars_axis import Axis, Row
    from pavewright.drawing._scene import Element
    from pavewright.pipeline import Plan
    from pavewright.programme import Task

_WIDE_MM = 184.0
"""Width of the whole chart on paper. [mm]"""
_NAMES_MM = 66.0
_BAR_MM = 2.6
_LINE_MM = 3.5
_GAP_MM = 1.5
_HEAD_MM = 9.0
_FIRST_MM, _NEXT_MM = 195.0, 220.0
"""Height of the first sheet of bars, and of those after it. [mm]"""
_CRITICAL_WAIT = Stroke(0.7, (2.0, 1.2))


def programme_bars(plan: Plan) -> tuple[Scene, ...]:
    """Return the programme as bars: tasks, waits and holds, then deliveries, plant on hire and spoil.

    Long names run on to a second line; a long programme runs on to a second sheet.
    """
    axis = axis_of(plan, _NAMES_MM, _WIDE_MM)
    rows: list[Row] = [
        *((_name(task), task.critical, _task(task, axis)) for task in plan.programme.tasks),
        *supply_rows(plan, axis),
    ]
    pages = _pages(rows)
    return tuple(_scene(plan, axis, page, number, len(pages)) for number, page in enumerate(pages, start=1))


def _name(task: Task) -> str:
    pinned = " (pinned)" if task.pinned_on is not None else ""
    part = f" ({task.done_percent:.0f} % done)" if task.done_percent else ""
    return f"{task.description}{pinned}{part}"


def _lines(name: str, *, bold: bool) -> list[str]:
    # bold type is a little wider than what is measured
    return wrapped(name, (_NAMES_MM - 2.0) / (1.07 if bold else 1.0), MIN_TYPE_MM)


def _high(row: Row) -> float:
    return len(_lines(row[0], bold=row[1])) * _LINE_MM + _GAP_MM


def _pages(rows: Sequence[Row]) -> list[list[Row]]:
    pages: list[list[Row]] = [[]]
    room = _FIRST_MM - _HEAD_MM
    for row in rows:
        if pages[-1] and room < _high(row):
            pages.append([])
            room = _NEXT_MM - _HEAD_MM
        pages[-1].append(row)
        room -= _high(row)
    return pages


def _scene(plan: Plan, axis: Axis, rows: Sequence[Row], number: int, count: int) -> Scene:
    low = -sum(_high(row) for row in rows)
    elements: list[Element] = list(axis.grid(_HEAD_MM, low))
    top = 0.0
    for name, bold, drawn in rows:
        lines = _lines(name, bold=bold)
        high = _high((name, bold, drawn))
        for place, line in enumerate(lines):
            at = (0.0, top - _GAP_MM / 2.0 - (place + 0.5) * _LINE_MM)
            elements.append(Words(at, line, MIN_TYPE_MM, "start", bold=bold))
        elements += drawn(top - high / 2.0)
        top -= high
        elements.append(Path(((0.0, top), (_WIDE_MM, top)), HAIR))
    turn = f", sheet {number} of {count}" if count > 1 else ""
    about = (
        f"Bars of {len(plan.programme.tasks)} tasks and waits from {day_text(axis.first)}{turn}; the table of tasks "
        f"says the same."
    )
    return Scene(
        f"bars_{number}", f"Programme as bars{turn}", tuple(elements), (0.0, low, _WIDE_MM, _HEAD_MM), 1, about
    )


def _task(task: Task, axis: Axis) -> Callable[[float], Iterator[Element]]:
    """Return what draws a task at a height."""

    def drawn(at: float) -> Iterator[Element]:
        x1, x2 = axis.x(task.start), axis.x(task.finish)
        late = axis.x(task.late_finish)
        if not task.critical and task.done_percent < 100.0 and late > x2 + 0.5:  # noqa: PLR2004 - all of it
            yield Path(((x2, at), (late, at)), THIN)
            yield Path(((late, at - _BAR_MM / 3.0), (late, at + _BAR_MM / 3.0)), THIN)
        if task.hold:
            yield _diamond(x2, at, critical=task.critical)
            if x2 - x1 > _BAR_MM:
                yield Path(((x1, at), (x2 - _BAR_MM / 1.4, at)), _CRITICAL_WAIT if task.critical else DASHED)
            return
        x2 = max(x2, x1 + 0.8)
        box = ((x1, at - _BAR_MM / 2.0), (x2, at - _BAR_MM / 2.0), (x2, at + _BAR_MM / 2.0), (x1, at + _BAR_MM / 2.0))
        if task.wait:
            yield Region((box,), Hatch.WHITE)
            yield Path(box, _CRITICAL_WAIT if task.critical else DASHED, closed=True)
            return
        yield Region((box,), Hatch.BLACK if task.critical else Hatch.WHITE, THICK if task.critical else MEDIUM)
        yield from _done(task, x1, x2, at)

    return drawn


def _done(task: Task, x1: float, x2: float, at: float) -> Iterator[Element]:
    """Give the part of a bar that is done."""
    if task.done_percent:
        upto = x1 + (x2 - x1) * task.done_percent / 100.0
        low, high = at - _BAR_MM / 2.0, at + _BAR_MM / 2.0
        yield Region((((x1, low), (upto, low), (upto, high), (x1, high)),), Hatch.GREY, MEDIUM)
        yield Path(((x1, low), (upto, high)), THIN)


def _diamond(x: float, at: float, *, critical: bool) -> Region:
    half = _BAR_MM / 1.4
    ring = ((x, at + half), (x + half, at), (x, at - half), (x - half, at))
    return Region((ring,), Hatch.BLACK if critical else Hatch.WHITE, MEDIUM)
