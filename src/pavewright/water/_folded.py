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
from pavewright.water._receivers import Receiver, soft_outfall

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow import Grid
    from pavewright.geometry import XY
    from pavewright.levels import DrainedSurface, FinishedArea
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, SitePlan, Survey

_KINDS = {"edge": "free_edge", "area": "next_area", "paving": "next_area"}
"""Kinds of receiver by the first word of an outlet; the others are called alike."""


def taken_by(outlet: str) -> tuple[str, str]:
    """Return kind and name, as in a catchment, of an outlet of a drained surface."""
    kind, name = outlet.split(" ", 1)
    return _KINDS.get(kind, kind), name


@dataclass(frozen=True, slots=True)
class FoldedPart:
    """Part of the water of a folded area: who takes it, how much, where in plan, where it leaves, and ways to it."""

    taker: Receiver
    area_m2: float
    shapes: tuple[Polygon, ...]
    at: XY
    ways: tuple[tuple[XY, ...], ...]


def folded_parts(area: PlanArea, finished: FinishedArea, survey: Survey, rules: Rulebook) -> list[FoldedPart]:
    """Return what takes the water of a folded area.

    The area of each is exact in the sum; the parts in plan show the cells that send more there than anywhere else.
    """
    drained = drained_surface(area, survey, finished.surface, rules)
    ways = _ways(drained, finished)
    most = drained.shared.shares.argmax(axis=0)
    found = []
    for number, (outlet, area_m2) in enumerate(drained.areas_m2):
        kind, name = taken_by(outlet)
        cells = drained.paved & (most == number) & ~drained.filled.unreached
        if area_m2 <= 0.0 or not cells.any():
            continue
        taker = Receiver(kind, name, _outfall(kind, name, survey.site))
        parts = FoldedPart(
            taker, area_m2, tuple(_outlines(drained.filled.grid, cells)), _leaves(drained, number), ways.get(outlet, ())
        )
        found.append(parts)
    return found


def _ways(drained: DrainedSurface, finished: FinishedArea) -> dict[str, tuple[tuple[XY, ...], ...]]:
    """Return the way of a drop from the middle of each plane, by the outlet that it reaches."""
    found: dict[str, tuple[tuple[XY, ...], ...]] = {}
    for facet in finished.surface.facets:
        middle = facet.polygon.representative_point()
        if drained.filled.grid.cell_at((middle.x, middle.y)) is None:
            continue
        path = trace(drained.filled, (middle.x, middle.y))
        if path.outlet and len(path.points) > 1:
            line = shapely.LineString(path.points).simplify(_STRAIGHT * drained.filled.grid.cell_mm)
            points = tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))
            found[path.outlet] = (*found.get(path.outlet, ()), points)
    return found


_STRAIGHT = 0.75
"""A way may be drawn this part of a cell off."""


def _outfall(kind: str, name: str, site: SitePlan) -> str | None:
    if kind == "gully":
        return next(placed.gully.outfall for placed in site.gullies if placed.gully.name == name)
    if kind == "channel":
        return next(channel.outfall for channel in site.channels if channel.name == name)
    return soft_outfall(site) if kind == "free_edge" else None


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


def _leaves(drained: DrainedSurface, number: int) -> XY:
    """Return the cell of an outlet through which most water leaves."""
    grid = drained.filled.grid
    passing = np.where(grid.exits == number, drained.shared.passing_m2, -1.0)
    row, column = divmod(int(passing.argmax()), passing.shape[1])
    return grid.centre(row, column)
