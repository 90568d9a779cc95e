"""Volume between the ground and a formation, run on past the outermost spot levels."""

from __future__ import annotations

import shapely
from shapely.geometry import Polygon

from pavewright.geometry import (
    FoldedSurface,
    Plane,
    PrismVolumes,
    Shape,
    TriangulatedSurface,
    joined,
    prism_volumes,
    shape_from_polygon,
    shared,
    without,
)

_STEP_MM = 1000.0
"""Past the outermost spot levels the ground is taken at points no further apart than this along edges. [mm]"""
_CRUMB_MM2 = 1.0
"""Parts smaller than this carry no soil. [mm²]"""


def volumes(ground: TriangulatedSurface, formation: FoldedSurface, shape: Shape) -> tuple[PrismVolumes, float]:
    """Return cut and fill over a whole shape, and the area of it past the outermost spot levels. [m²].

    Within the spot levels the volume is exact over the triangles; past them each triangle is run on from the nearest
    one. A folded formation is taken facet by facet; the strip dug past the outline belongs to the nearest facet.
    """
    if formation.is_plane:
        return _under_plane(ground, formation.facets[0].plane, shape)
    parts = [
        _under_plane(ground, facet.plane, shape_from_polygon(part))
        for facet, territory in zip(formation.facets, _territories(formation, shape), strict=True)
        for part in shapely.get_parts(territory)
        if isinstance(part, Polygon) and part.area > _CRUMB_MM2
    ]
    return _added([found for found, _ in parts]), sum(beyond for _, beyond in parts)


def _territories(formation: FoldedSurface, shape: Shape) -> list[shapely.Geometry]:
    """Return the part of a shape that belongs to each facet: its own ground, and the strip outside nearest to it."""
    outlines = [facet.polygon for facet in formation.facets]
    outside = without(shape.polygon, joined(outlines))
    territories: list[shapely.Geometry] = [shared(shape.polygon, outline) for outline in outlines]
    for piece in shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.segmentize(outside, _STEP_MM))):
        middle = piece.centroid
        away = [outline.distance(middle) for outline in outlines]
        nearest = away.index(min(away))
        territories[nearest] = joined([territories[nearest], piece])
    return territories


def _under_plane(ground: TriangulatedSurface, formation: Plane, shape: Shape) -> tuple[PrismVolumes, float]:
    """Return cut and fill between the ground and a plane over a shape, and the area past the spot levels. [m²]."""
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
