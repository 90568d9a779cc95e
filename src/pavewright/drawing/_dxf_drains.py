"""Drains, soakaways and the grid of the site in the DXF drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import _long_words as words
from pavewright.drawing._dxf_sheets import WIDER
from pavewright.drawing._grid import column_letters, grid_of
from pavewright.drawing._site_parts import middle_of
from pavewright.drawing._type import wrapped
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._dxf_layers import Space
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_TYPE_MM = 2.5
_WIDE_MM = 74.0
"""Width of the lines beside a drain on a sheet. [mm]"""
_OFF_MM = 4.0
"""How far the letters and numbers of the grid stand off it on a sheet. [mm]"""


def drain_points(plan: Plan) -> Iterator[XY]:
    """Give the places of outfalls that drains lead to: the sheets show them too."""
    for run in plan.water.runs:
        if run.end is not None and run.end.at is not None:
            yield run.end.at


def add_drains(space: Space, plan: Plan) -> None:
    """Add pipe runs with what is known of their levels, and soakaways with their size.

    A run whose line nobody knows is no line: it is named where it begins.
    """
    for run in plan.water.runs:
        start, end = run.start.at, None if run.end is None else run.end.at
        to = words.NOT_KNOWN if run.end is None else words.level_of(run.end.invert_level_mm)
        said = (
            f"{words.title_of(run)}: {words.pipe_of(run)}, invert {words.level_of(run.start.invert_level_mm)} to {to}, "
            f"length {words.length_of(run)}, fall {words.fall_of(run)}"
        )
        if start is not None and end is not None:
            space.line((start, end), "DRAIN_RUNS")
            _write(space, said, middle_of(start, end))
        else:
            _write(space, f"{said}; its line is not known", start or _inlet(plan, run.start.name))
    sizes = {each.outfall: each.size for each in plan.water.pits}
    done = set()
    for run in plan.water.runs:
        if run.end is None or run.end.at is None or run.end.name in done:
            continue
        done.add(run.end.name)
        size, (x, y) = sizes.get(run.end.name), run.end.at
        if size is not None:
            long, wide = size.length_mm / 2.0, size.width_mm / 2.0
            ring = ((x - long, y - wide), (x + long, y - wide), (x + long, y + wide), (x - long, y + wide))
            space.line(ring, "SOAKAWAYS", closed=True)
        space.text(run.end.name, (x, y), "SOAKAWAYS", _TYPE_MM)


def _write(space: Space, said: str, at: XY) -> None:
    """Write what is said of a run in lines right of a place."""
    for number, line in enumerate(wrapped(told(said), _WIDE_MM, _TYPE_MM * WIDER)):
        x, y = at[0] + 2.0 * space.scale, at[1] - (number + 1) * 2.0 * _TYPE_MM * space.scale
        space.text(line, (x, y), "DRAIN_RUNS", _TYPE_MM)


def _inlet(plan: Plan, name: str) -> XY:
    """Return the middle of a channel, whose outlet is not known."""
    return next(middle_of(each.start, each.end) for each in plan.survey.site.channels if each.name == name)


def add_grid(space: Space, plan: Plan) -> None:
    """Add the lines between the squares of the site, with letters over them and numbers left of them."""
    grid = grid_of(plan)
    if grid is None:
        return
    left, low = grid.left_mm, grid.low_mm
    right, top = left + grid.columns * grid.pitch_mm, low + grid.rows * grid.pitch_mm
    off = _OFF_MM * space.scale
    for column in range(grid.columns + 1):
        x = left + column * grid.pitch_mm
        space.line(((x, low), (x, top)), "GRID")
        if column < grid.columns:
            space.text(column_letters(column), (x + grid.pitch_mm / 2.0, top + off), "GRID", _TYPE_MM, middle=True)
    for row in range(grid.rows + 1):
        y = low + row * grid.pitch_mm
        space.line(((left, y), (right, y)), "GRID")
        if row < grid.rows:
            space.text(str(row + 1), (left - off, y + grid.pitch_mm / 2.0), "GRID", _TYPE_MM, middle=True)
