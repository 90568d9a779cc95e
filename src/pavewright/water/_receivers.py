"""What stands at a piece of edge and takes the water that reaches it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.geometry import along_and_offset, distance, point_along
from pavewright.job import EdgeRestraint, OutfallKind

if TYPE_CHECKING:
    from pavewright.geometry import XY, Plane
    from pavewright.rules import Rulebook
    from pavewright.survey import PlacedGully, PlanArea, SitePlan
    from pavewright.water._strips import Strip

_AT_EDGE_MM = 150.0
"""What stands this near to the edge stands at it. [mm]"""
_SHARED_MM = 20.0
"""Another area this near shares the edge. [mm]"""


@dataclass(frozen=True, slots=True)
class Receiver:
    """Who takes the water: kind and name as in a catchment, and the outfall if one is named."""

    kind: str
    to: str
    outfall: str | None


def cut_points(area: PlanArea, site: SitePlan) -> list[XY]:
    """Return the points at which what stands at the edge begins or ends."""
    found: list[XY] = []
    found += [end for wall in site.walls for end in (wall.start, wall.end)]
    found += [end for channel in site.channels for end in (channel.start, channel.end)]
    found += [end for boundary in site.boundaries for end in (boundary.start, boundary.end)]
    found += [end for tie in site.tie_ins for end in (tie.start, tie.end)]
    for other in site.areas:
        if other.name != area.name:
            found += [corner.xy for corner in other.ring.corners]
    for placed in site.gullies:
        half = placed.gully.size_mm / 2.0
        found += [(placed.at[0] + dx, placed.at[1] + dy) for dx in (-half, half) for dy in (-half, half)]
    return found


def receiver(strip: Strip, area: PlanArea, site: SitePlan, plane: Plane, rules: Rulebook) -> Receiver:
    """Return what takes the water of a strip."""
    inlet = _inlet(strip, site)
    if inlet is not None:
        return inlet
    held = _held_by(strip, area, site)
    if held is not None:
        taken = _gully_on(held, area, site, plane, rules)
        return Receiver("gully", taken.gully.name, taken.gully.outfall) if taken is not None else held
    return _beyond(strip, area, site) or Receiver("free_edge", _side_name(strip, area), soft_outfall(site))


def _inlet(strip: Strip, site: SitePlan) -> Receiver | None:
    """Return the gully or channel into which a strip runs."""
    foot = Point(strip.foot)
    for placed in site.gullies:
        if foot.distance(Point(placed.at)) <= placed.gully.size_mm:
            return Receiver("gully", placed.gully.name, placed.gully.outfall)
    for channel in site.channels:
        if foot.distance(LineString([channel.start, channel.end])) <= _AT_EDGE_MM + channel.width_mm / 2.0:
            return Receiver("channel", channel.name, channel.outfall)
    return None


def _beyond(strip: Strip, area: PlanArea, site: SitePlan) -> Receiver | None:
    """Return the next area, existing paving or boundary on to which a strip runs."""
    foot = Point(strip.foot)
    for other in site.areas:
        if other.name != area.name and foot.distance(other.gross.polygon) <= _SHARED_MM:
            return Receiver("next_area", other.name, None)
    for tie in site.tie_ins:
        if foot.distance(LineString([tie.start, tie.end])) <= _AT_EDGE_MM:
            return Receiver("next_area", tie.name, None)
    for boundary in site.boundaries:
        if foot.distance(LineString([boundary.start, boundary.end])) <= _AT_EDGE_MM:
            return Receiver("boundary", boundary.name, None)
    return None


def _held_by(strip: Strip, area: PlanArea, site: SitePlan) -> Receiver | None:
    """Return the wall or kerb that holds the water of a strip back, if one does."""
    foot = Point(strip.foot)
    for wall in site.walls:
        if foot.distance(LineString([wall.start, wall.end])) <= _AT_EDGE_MM:
            return Receiver("wall", wall.name, None)
    for edge in area.area.edges:
        if edge.restraint in {EdgeRestraint.KERB, EdgeRestraint.WALL}:
            side = area.side_from(edge.corner)
            if foot.distance(LineString([*side.points(), side.end.xy])) <= _SHARED_MM:
                kind = "wall" if edge.restraint is EdgeRestraint.WALL else "kerb"
                return Receiver(kind, side.name, None)
    return None


def _gully_on(held: Receiver, area: PlanArea, site: SitePlan, plane: Plane, rules: Rulebook) -> PlacedGully | None:
    """Return the gully that takes what collects along a held edge: near it, at its low end."""
    ends = _ends_of(held, area, site)
    if ends is None:
        return None
    reach = rules.value("water.held_edge_mm")
    low, high = sorted(ends, key=plane.level_at)
    for placed in site.gullies:
        along, offset = along_and_offset(low, high, placed.at)
        lowest = point_along(low, high, max(along - reach, 0.0))
        if abs(offset) <= reach and plane.level_at(lowest) <= plane.level_at(low) + _PUDDLE_MM:
            return placed
    return None


_PUDDLE_MM = 5.0
"""Water stands this deep at the low end of a held edge before it reaches the gully. [mm]"""


def _ends_of(held: Receiver, area: PlanArea, site: SitePlan) -> tuple[XY, XY] | None:
    """Return the ends of the part of a held edge that the area meets."""
    for wall in site.walls:
        if wall.name == held.to:
            span = distance(wall.start, wall.end)
            near = [along_and_offset(wall.start, wall.end, corner.xy) for corner in area.ring.corners]
            alongs = [min(max(along, 0.0), span) for along, offset in near if abs(offset) <= _AT_EDGE_MM]
            if len(alongs) > 1:
                return (
                    point_along(wall.start, wall.end, min(alongs)),
                    point_along(wall.start, wall.end, max(alongs)),
                )
    for side in area.sides:
        if side.name == held.to:
            return side.start.xy, side.end.xy
    return None


def _side_name(strip: Strip, area: PlanArea) -> str:
    foot = Point(strip.foot)
    lines = [(foot.distance(LineString([*side.points(), side.end.xy])), side.name) for side in area.sides]
    away, name = min(lines)
    return name if away <= _SHARED_MM else "bed or opening inside"


def soft_outfall(site: SitePlan) -> str | None:
    """Return a border or lawn that is named as an outfall: what runs over a free edge goes there."""
    soft = {OutfallKind.BORDER, OutfallKind.LAWN}
    return next((outfall.name for outfall in site.outfalls if outfall.kind in soft), None)
