"""Where the water of a folded area runs: on cells, from the filled surface."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.flow import trace
from pavewright.geometry import joined
from pavewright.levels import drained_surface
from pavewright.water.runoff._receivers import Receiver, with_outfall

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow import Grid
    from pavewright.geometry import XY
    from pavewright.levels import DrainedSurface, FinishedArea, Taker
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey


@dataclass(frozen=True, slots=True)
class FoldedPart:
    """Part of the water of a folded area: who takes it, how much, where in plan, where it leaves, and ways to it.

    Where it leaves stands at each cell with the area whose water passes there.

    Attributes:
        taker: Who takes it.
        area_m2: Area that drains so. [m²]
        shapes: Where in plan.
        leaves: Places where it leaves with the area whose water passes there. [mm, m²]
        ways: Ways to it.
    """

    taker: Receiver
    area_m2: float
    shapes: tuple[Polygon, ...]
    leaves: tuple[tuple[XY, float], ...]
    ways: tuple[tuple[XY, ...], ...]

    @property
    def at(self) -> XY:
        """Where most of it leaves."""
        return max(self.leaves, key=lambda leaving: leaving[1])[0]


def folded_parts(area: PlanArea, finished: FinishedArea, survey: Survey, rules: Rulebook) -> list[FoldedPart]:
    """Return what takes the water of a folded area.

    The area of each is exact in the sum; the parts in plan show the cells that send more there than anywhere else.
    """
    drained = drained_surface(area, survey, finished.surface, rules)
    ways = _ways(drained, finished)
    most = drained.shared.shares.argmax(axis=0)
    found = []
    for number, (taker, area_m2) in enumerate(drained.areas_m2):
        cells = drained.paved & (most == number) & ~drained.filled.unreached
        if area_m2 <= 0.0 or not cells.any():
            continue
        found.append(
            FoldedPart(
                with_outfall(taker, survey.site),
                area_m2,
                tuple(_outlines(drained.filled.grid, cells)),
                _leaves(drained, number, area_m2),
                ways.get(taker, ()),
            )
        )
    return found


def _ways(drained: DrainedSurface, finished: FinishedArea) -> dict[Taker, tuple[tuple[XY, ...], ...]]:
    """Return the way of a drop from the middle of each plane, by who takes it."""
    found: dict[Taker, tuple[tuple[XY, ...], ...]] = {}
    for facet in finished.surface.facets:
        middle = facet.polygon.representative_point()
        if drained.filled.grid.cell_at((middle.x, middle.y)) is None:
            continue
        path = trace(drained.filled, (middle.x, middle.y))
        if path.outlet and len(path.points) > 1:
            line = shapely.LineString(path.points).simplify(_STRAIGHT * drained.filled.grid.cell_mm)
            points = tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))
            taker = drained.taker_of(path.outlet)
            found[taker] = (*found.get(taker, ()), points)
    return found


_STRAIGHT = 0.75
"""A way may be drawn this part of a cell off."""


def _outlines(grid: Grid, cells: NDArray[np.bool_]) -> list[Polygon]:
    """Return the outlines of cells, rows of cells made one first."""
    boxes = []
    for row in range(cells.shape[0]):
        edges = np.flatnonzero(np.diff(np.concatenate([[False], cells[row], [False]]).astype(np.int8)))
        y = grid.y0_mm + row * grid.cell_mm
        for start, end in edges.reshape(-1, 2).tolist():
            boxes.append(
                shapely.box(grid.x0_mm + start * grid.cell_mm, y, grid.x0_mm + end * grid.cell_mm, y + grid.cell_mm)
            )
    parts = shapely.get_parts(joined(boxes))
    simpler = [part.simplify(grid.cell_mm) for part in parts]
    return [part for part in simpler if isinstance(part, Polygon) and part.area > 0.0]


def _leaves(drained: DrainedSurface, number: int, area_m2: float) -> tuple[tuple[XY, float], ...]:
    """Return the cells of an outlet through which water leaves, each with its part of the area."""
    grid = drained.filled.grid
    passing = np.where(grid.exits == number, drained.shared.passing_m2, 0.0)
    whole = float(passing.sum())
    cells = [divmod(int(place), passing.shape[1]) for place in np.flatnonzero(passing > 0.0)]
    return tuple((grid.centre(row, column), float(passing[row, column]) / whole * area_m2) for row, column in cells)
