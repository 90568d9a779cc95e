"""The finished work as bodies and surfaces: one function for each kind of thing that is built."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from pavewright.buildup import LayerKey
from pavewright.exchange._meshes import Mesh, Net, body, folded_net, net_of, parted, sheet
from pavewright.geometry import distance, point_along, shared, without

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.buildup import AreaBuildUp, EdgeSection, Layer
    from pavewright.geometry import XY, FoldedSurface, Side, TriangulatedSurface
    from pavewright.laying import LaidArea
    from pavewright.levels import Steps
    from pavewright.survey import PlanArea

_STEP_MM = 1000.0
"""Past the outermost spot levels the ground is taken at points no further apart than this. [mm]"""
_HALF = 0.5


def paved_shape(area: PlanArea, laid: LaidArea) -> shapely.Geometry:
    """Return what units and joints cover in plan: the area less its channels and what lies under steps. [mm]."""
    found: shapely.Geometry = area.shape.polygon
    for cut in area.channels:
        found = without(found, cut.shape.polygon)
    for under in laid.under_steps:
        found = without(found, under.shape.polygon)
    return found


def layer_shape(area: PlanArea, up: AreaBuildUp, layer: Layer, laid: LaidArea) -> shapely.Geometry:
    """Return where a layer lies in plan, as it is measured: a bed stops at steps, a base runs on under them. [mm]."""
    if layer.key is LayerKey.UNIT:
        return paved_shape(area, laid)
    gross = area.gross.polygon
    if layer.key is LayerKey.BED:
        bed: shapely.Geometry = gross
        for under in laid.under_steps:
            bed = without(bed, under.shape.polygon)
        return bed
    widest = max(each.extends_mm for each in up.layers)
    if layer.extends_mm >= widest:
        return up.base_shape.polygon
    reach = gross.buffer(layer.extends_mm, join_style="mitre", mitre_limit=2.0)
    narrower: shapely.Geometry = shared(up.base_shape.polygon, reach)
    return narrower


def surface_mesh(shape: shapely.Geometry, surface: FoldedSurface, down_mm: float = 0.0) -> Mesh:
    """Return a finished surface over a shape, so far down. [mm]."""
    net = folded_net(shape, surface)
    return sheet(net, _levels(surface, net) - down_mm)


def layer_mesh(shape: shapely.Geometry, surface: FoldedSurface, top_mm: float, thickness_mm: float) -> Mesh:
    """Return a layer over a shape.

    Args:
        shape: Where it lies in plan. [mm]
        surface: The finished surface.
        top_mm: How far its top lies below that. [mm]
        thickness_mm: Its thickness, straight down. [mm]
    """
    net = folded_net(shape, surface)
    top = _levels(surface, net) - top_mm
    return body(net, top, top - thickness_mm)


def _levels(surface: FoldedSurface, net: Net) -> NDArray[np.float64]:
    return surface.levels_at(net.places[:, 0], net.places[:, 1])


def kerb_mesh(side: Side, section: EdgeSection, surface: FoldedSurface) -> Mesh:
    """Return a kerb or an edging along the outer side of a stretch of outline."""
    wide, high = section.unit_mm
    strip = LineString([*side.points(), side.end.xy]).buffer(-wide, single_sided=True)
    return layer_mesh(strip, surface, -section.top_mm, high)


def tread_meshes(steps: Steps, upper: FoldedSurface) -> tuple[Mesh, ...]:
    """Return the treads of a flight from above, each standing on the finished level below the flight."""
    wide = distance(steps.start, steps.end)
    tops = [upper.level_at(steps.start), upper.level_at(steps.end)]
    rises = [steps.rise_start_mm, steps.rise_end_mm]
    found = []
    for number in range(1, steps.risers):
        near, far = (-(number - 1) * steps.going_mm, -number * steps.going_mm)
        ring = [point_along(steps.start, steps.end, *at) for at in ((0.0, near), (wide, near), (wide, far), (0.0, far))]
        net = net_of(Polygon(ring))
        share = np.array([_share(steps, (x, y)) for x, y in net.places.tolist()])
        at_top = tops[0] + share * (tops[1] - tops[0])
        rise = rises[0] + share * (rises[1] - rises[0])
        found.append(body(net, at_top - rise * number / steps.risers, at_top - rise))
    return tuple(found)


def _share(steps: Steps, point: XY) -> float:
    """Return how far along the nosing a point lies, zero at its start and one at its end. [-]."""
    (x1, y1), (x2, y2) = steps.start, steps.end
    return ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / distance(steps.start, steps.end) ** 2


def dig_mesh(ground: TriangulatedSurface, up: AreaBuildUp, topsoil_mm: float) -> Mesh:
    """Return what is dug for an area: all topsoil, and subsoil down to formation where that lies deeper.

    Args:
        ground: The ground as it lies.
        up: The build-up with its formation.
        topsoil_mm: Depth of topsoil. [mm]
    """
    shape = up.dig_shape.polygon
    lines = [shared(each, shape) for each in _ground_lines(ground, shape)]
    formation = up.formation
    lines += [] if formation.is_plane else [facet.polygon.exterior for facet in formation.facets]
    net = net_of(shape, [line for line in lines if not line.is_empty])
    under = _ground_levels(ground, net) - topsoil_mm - _levels(formation, net)
    net = parted(net, under, below_too=topsoil_mm > 0.0)
    top = _ground_levels(ground, net)
    bottom = np.minimum(_levels(formation, net), top - topsoil_mm)
    return body(net, np.maximum(top, bottom), bottom)


def _ground_lines(ground: TriangulatedSurface, shape: Polygon) -> list[shapely.Geometry]:
    """Return the sides of the triangles of the ground, and of those by which it is run on past the spot levels."""
    found: list[shapely.Geometry] = [LineString(ring) for ring in ground.corners[:, [0, 1, 2, 0], :2].tolist()]
    for part in shapely.get_parts(without(shape, ground.outline)):
        if isinstance(part, Polygon):
            fine = shapely.segmentize(part, _STEP_MM)
            found += [each.exterior for each in shapely.get_parts(shapely.constrained_delaunay_triangles(fine))]
    return found


def _ground_levels(ground: TriangulatedSurface, net: Net) -> NDArray[np.float64]:
    return ground.levels_beyond(net.places[:, 0], net.places[:, 1])


def ground_mesh(ground: TriangulatedSurface) -> Mesh:
    """Return the ground as it was read."""
    return Mesh(ground.points, ground.triangles, closed=False)


def box_mesh(ring: tuple[XY, ...], top_mm: float, bottom_mm: float | None) -> Mesh:
    """Return an upright body over an outline, or its top alone where nobody knows how deep it goes.

    Args:
        ring: Its outline in plan. [mm]
        top_mm: Level of its top. [mm]
        bottom_mm: Level of its bottom; None where that is not known. [mm]
    """
    net = net_of(Polygon(ring))
    top = np.full(len(net.places), top_mm)
    if bottom_mm is None or bottom_mm >= top_mm:
        return sheet(net, top)
    return body(net, top, np.full(len(net.places), bottom_mm))


def square(at: XY, side_mm: float, other_mm: float | None = None) -> tuple[XY, ...]:
    """Return the outline of a square, or of a rectangle, about its middle. [mm].

    Args:
        at: Its middle. [mm]
        side_mm: Along x. [mm]
        other_mm: Along y; as along x where none is given. [mm]
    """
    x, y = at
    long, wide = side_mm * _HALF, (side_mm if other_mm is None else other_mm) * _HALF
    return ((x - long, y - wide), (x + long, y - wide), (x + long, y + wide), (x - long, y + wide))


def strip_ring(start: XY, end: XY, wide_mm: float) -> tuple[XY, ...]:
    """Return the outline of a strip about a line. [mm]."""
    long, out = distance(start, end), wide_mm * _HALF
    a, b = point_along(start, end, 0.0, -out), point_along(start, end, long, -out)
    c, d = point_along(start, end, long, out), point_along(start, end, 0.0, out)
    return (a, b, c, d)
