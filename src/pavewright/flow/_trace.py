"""The path of a drop, for drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from pavewright.flow._fill import Filled
    from pavewright.geometry import XY

STRIDE = 0.5
"""Length of a step as part of a cell. [-]"""


@dataclass(frozen=True, slots=True)
class Path:
    """The way of a drop over the paving.

    Attributes:
        points: Corners of the way, x and y. [mm]
        end: ``exit``, ``puddle`` or ``nowhere`` (no exit can be reached).
        outlet: Outlet to which it leaves; empty where it does not.
    """

    points: tuple[XY, ...]
    end: str
    outlet: str


def trace(filled: Filled, start: XY, min_depth_mm: float = 0.0) -> Path:
    """Return the way of a drop by steepest descent, until an exit or a puddle.

    Between the centres of four cells the level is bilinear and the way runs freely; along walls and through shallow
    hollows it runs from centre to centre, the latter the way that the flood came.

    Args:
        filled: A filled grid.
        start: Where the drop falls. [mm]
        min_depth_mm: A hollow stops the drop where it is deeper than this. [mm]

    Raises:
        ValueError: the start lies off the paving.
    """
    cell = filled.grid.cell_at(start)
    if cell is None:
        message = "a drop has to fall on the paving"
        raise ValueError(message)
    exits, depth, reached = filled.grid.exits, filled.depth_mm, filled.labels >= 0
    points, at, bound = [start], start, False
    turned: set[tuple[int, int]] = set()
    while True:
        if not reached[cell]:
            return Path(tuple(points), "nowhere", "")
        if depth[cell] > min_depth_mm:
            return Path(tuple(points), "puddle", "")
        if exits[cell] >= 0:
            return Path(tuple(points), "exit", filled.grid.outlets[int(exits[cell])])
        step = None if bound else _glide(filled, at)
        if step is None:
            bound = bound or cell in turned  # been here before: from now on down the flood, which has an end
            turned.add(cell)
            cell = _down_the_flood(filled, cell) if bound else _lowest_neighbour(filled, cell)
            at = filled.grid.centre(*cell)
        else:
            at, cell = step
        points.append(at)


def _glide(filled: Filled, at: XY) -> tuple[XY, tuple[int, int]] | None:
    """Return the next point of steepest descent and its cell, or None where it would meet a wall or not fall."""
    here = _bilinear(filled, at)
    if here is None:
        return None
    level, slope_x, slope_y = here
    steepest = math.hypot(slope_x, slope_y)
    if steepest <= 0.0:
        return None
    stride = STRIDE * filled.grid.cell_mm / steepest
    to = (at[0] - stride * slope_x, at[1] - stride * slope_y)
    cell, there = filled.grid.cell_at(to), _bilinear(filled, to)
    if cell is None:
        return None
    if there is None:  # the outermost half cell, where four centres are wanting
        return (to, cell) if filled.grid.exits[cell] >= 0 else None
    return (to, cell) if there[0] < level else None


def _bilinear(filled: Filled, at: XY) -> tuple[float, float, float] | None:
    """Return level and slopes between the four centres around a point, or None where one is wanting. [mm, -, -]."""
    grid = filled.grid
    across = (at[0] - grid.x0_mm) / grid.cell_mm - 0.5
    up = (at[1] - grid.y0_mm) / grid.cell_mm - 0.5
    column, row = math.floor(across), math.floor(up)
    rows, columns = grid.inside.shape
    if row < 0 or column < 0 or row + 1 >= rows or column + 1 >= columns:
        return None
    four: NDArray[np.float64] = filled.levels_mm[row : row + 2, column : column + 2]
    if not np.isfinite(four).all():
        return None
    (a, b), (c, d) = four.tolist()
    u, v = across - column, up - row
    level = (1 - v) * ((1 - u) * a + u * b) + v * ((1 - u) * c + u * d)
    return level, ((1 - v) * (b - a) + v * (d - c)) / grid.cell_mm, ((1 - u) * (c - a) + u * (d - b)) / grid.cell_mm


def _lowest_neighbour(filled: Filled, cell: tuple[int, int]) -> tuple[int, int]:
    """Return the neighbour to which it falls most steeply, or the one from which the flood came."""
    best, found = 0.0, _down_the_flood(filled, cell)
    here = float(filled.levels_mm[cell])
    for down, along in _neighbours(filled.neighbours):
        near = (cell[0] + down, cell[1] + along)
        if not (0 <= near[0] < filled.levels_mm.shape[0] and 0 <= near[1] < filled.levels_mm.shape[1]):
            continue
        if filled.labels[near] < 0:
            continue
        slope = (here - float(filled.levels_mm[near])) / math.hypot(down, along)
        if slope > best:
            best, found = slope, near
    return found


def _neighbours(count: int) -> Iterator[tuple[int, int]]:
    for down in (-1, 0, 1):
        for along in (-1, 0, 1):
            if (down or along) and (count > _SIDES or not (down and along)):
                yield down, along


_SIDES = 4


def _down_the_flood(filled: Filled, cell: tuple[int, int]) -> tuple[int, int]:
    row, column = divmod(int(filled.receivers[cell]), filled.levels_mm.shape[1])
    return row, column
