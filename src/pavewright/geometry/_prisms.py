"""The volume between a triangulated surface and a plane."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.geometry._overlay import shared
from pavewright.geometry._triangles import cross

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry._outline import Shape
    from pavewright.geometry._plane import Plane
    from pavewright.geometry._surface import TriangulatedSurface

_FLAT_MM = 1e-9
"""A height below this is none: numbers of a plane round by more. [mm]"""
_CORNERS = 3


@dataclass(frozen=True, slots=True)
class PrismVolumes:
    """What lies between a surface above and a plane below, over a shape.

    Attributes:
        cut_m3: Where the surface stands above the plane. [m³]
        fill_m3: Where it lies below. [m³]
        area_m2: Plan area covered by triangles. [m²]
        deepest_mm: Greatest height of the surface over the plane; negative if it lies below everywhere. [mm]
        shallowest_mm: Least height of the surface over the plane. [mm]
    """

    cut_m3: float
    fill_m3: float
    area_m2: float
    deepest_mm: float
    shallowest_mm: float

    @property
    def net_m3(self) -> float:
        """Cut less fill. [m³]."""
        return self.cut_m3 - self.fill_m3


def prism_volumes(surface: TriangulatedSurface, plane: Plane, shape: Shape) -> PrismVolumes:
    """Return cut and fill between a triangulated surface and a plane over a shape, exactly.

    Each triangle is clipped to the shape, the pieces are split along the zero line, and each part is a prism whose
    volume is its area times the mean height of a linear field, taken at its centroid.

    Valid for: any shape; where the shape reaches past the triangles nothing is counted (see ``area_m2``).
    Source: definition, prism of a linear height field: area times height at the centroid
    """
    owner, rings = _triangles_of(_clipped(surface, shape))
    if owner.size == 0:
        return PrismVolumes(0.0, 0.0, 0.0, -np.inf, np.inf)
    heights = _heights(surface.corners[owner], rings, plane)
    cut, fill, area = (float(part.sum()) for part in _split(rings, heights))
    return PrismVolumes(
        units.mm3_to_m3(cut),
        units.mm3_to_m3(fill),
        units.mm2_to_m2(area),
        float(heights.max()),
        float(heights.min()),
    )


def _clipped(surface: TriangulatedSurface, shape: Shape) -> NDArray[np.object_]:
    """Return what each triangle shares with a shape; those over its outline are cut, those beyond it are empty."""
    pieces = np.asarray(shapely.polygons(surface.corners[:, :, :2]), dtype=object)
    whole = shape.polygon
    shapely.prepare(whole)
    met = shapely.intersects(whole, pieces)
    pieces[~met] = shapely.Polygon()
    cut = met & ~shapely.contains_properly(whole, pieces)
    pieces[cut] = shared(pieces[cut], whole)
    return pieces


def _triangles_of(pieces: NDArray[np.object_]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return shapes as triangles, shape (n, 3, 2), and the shape that each is of; convex ones as a fan. [mm]."""
    parts, owner = _polygons_of(pieces)
    rings, part_of = shapely.get_coordinates(shapely.get_exterior_ring(parts), return_index=True)
    sides = np.bincount(part_of, minlength=len(parts)) - 1
    start = np.cumsum(sides + 1) - sides - 1
    whole = shapely.get_num_interior_rings(parts) == 0
    fans, owners = [np.empty((0, 3, 2))], [np.empty(0, dtype=np.intp)]
    fanned = np.zeros(len(parts), dtype=bool)
    for count in np.unique(sides[whole]):
        same = np.flatnonzero(whole & (sides == count))
        corners = rings[start[same, None] + np.arange(count)]
        convex = _are_convex(corners)
        same, corners = same[convex], corners[convex]
        fanned[same] = True
        for k in range(1, count - 1):
            fans.append(corners[:, [0, k, k + 1]])
            owners.append(owner[same])
    for part, of in zip(parts[~fanned], owner[~fanned], strict=True):
        inner, _ = _polygons_of(np.asarray([shapely.constrained_delaunay_triangles(part)], dtype=object))
        fans.append(shapely.get_coordinates(inner).reshape(-1, 4, 2)[:, :3])
        owners.append(np.full(len(inner), of, dtype=np.intp))
    return np.concatenate(owners), np.concatenate(fans)


def _polygons_of(shapes: NDArray[np.object_]) -> tuple[NDArray[np.object_], NDArray[np.intp]]:
    """Return the polygons with an area that shapes are made of, and the shape that each is of."""
    parts, owner = shapely.get_parts(shapes, return_index=True)
    kept = (shapely.get_type_id(parts) == shapely.GeometryType.POLYGON) & (shapely.area(parts) > 0.0)
    return parts[kept], owner[kept]


def _are_convex(rings: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which outlines of one number of corners, shape (n, corners, 2), turn one way only."""
    edges = np.roll(rings, -1, axis=1) - rings
    turns = cross(edges, np.roll(edges, -1, axis=1))
    convex: NDArray[np.bool_] = np.all(turns >= 0.0, axis=1) | np.all(turns <= 0.0, axis=1)
    return convex


def _heights(corners: NDArray[np.float64], rings: NDArray[np.float64], plane: Plane) -> NDArray[np.float64]:
    """Return heights of triangles of the surface over the plane at three points each, shape (n, 3). [mm].

    Args:
        corners: Corners of the triangle of the surface, shape (n, 3, 3). [mm]
        rings: The three points in plan, shape (n, 3, 2). [mm]
        plane: The plane.
    """
    a, b, c = (corners[:, k, None, :] for k in range(3))
    spread = cross(b[..., :2] - a[..., :2], c[..., :2] - a[..., :2])
    first = cross(b[..., :2] - rings, c[..., :2] - rings) / spread
    second = cross(c[..., :2] - rings, a[..., :2] - rings) / spread
    surface = first * a[..., 2] + second * b[..., 2] + (1.0 - first - second) * c[..., 2]
    result: NDArray[np.float64] = surface - plane.levels_at(rings[..., 0], rings[..., 1])
    return result


def _split(
    rings: NDArray[np.float64], heights: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Return cut, fill and plan area of triangles with linear heights, shape (n,) each. [mm³, mm³, mm²].

    Source: derived, triangle cut by the zero plane: the lone corner h1 keeps area·h1³ / (3 (h1−h2)(h1−h3))
    """
    area = np.abs(cross(rings[:, 1] - rings[:, 0], rings[:, 2] - rings[:, 0])) / 2.0
    net = area * heights.mean(axis=1)
    above = heights > _FLAT_MM
    up = above.sum(axis=1)
    alone = np.where(up == 1, above.argmax(axis=1), (~above).argmax(axis=1))
    rows = np.arange(len(heights))
    h1, h2, h3 = (heights[rows, (alone + k) % 3] for k in range(3))
    off = 3.0 * np.abs(h1 - h2) * np.abs(h1 - h3)
    crossed = (up > 0) & (up < _CORNERS) & (off > 0.0)
    tip = np.where(crossed, area * np.abs(h1) ** 3 / np.where(off > 0.0, off, 1.0), 0.0)
    cut = np.where(crossed, np.where(up == 1, tip, net + tip), np.maximum(net, 0.0))
    cut = np.where(up == _CORNERS, net, np.where(up == 0, 0.0, cut))
    return cut, cut - net, area
