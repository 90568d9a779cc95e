"""Where water can leave a designed surface: over free edges, into channels, onto other paving, over boundaries."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Protocol

import shapely
from shapely.geometry import LineString

from pavewright.geometry import distance
from pavewright.job import Beyond, EdgeRestraint
from pavewright.survey import PlanTieIn

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pavewright.geometry import XY
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, PlanBoundary, SitePlan, Survey

AT_EDGE_MM = 150.0
"""What stands this near to the edge stands at it. [mm]"""
_SHARED_MM = 20.0
"""Another area this near shares the edge. [mm]"""


class Levelled(Protocol):
    """Anything with a level at every place: a designed surface, or the ground."""

    def level_at(self, point: XY, /) -> float:
        """Return the level at a plan point. [mm]."""

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64], /) -> NDArray[np.float64]:
        """Return the levels at plan points, each array of shape (n,), float64. [mm]."""


def inner_channels(area: PlanArea, site: SitePlan) -> list[tuple[str, shapely.Geometry]]:
    inside = area.gross.polygon.buffer(-AT_EDGE_MM)
    return [
        (f"channel {each.name}", shapely.intersection(LineString([each.start, each.end]), inside))
        for each in site.channels
    ]


def edges_of(area: PlanArea, site: SitePlan) -> list[tuple[str, shapely.Geometry]]:
    """Return every stretch of edge over which water can leave, with what takes it.

    A channel takes water at a wall or kerb too; anything else only where nothing holds the water back.
    """
    walls = [LineString([wall.start, wall.end]).buffer(AT_EDGE_MM, cap_style="flat") for wall in site.walls]
    channels, others = takers(area, site)
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


def low_ground(
    line: shapely.Geometry, area: PlanArea, survey: Survey, surface: Levelled, rules: Rulebook
) -> shapely.Geometry:
    """Return the parts of an edge past which the ground does not stand higher; all of it where no ground is known."""
    if survey.ground is None:
        return line
    beyond, over = rules.value("water.look_beyond_mm"), rules.value("water.ground_over_edge_mm")
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
_Zones = list[tuple[str, shapely.Geometry]]


def takers(area: PlanArea, site: SitePlan) -> tuple[_Zones, _Zones]:
    """Return channels, and what else takes water over an edge, each with the zone in which it does."""
    channels: _Zones = [
        (f"channel {each.name}", LineString([each.start, each.end]).buffer(AT_EDGE_MM + each.width_mm / 2.0))
        for each in site.channels
    ]
    others: _Zones = [
        (f"area {other.name}", other.gross.polygon.buffer(_SHARED_MM))
        for other in site.areas
        if other.name != area.name
    ]
    # what is known of an edge goes before a boundary at it, and a boundary before what is not known
    others += [(_over(tie), _strip(tie)) for tie in site.tie_ins if tie.beyond is not Beyond.NOT_KNOWN]
    others += [(_over(line), _strip(line)) for line in site.boundaries if line.neighbour != _OWN]
    others += [(_over(tie), _strip(tie)) for tie in site.tie_ins if tie.beyond is Beyond.NOT_KNOWN]
    others += [(_over(line), _strip(line)) for line in site.boundaries if line.neighbour == _OWN]
    return channels, others


def _strip(line: PlanBoundary | PlanTieIn) -> shapely.Geometry:
    return LineString([line.start, line.end]).buffer(AT_EDGE_MM)


_OWN = "own"


def _over(line: PlanBoundary | PlanTieIn) -> str:
    """Return the name of the outlet over a line."""
    return f"paving {line.name}" if isinstance(line, PlanTieIn) else f"boundary {line.name}"


def to_others(site: SitePlan) -> frozenset[str]:
    """Return the outlets that lead onto a road, a footway or a neighbour's ground."""
    lines = [_over(line) for line in site.boundaries if line.neighbour != _OWN]
    return frozenset((*lines, *(_over(tie) for tie in site.tie_ins if tie.beyond in _OTHERS)))


_OTHERS = {Beyond.HIGHWAY, Beyond.NEIGHBOUR}


def beyond_of(tie: PlanTieIn, site: SitePlan) -> Beyond:
    """Return what lies past an edge to meet: as entered, else by a boundary that runs along it."""
    if tie.beyond is not Beyond.NOT_KNOWN:
        return tie.beyond
    edge = LineString([tie.start, tie.end])
    for line in site.boundaries:
        if edge.intersection(_strip(line)).length > edge.length / 2.0:
            return _BEYOND_LINE[line.neighbour]
    return Beyond.NOT_KNOWN


_BEYOND_LINE = {"highway": Beyond.HIGHWAY, "neighbour": Beyond.NEIGHBOUR, "own": Beyond.OWN_GROUND}
