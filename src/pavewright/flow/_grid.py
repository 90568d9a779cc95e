"""Square cells over paving: levels, what is paving, and where water leaves."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray
    from shapely.geometry import LineString, Polygon

    from pavewright.geometry import XY

REACH = 0.75
"""How far from a line a cell still belongs to it, as part of its side: a slanting line then gets an unbroken row."""


@dataclass(frozen=True, eq=False)
class Grid:
    """Square cells over a plan; rows go up the y axis, columns along the x axis.

    Attributes:
        x0_mm: Left side of the first column. [mm]
        y0_mm: Lower side of the first row. [mm]
        cell_mm: Side of a cell. [mm]
        levels_mm: Level at the centre of each cell, shape (rows, columns), float64; outside anything. [mm]
        inside: Whether a cell is paving, shape (rows, columns), bool. What is not inside is a wall.
        exits: Number of the outlet by which water leaves from a cell, or -1, shape (rows, columns), int32.
        outlets: Names of the outlets.
    """

    x0_mm: float
    y0_mm: float
    cell_mm: float
    levels_mm: NDArray[np.float64]
    inside: NDArray[np.bool_]
    exits: NDArray[np.int32]
    outlets: tuple[str, ...]

    def __post_init__(self) -> None:
        """Refuse arrays that do not belong together."""
        shape = self.levels_mm.shape
        if self.levels_mm.ndim != _PLAN or self.inside.shape != shape or self.exits.shape != shape:
            message = "levels, inside and exits of a grid have one shape, rows by columns"
            raise ValueError(message)
        if not self.cell_mm > 0.0:
            message = "the side of a cell is more than zero"
            raise ValueError(message)
        if not np.isfinite(self.levels_mm[self.inside]).all():
            message = "every cell inside has a level"
            raise ValueError(message)
        leaving = self.exits >= 0
        if (leaving & ~self.inside).any() or (self.exits[leaving] >= len(self.outlets)).any():
            message = "exits lie inside and belong to a named outlet"
            raise ValueError(message)

    @property
    def cell_m2(self) -> float:
        """Area of a cell. [m²]."""
        return units.mm2_to_m2(self.cell_mm * self.cell_mm)

    @property
    def area_m2(self) -> float:
        """Area of all cells inside. [m²]."""
        return float(np.count_nonzero(self.inside)) * self.cell_m2

    def centre(self, row: int, column: int) -> XY:
        """Return the centre of a cell. [mm]."""
        return self.x0_mm + (column + 0.5) * self.cell_mm, self.y0_mm + (row + 0.5) * self.cell_mm

    def cell_at(self, point: XY) -> tuple[int, int] | None:
        """Return row and column of the cell inside under a plan point, or None."""
        row = math.floor((point[1] - self.y0_mm) / self.cell_mm)
        column = math.floor((point[0] - self.x0_mm) / self.cell_mm)
        rows, columns = self.inside.shape
        if 0 <= row < rows and 0 <= column < columns and self.inside[row, column]:
            return row, column
        return None

    def centres(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return x and y of all centres, each of shape (rows, columns). [mm]."""
        rows, columns = self.inside.shape
        return _centres(self.x0_mm, self.y0_mm, self.cell_mm, rows, columns)


_PLAN = 2


def rasterise(
    polygon: Polygon,
    cell_mm: float,
    level_at: Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.float64]],
) -> Grid:
    """Return the cells whose centres lie in a polygon, with their levels and no exit yet.

    Args:
        polygon: Plan outline; its holes are walls. [mm]
        cell_mm: Side of a cell. [mm]
        level_at: Gives levels for rows of x and y; is asked for centres inside only. [mm]

    >>> yard = shapely.box(0.0, 0.0, 2000.0, 1000.0)
    >>> rasterise(yard, 100.0, lambda x, y: x / 60.0).inside.shape
    (10, 20)
    """
    left, low, right, high = polygon.bounds
    rows, columns = (max(math.ceil(span / cell_mm - _ROUNDING), 1) for span in (high - low, right - left))
    x, y = _centres(left, low, cell_mm, rows, columns)
    inside = np.asarray(shapely.contains_xy(polygon, x, y), dtype=np.bool_)
    levels = np.full(inside.shape, np.nan)
    levels[inside] = level_at(x[inside], y[inside])
    return Grid(left, low, cell_mm, levels, inside, np.full(inside.shape, -1, np.int32), ())


_ROUNDING = 1e-9
"""A side that is a whole number of cells but for rounding gets no further row. [cells]"""


def with_exit_line(grid: Grid, outlet: str, line: LineString, reach_mm: float | None = None) -> Grid:
    """Return the grid with an outlet along a line, such as a free edge or a channel.

    Args:
        grid: Cells.
        outlet: Name of the outlet; cells are added to it where it is there already.
        line: Plan line. [mm]
        reach_mm: Greatest distance of a centre from the line; three quarters of a cell if not given. [mm]

    Raises:
        ValueError: no cell is that near.
    """
    x, y = grid.centres()
    reach = REACH * grid.cell_mm if reach_mm is None else reach_mm
    near = np.zeros(grid.inside.shape, dtype=np.bool_)
    shapely.prepare(line)
    left, low, right, high = line.buffer(reach + grid.cell_mm).bounds
    may = grid.inside & (x >= left) & (x <= right) & (y >= low) & (y <= high)
    near[may] = shapely.dwithin(line, shapely.points(x[may], y[may]), reach)
    return _with_exit(grid, outlet, near)


def with_exit_polygon(grid: Grid, outlet: str, polygon: Polygon) -> Grid:
    """Return the grid with an outlet in a polygon, such as a grating.

    A polygon that holds no centre, being smaller than a cell, gets the one cell under its middle.

    Raises:
        ValueError: it lies off the paving.
    """
    x, y = grid.centres()
    held = np.asarray(shapely.contains_xy(polygon, x, y), dtype=np.bool_) & grid.inside
    middle = grid.cell_at((polygon.centroid.x, polygon.centroid.y))
    if not held.any() and middle is not None:
        held[middle] = True
    return _with_exit(grid, outlet, held)


def _with_exit(grid: Grid, outlet: str, cells: NDArray[np.bool_]) -> Grid:
    """Return the grid with an outlet in cells; a cell keeps an outlet that it has."""
    if not cells.any():
        message = f"the outlet {outlet} touches no cell of the paving"
        raise ValueError(message)
    outlets = grid.outlets if outlet in grid.outlets else (*grid.outlets, outlet)
    exits = np.where(cells & (grid.exits < 0), np.int32(outlets.index(outlet)), grid.exits)
    return replace(grid, exits=exits.astype(np.int32), outlets=outlets)


def _centres(
    x0_mm: float, y0_mm: float, cell_mm: float, rows: int, columns: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    x = x0_mm + (np.arange(columns) + 0.5) * cell_mm
    y = y0_mm + (np.arange(rows) + 0.5) * cell_mm
    return np.broadcast_to(x, (rows, columns)), np.broadcast_to(y[:, None], (rows, columns))
