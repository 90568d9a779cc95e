"""What stands at a piece of edge and takes the water that reaches it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Point

from pavewright.geometry import along_and_offset, distance, point_along
from pavewright.job import Beyond, EdgeRestraint, OutfallKind
from pavewright.levels import Taker, TakerKind, past_edge

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from pavewright.geometry import XY, Plane
    from pavewright.survey import PlanArea, SitePlan
    from pavewright.water._figures import WaterFigures
    from pavewright.water.runoff._strips import Strip

SHARED_MM = 20.0
"""A side this near is the side. [mm]"""


@dataclass(frozen=True, slots=True)
class Receiver:
    """Who takes the water, and the outfall if one is named."""

    taker: Taker
    outfall: str | None


def with_outfall(taker: Taker, site: SitePlan) -> Receiver:
    """Return a taker with the outfall to which its water goes.

    That of a drain is its own; what runs over a free edge, or onto ground of the owner's, goes to the border or lawn
    that is named.
    """
    if taker.kind is TakerKind.GULLY:
        named = next(each.gully.outfall for each in site.gullies if each.gully.name == taker.name)
    elif taker.kind is TakerKind.CHANNEL:
        named = next(each.outfall for each in site.channels if each.name == taker.name)
    elif taker.kind is TakerKind.FREE_EDGE or taker.beyond is Beyond.OWN_GROUND:
        named = soft_outfall(site)
    else:
        named = None
    return Receiver(taker, named)


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


@dataclass(frozen=True)
class EdgeLines:
    """The sides of an area as lines with their names, made once for all its strips."""

    lines: NDArray[np.object_]
    names: tuple[str, ...]

    @classmethod
    def of(cls, area: PlanArea) -> EdgeLines:
        """Return the lines of an area."""
        lines = np.array([LineString([*side.points(), side.end.xy]) for side in area.sides], dtype=np.object_)
        return cls(lines, tuple(side.name for side in area.sides))

    def nearest(self, at: Point) -> tuple[float, str]:
        """Return how far the nearest side is, and its name. [mm]."""
        return min(zip(shapely.distance(self.lines, at).tolist(), self.names, strict=True))


def receiver(
    strip: Strip, area: PlanArea, edges: EdgeLines, site: SitePlan, plane: Plane, figures: WaterFigures
) -> Receiver:
    """Return what takes the water of a strip."""
    within = figures.meets_within_mm.value
    inlet = _inlet(strip, site, within)
    if inlet is not None:
        return with_outfall(inlet, site)
    held = _held_by(Point(strip.foot), area, site, within)
    if held is not None:
        ends = _ends_of(held, area, site, within)
        if ends is not None:
            passed = _channel_below(strip.foot, ends, site, plane.level_at, within)
            held = passed or drain_at_low_end(ends, site, plane.level_at, figures) or held
        return with_outfall(held, site)
    return with_outfall(
        _past(LineString([strip.foot_start, strip.foot_end]), Point(strip.foot), area, edges, site, within), site
    )


def taker_at_edge(piece: LineString, area: PlanArea, site: SitePlan, within_mm: float) -> Taker:
    """Return what stands at a piece of edge, drains left out: what holds water back there, or what lies past it."""
    middle = piece.interpolate(0.5, normalized=True)
    return _held_by(middle, area, site, within_mm) or _past(piece, middle, area, EdgeLines.of(area), site, within_mm)


def _past(piece: LineString, foot: Point, area: PlanArea, edges: EdgeLines, site: SitePlan, within_mm: float) -> Taker:
    return past_edge(piece, area, site, within_mm) or Taker(TakerKind.FREE_EDGE, _side_name(foot, edges))


def _inlet(strip: Strip, site: SitePlan, within_mm: float) -> Taker | None:
    """Return the gully or channel into which a strip runs."""
    foot = Point(strip.foot)
    for placed in site.gullies:
        if foot.distance(Point(placed.at)) <= placed.gully.size_mm:
            return Taker(TakerKind.GULLY, placed.gully.name)
    for channel in site.channels:
        if foot.distance(LineString([channel.start, channel.end])) <= within_mm + channel.width_mm / 2.0:
            return Taker(TakerKind.CHANNEL, channel.name)
    return None


def _held_by(foot: Point, area: PlanArea, site: SitePlan, within_mm: float) -> Taker | None:
    """Return the wall or kerb that holds water back at a place on the edge, if one does."""
    for wall in site.walls:
        if foot.distance(LineString([wall.start, wall.end])) <= within_mm:
            return Taker(TakerKind.WALL, wall.name)
    for edge in area.area.edges:
        if edge.restraint in {EdgeRestraint.KERB, EdgeRestraint.WALL}:
            side = area.side_from(edge.corner)
            if foot.distance(LineString([*side.points(), side.end.xy])) <= SHARED_MM:
                kind = TakerKind.WALL if edge.restraint is EdgeRestraint.WALL else TakerKind.KERB
                return Taker(kind, side.name)
    return None


def _channel_below(
    foot: XY, ends: tuple[XY, XY], site: SitePlan, level_at: Callable[[XY], float], within_mm: float
) -> Taker | None:
    """Return the channel that meets a held edge below a place on it: what collects there runs into it on its way."""
    edge, level = LineString(ends), level_at(foot)
    for channel in site.channels:
        for end in (channel.start, channel.end):
            at = edge.interpolate(edge.project(Point(end)))
            if at.distance(Point(end)) <= within_mm and level_at((at.x, at.y)) <= level:
                return Taker(TakerKind.CHANNEL, channel.name)
    return None


def drain_at_low_end(
    ends: tuple[XY, XY], site: SitePlan, level_at: Callable[[XY], float], figures: WaterFigures
) -> Taker | None:
    """Return the gully or channel that takes what collects along a line: near it, at its low end."""
    reach = figures.held_edge_mm.value
    low, high = sorted(ends, key=level_at)
    most = level_at(low) + figures.puddle_at_drain_mm.value
    for placed in site.gullies:
        along, offset = along_and_offset(low, high, placed.at)
        lowest = point_along(low, high, max(along - reach, 0.0))
        if abs(offset) <= reach and along >= -reach and level_at(lowest) <= most:
            return Taker(TakerKind.GULLY, placed.gully.name)
    for channel in site.channels:
        line = LineString([channel.start, channel.end])
        nearest = line.interpolate(line.project(Point(low)))
        if nearest.distance(Point(low)) <= reach and level_at((nearest.x, nearest.y)) <= most:
            return Taker(TakerKind.CHANNEL, channel.name)
    return None


def _ends_of(held: Taker, area: PlanArea, site: SitePlan, within_mm: float) -> tuple[XY, XY] | None:
    """Return the ends of the part of a held edge that the area meets."""
    for wall in site.walls:
        if wall.name == held.name:
            span = distance(wall.start, wall.end)
            near = [along_and_offset(wall.start, wall.end, corner.xy) for corner in area.ring.corners]
            alongs = [min(max(along, 0.0), span) for along, offset in near if abs(offset) <= within_mm]
            if len(alongs) > 1:
                return (
                    point_along(wall.start, wall.end, min(alongs)),
                    point_along(wall.start, wall.end, max(alongs)),
                )
    for side in area.sides:
        if side.name == held.name:
            return side.start.xy, side.end.xy
    return None


def _side_name(foot: Point, edges: EdgeLines) -> str:
    away, name = edges.nearest(foot)
    return name if away <= SHARED_MM else "bed or opening inside"


def soft_outfall(site: SitePlan) -> str | None:
    """Return a border or lawn that is named as an outfall: what runs over a free edge goes there."""
    soft = {OutfallKind.BORDER, OutfallKind.LAWN}
    return next((outfall.name for outfall in site.outfalls if outfall.kind in soft), None)
