"""Whether a designed surface drains: filled from its drains and free edges, what still stands and what runs past."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString

from pavewright.flow import catchments, fill, rasterise, stands, with_exit_line, with_exit_polygon
from pavewright.geometry import distance
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from pavewright.flow import Filled, Grid
    from pavewright.geometry import FoldedSurface
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, SitePlan, Survey

_AT_EDGE_MM = 150.0
"""What stands this near to the edge stands at it. [mm]"""
_SHARED_MM = 20.0
"""Another area this near shares the edge. [mm]"""
_MOST_CELLS = 60_000.0
"""Cells are made larger rather than more than this."""
_CELL_MM = 50.0
"""Side of a cell of the designed surface. [mm]"""
FREE = ("edge ", "boundary ", "area ", "paving ")
"""How the names of outlets begin that no drain takes."""


@dataclass(frozen=True, slots=True)
class Draining:
    """What happens to water on a designed surface.

    Attributes:
        cell_mm: Side of the cells on which it was reckoned. [mm]
        standing_l: Water that stands. [l]
        standing_m2: Area on which it stands deeper than is told. [m²]
        deepest_mm: Greatest depth of it. [mm]
        shut_in_m2: Area from which no drain or free edge can be reached. [m²]
        to_drains_m2: Area that drains to gullies and channels. [m²]
        past_m2: Area that runs over a free edge, to a boundary or on to other paving. [m²]
    """

    cell_mm: float
    standing_l: float
    standing_m2: float
    deepest_mm: float
    shut_in_m2: float
    to_drains_m2: float
    past_m2: float

    @property
    def past_share(self) -> float:
        """Part of the area whose water no drain takes."""
        whole = self.to_drains_m2 + self.past_m2
        return self.past_m2 / whole if whole > 0.0 else 0.0


def draining(filled: Filled, least_mm: float) -> Draining:
    """Return what stands on a filled surface and where the rest goes.

    Args:
        filled: The surface, filled.
        least_mm: Water no deeper than this is not told. [mm]
    """
    puddles = stands(filled, least_mm)
    shared = catchments(filled)
    past = sum(area for name, area in zip(shared.outlets, shared.areas_m2, strict=True) if name.startswith(FREE))
    return Draining(
        cell_mm=filled.grid.cell_mm,
        standing_l=sum(puddle.volume_l for puddle in puddles),
        standing_m2=sum(puddle.area_m2 for puddle in puddles),
        deepest_mm=max((puddle.deepest_mm for puddle in puddles), default=0.0),
        shut_in_m2=filled.unreached_m2,
        to_drains_m2=sum(shared.areas_m2) - past,
        past_m2=past,
    )


def filled_surface(
    area: PlanArea, survey: Survey, surface: FoldedSurface, rules: Rulebook, cell_mm: float = _CELL_MM
) -> Filled:
    """Return the designed surface of an area on cells, filled from its drains and free edges; walls and kerbs hold."""
    return fill(drained_grid(area, survey, surface, rules, cell_mm))


def drained_grid(
    area: PlanArea, survey: Survey, surface: FoldedSurface, rules: Rulebook, cell_mm: float = _CELL_MM
) -> Grid:
    """Return an area as cells with an exit at every gully, channel and free edge.

    A free edge past which the ground stands higher lets no water go. Outlets are named by what they are: ``gully``,
    ``channel``, ``edge``, ``boundary``, ``area`` or ``paving``, and its name.
    """
    site, polygon = survey.site, area.gross.polygon
    cell_mm = max(cell_mm, (polygon.area / _MOST_CELLS) ** 0.5)
    grid = rasterise(polygon, cell_mm, surface.levels_at)
    for placed in site.gullies:
        (x, y), half = placed.at, placed.gully.size_mm / 2.0
        if area.gross.contains(placed.at):
            grid = with_exit_polygon(
                grid, f"gully {placed.gully.name}", shapely.box(x - half, y - half, x + half, y + half)
            )
    for name, line in _inner_channels(area, site):
        grid = _with(grid, name, line)
    for name, line in _edges(area, site):
        free = _low_ground(line, area, survey, surface, rules) if name.startswith("edge ") else line
        grid = _with(grid, name, free)
    return grid


def _with(grid: Grid, name: str, line: shapely.Geometry) -> Grid:
    """Return the grid with an exit along a line, unless it is too short to touch a cell."""
    for part in shapely.get_parts(line):
        if isinstance(part, LineString) and part.length >= grid.cell_mm:
            try:
                grid = with_exit_line(grid, name, part)
            except ValueError:
                continue
    return grid


def _inner_channels(area: PlanArea, site: SitePlan) -> list[tuple[str, shapely.Geometry]]:
    inside = area.gross.polygon.buffer(-_AT_EDGE_MM)
    return [
        (f"channel {each.name}", shapely.intersection(LineString([each.start, each.end]), inside))
        for each in site.channels
    ]


def _edges(area: PlanArea, site: SitePlan) -> list[tuple[str, shapely.Geometry]]:
    """Return every stretch of edge over which water can leave, with what takes it.

    A channel takes water at a wall or kerb too; anything else only where nothing holds the water back.
    """
    walls = [LineString([wall.start, wall.end]).buffer(_AT_EDGE_MM, cap_style="flat") for wall in site.walls]
    channels, others = _takers(area, site)
    held = {
        area.side_from(edge.corner).name
        for edge in area.area.edges
        if edge.restraint in {EdgeRestraint.KERB, EdgeRestraint.WALL}
    }
    found: list[tuple[str, shapely.Geometry]] = []
    for side in area.sides:
        left: shapely.Geometry = LineString([*side.points(), side.end.xy])
        for name, zone in channels:
            found.append((name, shapely.intersection(left, zone)))
            left = shapely.difference(left, zone)
        if side.name in held:
            continue
        left = shapely.difference(left, shapely.union_all(walls)) if walls else left
        for name, zone in others:
            found.append((name, shapely.intersection(left, zone)))
            left = shapely.difference(left, zone)
        found.append((f"edge {side.name}", left))
    return found


def _low_ground(
    line: shapely.Geometry, area: PlanArea, survey: Survey, surface: FoldedSurface, rules: Rulebook
) -> shapely.Geometry:
    """Return the parts of an edge past which the ground does not stand higher; all of it where no ground is known."""
    if survey.ground is None:
        return line
    beyond, over = rules.value("water.look_beyond_mm"), rules.value("water.ground_over_edge_mm")
    low = []
    for part in shapely.get_parts(line):
        if not isinstance(part, LineString) or part.length == 0.0:
            continue
        points = shapely.get_coordinates(shapely.segmentize(part, _LOOK_MM)).tolist()
        for (x1, y1), (x2, y2) in itertools.pairwise(points):
            mid, run = ((x1 + x2) / 2.0, (y1 + y2) / 2.0), distance((x1, y1), (x2, y2))
            out = (y2 - y1) / run * beyond, -(x2 - x1) / run * beyond
            outside = mid[0] + out[0], mid[1] + out[1]
            if area.gross.contains(outside):
                outside = mid[0] - out[0], mid[1] - out[1]
            if survey.ground.level_beyond(outside) <= surface.level_at(mid) + over:
                low.append(LineString([(x1, y1), (x2, y2)]))
    return shapely.line_merge(shapely.MultiLineString(low)) if low else LineString()


_LOOK_MM = 500.0
"""The ground past an edge is looked at no further apart than this. [mm]"""
_Zones = list[tuple[str, shapely.Geometry]]


def _takers(area: PlanArea, site: SitePlan) -> tuple[_Zones, _Zones]:
    """Return channels, and what else takes water over an edge, each with the zone in which it does."""
    channels: _Zones = [
        (f"channel {each.name}", LineString([each.start, each.end]).buffer(_AT_EDGE_MM + each.width_mm / 2.0))
        for each in site.channels
    ]
    others: _Zones = [
        (f"area {other.name}", other.gross.polygon.buffer(_SHARED_MM))
        for other in site.areas
        if other.name != area.name
    ]
    others += [(f"paving {tie.name}", LineString([tie.start, tie.end]).buffer(_AT_EDGE_MM)) for tie in site.tie_ins]
    others += [
        (f"boundary {line.name}", LineString([line.start, line.end]).buffer(_AT_EDGE_MM)) for line in site.boundaries
    ]
    return channels, others


def words(found: Draining) -> str:
    """Return a draining in words."""
    past = f"{found.past_m2:.1f} m² run past the drains ({found.past_share:.0%})"
    if found.shut_in_m2 > 0.0:
        return f"{found.shut_in_m2:.1f} m² reach no drain and no free edge"
    if found.standing_l > 0.0:
        return f"{found.standing_l:.1f} l stand up to {found.deepest_mm:.0f} mm deep; {past}"
    return f"nothing stands; {past}" if found.to_drains_m2 > 0.0 else "nothing stands"
