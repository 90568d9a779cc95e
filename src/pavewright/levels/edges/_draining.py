"""Whether a designed surface drains: filled from its drains and free edges, what still stands and what runs past."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon

from pavewright import units
from pavewright.flow import catchments, fill, rasterise, stands, with_exit_line, with_exit_polygon
from pavewright.geometry import point_along
from pavewright.levels._types import Draining
from pavewright.levels.edges._contacts import away_from, contacts
from pavewright.levels.edges._leaving import (
    LOOK_MM,
    Levelled,
    channel_zones,
    edges_of,
    inner_channels,
    low_ground,
)
from pavewright.levels.edges._takers import NO_DRAIN, Taker, TakerKind

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow import Catchments, Filled, Grid
    from pavewright.geometry import FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, Survey

_MAX_CELLS = 60_000.0
"""Cells are made larger rather than more than this."""
CELL_MM = 50.0
"""Side of a cell of the designed surface. [mm]"""


@dataclass(frozen=True, eq=False)
class DrainedSurface:
    """A surface on cells, filled from its drains and free edges.

    Past every free edge lies one more row of cells through which water leaves; it is no part of the paving.

    Attributes:
        filled: The cells, filled.
        shared: What drains where.
        paved: Cells that are paving, shape (rows, columns), bool.
        area_m2: Area of the paving. [m²]
        takers: Who takes the water, in the order of the outlets.
    """

    filled: Filled
    shared: Catchments
    paved: NDArray[np.bool_]
    area_m2: float
    takers: tuple[Taker, ...]

    @property
    def cell_m2(self) -> float:
        """Paving that each cell stands for: the cells together make the area exactly. [m²]."""
        return self.area_m2 / float(np.count_nonzero(self.paved))

    @property
    def areas_m2(self) -> tuple[tuple[Taker, float], ...]:
        """Takers with the paving that drains to each. [m²]."""
        sums = (float(share[self.paved].sum()) * self.cell_m2 for share in self.shared.shares)
        return tuple(zip(self.takers, sums, strict=True))

    def taker_of(self, outlet: str) -> Taker:
        """Return who takes the water of an outlet."""
        return self.takers[self.shared.outlets.index(outlet)]

    def draining(self, min_mm: float) -> Draining:
        """Return what stands deeper than a least depth, and where the rest goes."""
        puddles = stands(self.filled, min_mm)
        past = sum(area for taker, area in self.areas_m2 if taker.kind in NO_DRAIN)
        return Draining(
            cell_mm=self.filled.grid.cell_mm,
            standing_l=sum(puddle.volume_l for puddle in puddles),
            standing_m2=sum(puddle.area_m2 for puddle in puddles),
            deepest_mm=max((puddle.deepest_mm for puddle in puddles), default=0.0),
            shut_in_m2=float(np.count_nonzero(self.filled.unreached & self.paved)) * self.cell_m2,
            to_drains_m2=sum(area for _, area in self.areas_m2) - past,
            past_m2=past,
            to_others_m2=sum(area for taker, area in self.areas_m2 if taker.is_theirs),
        )


def drained_cells(
    area: PlanArea, survey: Survey, surface: Levelled, figures: LevelFigures, cell_mm: float = CELL_MM
) -> DrainedSurface:
    """Return a surface over an area filled from its drains and free edges; walls and kerbs hold.

    A free edge past which the ground stands higher lets no water go.
    """
    grid, paved, takers = cells_of(area, survey, surface, figures, cell_mm)
    filled = fill(grid)
    return DrainedSurface(filled, catchments(filled), paved, area.gross.area_m2, takers)


def cells_of(
    area: PlanArea, survey: Survey, surface: Levelled, figures: LevelFigures, cell_mm: float = CELL_MM
) -> tuple[Grid, NDArray[np.bool_], tuple[Taker, ...]]:
    """Return an area as cells with an exit at every gully, channel and free edge, which are paving, and who takes."""
    site, polygon = survey.site, area.gross.polygon
    cell_mm = max(cell_mm, (polygon.area / _MAX_CELLS) ** 0.5)
    leaving = [
        (taker, low_ground(line, area, survey, surface, figures) if taker.kind is TakerKind.FREE_EDGE else line)
        for taker, line in edges_of(area, site, figures.meets_mm)
    ]
    leaving = [(taker, line) for taker, line in leaving if shapely.length(line) >= cell_mm]
    takers = list(dict.fromkeys(taker for taker, _ in leaving))
    rim = shapely.buffer(shapely.union_all([line for _, line in leaving]), _RIM * cell_mm)
    grid = rasterise(_whole(polygon, rim), cell_mm, surface.levels_at)
    x, y = grid.centres()
    paved = np.asarray(shapely.contains_xy(polygon, x, y), dtype=np.bool_) & grid.inside
    if leaving:
        past = grid.inside & ~paved
        places = shapely.points(x[past], y[past])
        away = np.array([shapely.distance(line, places) for _, line in leaving])
        exits = np.full(past.shape, -1, dtype=np.int32)
        exits[past] = np.array([takers.index(taker) for taker, _ in leaving])[away.argmin(axis=0)]
        grid = replace(grid, exits=exits, outlets=tuple(each.outlet for each in takers))
    for placed in site.gullies:
        (px, py), half = placed.at, placed.gully.size_mm / 2.0
        if area.gross.contains(placed.at):
            taker = Taker(TakerKind.GULLY, placed.gully.name)
            takers.append(taker)
            grid = with_exit_polygon(grid, taker.outlet, shapely.box(px - half, py - half, px + half, py + half))
    for taker, line in inner_channels(area, site, figures.meets_mm):
        for part in shapely.get_parts(line):
            if isinstance(part, LineString) and part.length >= cell_mm:
                takers.append(taker)
                grid = with_exit_line(grid, taker.outlet, part)
    by_outlet = {each.outlet: each for each in takers}
    return grid, paved, tuple(by_outlet[name] for name in grid.outlets)


def _whole(polygon: Polygon, rim: shapely.Geometry) -> Polygon:
    """Return an area with the rim past its free edges, in one piece."""
    made = shapely.union(polygon, rim)
    return made if isinstance(made, Polygon) else polygon


_RIM = 1.1
"""Width of the row of cells past a free edge, in cells: one cell wherever the edge runs."""


def to_walls_m(area: PlanArea, survey: Survey, surface: FoldedSurface, figures: LevelFigures) -> float:
    """Return the length of wall to which a surface falls with no channel between. [m].

    Boundary and garden walls count as house walls do: the job does not tell them apart.
    """
    taken = shapely.union_all([zone for _, zone in channel_zones(survey.site, figures.meets_mm)])
    found, towards = 0.0, units.one_in_n_to_fall(figures.falls.along_wall.value)
    for wall in survey.site.walls:
        inward = away_from(wall.start, wall.end, area.gross.centre_mm)
        for contact in contacts(area, wall.start, wall.end, figures.meets_mm):
            pieces = max(1, round(contact.length_mm / LOOK_MM))
            for number in range(pieces):
                along = contact.from_mm + contact.length_mm * (number + 0.5) / pieces
                at = point_along(wall.start, wall.end, along)
                inside = at[0] + inward[0] * figures.meets_mm, at[1] + inward[1] * figures.meets_mm
                plane = surface.facet_at(inside).plane
                if plane.fall_along(inward) < -towards and not taken.intersects(Point(at)):
                    found += contact.length_mm / pieces
    return units.mm_to_m(found)
