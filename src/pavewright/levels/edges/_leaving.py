"""Where water can leave a designed surface: over free edges, into channels, onto other paving, over boundaries."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Protocol

import shapely
from shapely.geometry import LineString

from pavewright.geometry import distance
from pavewright.job import EdgeRestraint
from pavewright.levels.edges._takers import Taker, TakerKind, edge_zones, past_edge

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pavewright.geometry import XY
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, SitePlan, Survey


class Levelled(Protocol):
    """Anything with a level at every place: a designed surface, or the ground."""

    def level_at(self, point: XY, /) -> float:
        """Return the level at a plan point. [mm]."""

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64], /) -> NDArray[np.float64]:
        """Return the levels at plan points, each array of shape (n,), float64. [mm].

        Args:
            x: Places towards east, shape (n,), float64. [mm]
            y: Places towards north, likewise. [mm]
        """


def inner_channels(area: PlanArea, site: SitePlan, meets_mm: float) -> list[tuple[Taker, shapely.Geometry]]:
    """Return channels that run through an area."""
    inside = area.gross.polygon.buffer(-meets_mm)
    return [
        (Taker(TakerKind.CHANNEL, each.name), shapely.intersection(LineString([each.start, each.end]), inside))
        for each in site.channels
    ]


def edges_of(area: PlanArea, site: SitePlan, meets_mm: float) -> list[tuple[Taker, shapely.Geometry]]:
    """Return every stretch of edge over which water can leave, with what takes it.

    A channel takes water at a wall or kerb too; anything else only where nothing holds the water back.
    """
    walls = [LineString([wall.start, wall.end]).buffer(meets_mm, cap_style="flat") for wall in site.walls]
    outlines = shapely.union_all([zone.boundary for zone in edge_zones(area, site, meets_mm)])
    held = {
        area.side_from(edge.corner).name
        for edge in area.area.edges
        if edge.restraint in {EdgeRestraint.KERB, EdgeRestraint.WALL}
    }
    found: list[tuple[Taker, shapely.Geometry]] = []
    for side in area.sides:
        left: shapely.Geometry = LineString([*side.points(), side.end.xy])
        for taker, zone in channel_zones(site, meets_mm):
            found.append((taker, shapely.intersection(left, zone)))
            left = shapely.difference(left, zone)
        if side.name in held:
            continue
        left = shapely.difference(left, shapely.union_all(walls)) if walls else left
        parts: dict[Taker, list[LineString]] = {}
        for piece in shapely.get_parts(shapely.difference(left, outlines)):
            if isinstance(piece, LineString) and piece.length > 0.0:
                beyond = past_edge(piece, area, site, meets_mm) or Taker(TakerKind.FREE_EDGE, side.name)
                parts.setdefault(beyond, []).append(piece)
        found += [(taker, shapely.line_merge(shapely.MultiLineString(lines))) for taker, lines in parts.items()]
    return found


def low_ground(
    line: shapely.Geometry, area: PlanArea, survey: Survey, surface: Levelled, figures: LevelFigures
) -> shapely.Geometry:
    """Return the parts of an edge past which the ground does not stand higher; all of it where no ground is known."""
    if survey.ground is None:
        return line
    beyond, over = figures.look_beyond_mm, figures.over_edge_mm
    low = []
    for part in shapely.get_parts(line):
        if not isinstance(part, LineString) or part.length == 0.0:
            continue
        points = shapely.get_coordinates(shapely.segmentize(part, LOOK_MM)).tolist()
        for (x1, y1), (x2, y2) in itertools.pairwise(points):
            mid, run = ((x1 + x2) / 2.0, (y1 + y2) / 2.0), distance((x1, y1), (x2, y2))
            out = (y2 - y1) / run * beyond, -(x2 - x1) / run * beyond
            outside = mid[0] + out[0], mid[1] + out[1]
            if area.gross.contains(outside):
                outside = mid[0] - out[0], mid[1] - out[1]
            if survey.ground.level_beyond(outside) <= surface.level_at(mid) + over:
                low.append(LineString([(x1, y1), (x2, y2)]))
    return shapely.line_merge(shapely.MultiLineString(low)) if low else LineString()


LOOK_MM = 500.0
"""The ground past an edge is looked at no further apart than this. [mm]"""


def channel_zones(site: SitePlan, meets_mm: float) -> list[tuple[Taker, shapely.Geometry]]:
    """Return channels, each with the ground from which it takes water."""
    return [
        (
            Taker(TakerKind.CHANNEL, each.name),
            LineString([each.start, each.end]).buffer(meets_mm + each.width_mm / 2.0),
        )
        for each in site.channels
    ]
