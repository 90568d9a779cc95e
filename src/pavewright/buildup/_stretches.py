"""Stretches of a side at which nothing stands: no wall, no paving, no channel, no next area."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString

from pavewright.geometry import joined, without
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.survey import PlanArea, SitePlan

_CRUMB_MM = 50.0
"""A stretch shorter than this is a corner, not an edge. [mm]"""


def sides_of(area: PlanArea) -> Iterator[tuple[str, EdgeRestraint, LineString]]:
    """Give every side by the corner from which it leaves, what holds it, and its line, the area to the left of it."""
    held = {edge.corner: edge.restraint for edge in area.area.edges}
    for corner in area.area.outline:
        side = area.side_from(corner.point)
        yield corner.point, held.get(corner.point, EdgeRestraint.NONE), LineString([*side.points(), side.end.xy])


def held_by_others(area: PlanArea, site: SitePlan, meets_mm: float) -> shapely.Geometry:
    """Return where something else holds an edge: walls, existing paving, channels in concrete, the next area.

    Args:
        area: The area.
        site: What stands about it.
        meets_mm: What is this near to a side stands at it. [mm]
    """
    lines = [(wall.start, wall.end) for wall in site.walls]
    lines += [(tie.start, tie.end) for tie in site.tie_ins]
    lines += [(channel.start, channel.end) for channel in site.channels]
    zones = [LineString(line).buffer(meets_mm, cap_style="flat") for line in lines]
    zones += [other.gross.polygon.buffer(meets_mm) for other in site.areas if other.name != area.name]
    return joined(zones)


def free_part(line: LineString, taken: shapely.Geometry) -> LineString | None:
    """Return the longest stretch of a side that nothing else holds; None where there is none to speak of."""
    left = without(line, taken)
    left = shapely.line_merge(left) if isinstance(left, shapely.MultiLineString) else left
    parts = [part for part in shapely.get_parts(left) if isinstance(part, LineString) and part.length > _CRUMB_MM]
    return max(parts, key=lambda part: part.length, default=None)
