"""Triangles between spot levels, and the volume between them and a plane."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import MultiPoint, Polygon

from pavewright import units
from pavewright.geometry._break_lines import Mesh
from pavewright.geometry._overlay import joined, shared
from pavewright.geometry._plane import Plane, fit_plane

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry._outline import Shape
    from pavewright.geometry._vectors import XY, XYZ

_FLAT_MM = 1e-9
_EDGE = 1e-9
"""Slack of a weight for a point that stands on the edge of a triangle. [-]"""


@dataclass(frozen=True)
class TriangulatedSurface:
    """A sheet of plane triangles between points.

    Attributes:
        points: Points, x, y and level. [mm]
        triangles: Three indices into points for each triangle, anticlockwise.
        gapped: Whether places are left out inside its outline.
    """

    points: tuple[XYZ, ...]
    triangles: tuple[tuple[int, int, int], ...]
    gapped: bool = False

    @cached_property
    def corners(self) -> np.ndarray:
        """Corners of all triangles, shape (n, 3, 3), float64, x, y, level. [mm]."""
        return np.asarray(self.points, dtype=np.float64)[np.asarray(self.triangles, dtype=np.intp)]

    @cached_property
    def outline(self) -> shapely.Geometry:
        """Plan outline that the triangles cover: the convex hull of the points, without its gaps."""
        if self.gapped:
            return joined([Polygon(ring) for ring in self.corners[:, :, :2]])
        return MultiPoint([(x, y) for x, y, _ in self.points]).convex_hull

    def lowered(self, by_mm: float) -> TriangulatedSurface:
        """Return the sheet with so much taken off everywhere."""
        return replace(self, points=tuple((x, y, z - by_mm) for x, y, z in self.points))

    def level_at(self, point: XY) -> float | None:
        """Return the level at a plan point, or None where no triangle covers it. [mm]."""
        weights = self._weights(point)
        inside = np.flatnonzero((weights >= -_EDGE).all(axis=1))
        if inside.size == 0:
            return None
        return float(weights[inside[0]] @ self.corners[inside[0], :, 2])

    @cached_property
    def general_slope(self) -> Plane:
        """The plane that fits all points best: the general slope of the sheet."""
        return fit_plane(self.points)

    def level_beyond(self, point: XY) -> float:
        """Return the level at a plan point, run on past the edge of the sheet where no triangle covers it. [mm].

        It runs on from the nearest point of the edge with the general slope of the whole sheet: a thin triangle at the
        edge may be steep as a wall and says nothing of what lies beyond it.
        """
        inside = self.level_at(point)
        if inside is not None:
            return inside
        nearest = shapely.shortest_line(self.outline, shapely.Point(point)).coords[0]
        weights = self._weights((float(nearest[0]), float(nearest[1])))
        best = int(np.argmax(weights.min(axis=1)))
        held = np.clip(weights[best], 0.0, None)
        edge_level = float(held @ self.corners[best, :, 2] / held.sum())
        slope = self.general_slope
        return edge_level + slope.level_at(point) - slope.level_at((float(nearest[0]), float(nearest[1])))

    def _weights(self, point: XY) -> np.ndarray:
        """Return barycentric weights of a point in every triangle, shape (n, 3)."""
        a, b, c = (self.corners[:, k, :2] for k in range(3))
        p = np.asarray(point, dtype=np.float64)
        spread = _cross(b - a, c - a)
        # three points on one line carry no level: such a triangle is never the one under a point
        flat = np.abs(spread) < _FLAT_MM2
        whole = np.where(flat, 1.0, spread)
        first = np.where(flat, -np.inf, _cross(b - p, c - p) / whole)
        second = np.where(flat, -np.inf, _cross(c - p, a - p) / whole)
        return np.stack((first, second, 1.0 - first - second), axis=1)


_FLAT_MM2 = 1.0
"""A triangle of less than half of this has no height that a staff could show. [mm²]"""


def triangulate(
    points: Sequence[XYZ], breaks: Sequence[tuple[int, int]] = (), gaps: Sequence[Sequence[int]] = ()
) -> TriangulatedSurface:
    """Return the Delaunay triangles between spot levels, turned so that sides keep to break lines.

    Args:
        points: Spot levels, no two on one place. [mm]
        breaks: Lines along which the ground breaks, as indices of two points each.
        gaps: Rings of indices round places without ground; nothing is known inside.

    Source: definition; break lines by turning edges that cross them (sloan_1993)

    Raises:
        CrossingLinesError: two break lines cross where nothing was measured.
        ValueError: fewer than three points, or all on one line.
    """
    by_place = {(x, y): index for index, (x, y, _) in enumerate(points)}
    found = shapely.delaunay_triangles(MultiPoint([(x, y) for x, y, _ in points]))
    triangles = []
    for polygon in _polygons_of(found):
        ring = shapely.geometry.polygon.orient(polygon).exterior.coords[:-1]
        corner_indices = [by_place[float(x), float(y)] for x, y in ring]
        start = corner_indices.index(min(corner_indices))
        first, second, third = corner_indices[start:] + corner_indices[:start]
        triangles.append((first, second, third))
    if not triangles:
        message = "a ground surface needs at least three spot levels that are not on one line"
        raise ValueError(message)
    rings = [tuple(zip(gap, (*gap[1:], gap[0]), strict=True)) for gap in gaps]
    kept = tuple(sorted(triangles))
    if breaks or rings:
        mesh = Mesh(points, triangles)
        for start, end in (*breaks, *(side for ring in rings for side in ring)):
            mesh.keep(start, end)
        kept = mesh.triangles
    holes = [Polygon([points[index][:2] for index in gap]) for gap in gaps]
    left = tuple(each for each in kept if not any(hole.contains(_middle(points, each)) for hole in holes))
    return TriangulatedSurface(
        tuple((float(x), float(y), float(z)) for x, y, z in points), left, gapped=len(left) < len(kept)
    )


def _middle(points: Sequence[XYZ], triangle: tuple[int, int, int]) -> shapely.Point:
    return shapely.Point(*(sum(points[index][axis] for index in triangle) / 3.0 for axis in (0, 1)))


def contour_lines(surface: TriangulatedSurface, step_mm: float) -> dict[float, shapely.Geometry]:
    """Return the lines of equal level over the triangles of a surface, by their level, lowest first.

    A level that runs through a spot is drawn a hair above it, so that no line ends there.

    Args:
        surface: The surface.
        step_mm: From one line to the next, from level nought. [mm]

    Source: definition, straight across each triangle
    """
    levels = surface.corners[:, :, 2]
    found: dict[float, shapely.Geometry] = {}
    for number in range(int(np.ceil(levels.min() / step_mm)), int(np.floor(levels.max() / step_mm)) + 1):
        at = number * step_mm
        pieces = []
        for corners in surface.corners[(levels.min(axis=1) <= at) & (levels.max(axis=1) > at)]:
            ends = []
            for one, other in ((0, 1), (1, 2), (2, 0)):
                z1, z2 = corners[one, 2], corners[other, 2]
                if (z1 <= at) != (z2 <= at):
                    share = (at - z1) / (z2 - z1)
                    ends.append(tuple((corners[one, :2] + share * (corners[other, :2] - corners[one, :2])).tolist()))
            if len(ends) == 2 and ends[0] != ends[1]:  # noqa: PLR2004 - in on one side, out on another
                pieces.append(shapely.LineString(ends))
        if pieces:
            found[at] = shapely.line_merge(shapely.union_all(pieces))
    return found


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
    polygons = shapely.polygons(surface.corners[:, :, :2])
    pieces = shared(np.asarray(polygons, dtype=object), shape.polygon)
    cut = fill = area = 0.0
    deepest, shallowest = -np.inf, np.inf
    for corners, piece in zip(surface.corners, pieces, strict=True):
        for part in _polygons_of(piece):
            for ring in _triangles_of(part):
                heights = _heights(corners, ring, plane)
                deepest, shallowest = max(deepest, float(heights.max())), min(shallowest, float(heights.min()))
                above, below, plan = _split(ring, heights)
                cut, fill, area = cut + above, fill + below, area + plan
    return PrismVolumes(units.mm3_to_m3(cut), units.mm3_to_m3(fill), units.mm2_to_m2(area), deepest, shallowest)


def _polygons_of(geometry: shapely.Geometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(geometry) if isinstance(part, Polygon) and part.area > 0.0]


def _triangles_of(polygon: Polygon) -> list[np.ndarray]:
    """Return a polygon as triangles; a convex one as a fan, others by constrained triangulation."""
    ring = np.asarray(polygon.exterior.coords[:-1], dtype=np.float64)
    if not polygon.interiors and _is_convex(ring):
        return [ring[[0, k, k + 1]] for k in range(1, len(ring) - 1)]
    parts = shapely.constrained_delaunay_triangles(polygon)
    return [np.asarray(part.exterior.coords[:3], dtype=np.float64) for part in _polygons_of(parts)]


def _is_convex(ring: np.ndarray) -> bool:
    edges = np.roll(ring, -1, axis=0) - ring
    turns = _cross(edges, np.roll(edges, -1, axis=0))
    return bool((turns >= 0.0).all() or (turns <= 0.0).all())


def _cross(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    result: np.ndarray = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return result


def _heights(corners: np.ndarray, ring: np.ndarray, plane: Plane) -> np.ndarray:
    """Return heights of a triangle of the surface over the plane at ring points, shape (3,). [mm]."""
    a, b, c = corners
    spread = _cross(b[:2] - a[:2], c[:2] - a[:2])
    first = _cross(b[:2] - ring, c[:2] - ring) / spread
    second = _cross(c[:2] - ring, a[:2] - ring) / spread
    surface = first * a[2] + second * b[2] + (1.0 - first - second) * c[2]
    at_plane = (
        plane.level_mm
        + plane.slope_x * (ring[:, 0] - plane.origin_mm[0])
        + plane.slope_y * (ring[:, 1] - plane.origin_mm[1])
    )
    result: np.ndarray = surface - at_plane
    return result


def _split(ring: np.ndarray, heights: np.ndarray) -> tuple[float, float, float]:
    """Return cut, fill and plan area of one triangle with linear heights. [mm³, mm³, mm²].

    Source: derived, triangle cut by the zero plane: the lone corner h1 keeps area·h1³ / (3 (h1−h2)(h1−h3))
    """
    area = abs(float(_cross(ring[1] - ring[0], ring[2] - ring[0]))) / 2.0
    net = area * float(heights.mean())
    above = heights > _FLAT_MM
    if above.all():
        return net, 0.0, area
    if not above.any():
        return 0.0, -net, area
    alone = int(np.flatnonzero(above)[0]) if above.sum() == 1 else int(np.flatnonzero(~above)[0])
    h1, h2, h3 = (float(heights[(alone + k) % 3]) for k in range(3))
    if h1 in (h2, h3):
        return max(net, 0.0), max(-net, 0.0), area
    tip = area * abs(h1) ** 3 / (3.0 * abs(h1 - h2) * abs(h1 - h3))
    return (tip, tip - net, area) if above.sum() == 1 else (net + tip, tip, area)
