"""The plan shape that is dug: the paving, and its base past free edges."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Polygon

from pavewright.buildup._layers import HELD
from pavewright.geometry import Shape, along_and_offset, joined, shape_from_polygon, unit_vector, without

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.survey import PlanArea, SitePlan


def dig_shape(
    area: PlanArea,
    site: SitePlan,
    extends_mm: float,
    edges_mm: Mapping[str, float] | None = None,
    *,
    meets_mm: float,
) -> Shape:
    """Return what is dug for an area.

    The paving with its base past free edges; not past a wall, existing paving or a boundary, nor into the next area.
    Covers, gullies and posts are dug round by hand within it: they are not taken off.

    Args:
        area: The area.
        site: What stands about it.
        extends_mm: How far the base runs past free edges. [mm]
        edges_mm: By the corner from which a side leaves, how wide its kerb or edging with haunch is. [mm]
        meets_mm: A wall, boundary or edge this near to a side stands at it. [mm]
    """
    gross = area.gross.polygon
    wide = {corner: width for corner, width in (edges_mm or {}).items() if width > extends_mm}
    if extends_mm <= 0.0 and not wide:
        return area.gross
    dug: shapely.Geometry = gross.buffer(extends_mm, join_style="mitre", mitre_limit=2.0)
    beside = [
        _outside(area.side_from(corner).points(), area.side_from(corner).end.xy, width)
        for corner, width in sorted(wide.items())
    ]
    dug = joined([dug, *beside]) if beside else dug
    extends_mm = max(extends_mm, *wide.values()) if wide else extends_mm
    held = {side.corner for side in area.area.edges if side.restraint in HELD}
    taken: list[shapely.Geometry] = [
        _outside(area.side_from(corner).points(), area.side_from(corner).end.xy, extends_mm) for corner in sorted(held)
    ]
    middle = area.gross.centre_mm
    lines = [(wall.start, wall.end) for wall in site.walls]
    lines += [(line.start, line.end) for line in site.boundaries]
    lines += [(tie.start, tie.end) for tie in site.tie_ins]
    taken += [
        _behind(start, end, middle, extends_mm + meets_mm)
        for start, end in lines
        if gross.distance(LineString([start, end])) <= meets_mm
    ]
    taken += [other.gross.polygon for other in site.areas if other.name != area.name]
    left = joined([without(dug, joined(taken)), gross])
    parts = [part for part in shapely.get_parts(left) if isinstance(part, Polygon)]
    return shape_from_polygon(max(parts, key=lambda part: part.area)) if parts else area.gross


def _outside(points: tuple[XY, ...], end: XY, out_mm: float) -> shapely.Geometry:
    """Return the strip along the outer side of a stretch of outline that runs anticlockwise."""
    return LineString([*points, end]).buffer(-out_mm, single_sided=True)


def _behind(start: XY, end: XY, middle: XY, deep_mm: float) -> Polygon:
    """Return the strip behind a line, on the side away from the middle of the area."""
    ux, uy = unit_vector(start, end)
    sign = -1.0 if along_and_offset(start, end, middle)[1] >= 0.0 else 1.0
    nx, ny = -uy * sign * deep_mm, ux * sign * deep_mm
    return Polygon([start, end, (end[0] + nx, end[1] + ny), (start[0] + nx, start[1] + ny)])
