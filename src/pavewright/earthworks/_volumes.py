"""Volume between the ground and a formation, run on past the outermost spot levels."""

from __future__ import annotations

import shapely
from shapely.geometry import Polygon

from pavewright.geometry import (
    Plane,
    PrismVolumes,
    Shape,
    TriangulatedSurface,
    prism_volumes,
    shape_from_polygon,
    without,
)

_STEP_MM = 1000.0
"""Past the outermost spot levels the ground is taken at points no further apart than this along edges. [mm]"""
_CRUMB_MM2 = 1.0
"""Parts smaller than this carry no soil. [mm²]"""


def volumes(ground: TriangulatedSurface, formation: Plane, shape: Shape) -> tuple[PrismVolumes, float]:
    """Return cut and fill over a whole shape, and the area of it past the outermost spot levels. [m²].

    Within the spot levels the volume is exact over the triangles; past them each triangle is run on from the nearest
    one.
    """
    within = prism_volumes(ground, formation, shape)
    beyond = without(shape.polygon, ground.outline)
    parts = [part for part in shapely.get_parts(beyond) if isinstance(part, Polygon) and part.area > _CRUMB_MM2]
    run_on = [prism_volumes(_run_on(ground, part), formation, shape_from_polygon(part)) for part in parts]
    found = [within, *run_on]
    return _added(found), sum(each.area_m2 for each in run_on)


def _run_on(ground: TriangulatedSurface, part: Polygon) -> TriangulatedSurface:
    """Return triangles over a part past the spot levels, each corner at the level run on to it."""
    fine = shapely.segmentize(part, _STEP_MM)
    corners: dict[tuple[float, float], int] = {}
    triangles = []
    for triangle in shapely.get_parts(shapely.constrained_delaunay_triangles(fine)):
        ring = shapely.get_coordinates(shapely.geometry.polygon.orient(triangle))[:3].tolist()
        first, second, third = (corners.setdefault((x, y), len(corners)) for x, y in ring)
        triangles.append((first, second, third))
    points = tuple((x, y, ground.level_beyond((x, y))) for x, y in corners)
    return TriangulatedSurface(points, tuple(triangles))


def _added(found: list[PrismVolumes]) -> PrismVolumes:
    covered = [each for each in found if each.area_m2 > 0.0]
    return PrismVolumes(
        cut_m3=sum(each.cut_m3 for each in covered),
        fill_m3=sum(each.fill_m3 for each in covered),
        area_m2=sum(each.area_m2 for each in covered),
        deepest_mm=max((each.deepest_mm for each in covered), default=0.0),
        shallowest_mm=min((each.shallowest_mm for each in covered), default=0.0),
    )
