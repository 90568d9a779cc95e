"""Triangles between spot levels: levels anywhere over them, and lines of equal level."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import MultiPoint, Polygon

from pavewright.geometry._break_lines import Mesh
from pavewright.geometry._overlay import joined
from pavewright.geometry._plane import Plane, fit_plane
from pavewright.geometry._triangles import TriangleFinder

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from pavewright.geometry._vectors import XY, XYZ


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
        found = self._finder.under_one(point)
        return None if found is None else float(found[1] @ self.corners[found[0], :, 2])

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the levels at rows of plan points, nan where no triangle covers one. [mm].

        Args:
            x: Places towards east, shape (n,), float64. [mm]
            y: Places towards north, likewise. [mm]
        """
        places = np.column_stack((x, y)).astype(np.float64, copy=False)
        under, weights = self._finder.under(places)
        levels: NDArray[np.float64] = np.where(under >= 0, _level_of(self.corners[under, :, 2], weights), np.nan)
        return levels

    @cached_property
    def general_slope(self) -> Plane:
        """The plane that fits all points best: the general slope of the sheet."""
        return fit_plane(self.points)

    def level_beyond(self, point: XY) -> float:
        """Return the level at a plan point, run on past the edge of the sheet where no triangle covers it. [mm]."""
        inside = self.level_at(point)
        return inside if inside is not None else float(self._run_on(np.array([point], dtype=np.float64))[0])

    def levels_beyond(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the levels at rows of plan points, run on past the edge where no triangle covers one. [mm].

        A level runs on from the nearest point of the edge with the general slope of the whole sheet: a thin triangle at
        the edge may be steep as a wall and says nothing of what lies beyond it.

        Args:
            x: Places towards east, shape (n,), float64. [mm]
            y: Places towards north, likewise. [mm]
        """
        levels = self.levels_at(x, y)
        out = np.isnan(levels)
        if out.any():
            levels[out] = self._run_on(np.column_stack((x, y)).astype(np.float64, copy=False)[out])
        return levels

    def _run_on(self, places: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the levels at places past the edge, shape (n, 2). [mm]."""
        lines = shapely.shortest_line(self.outline, shapely.points(places))
        nearest = shapely.get_coordinates(lines)[::2]
        best, weights = self._finder.nearest(nearest)
        held = np.clip(weights, 0.0, None)
        edge_levels = _level_of(self.corners[best, :, 2], held) / held.sum(axis=1)
        slope = self.general_slope
        run_on: NDArray[np.float64] = edge_levels + slope.levels_at(*places.T) - slope.levels_at(*nearest.T)
        return run_on

    @cached_property
    def _finder(self) -> TriangleFinder:
        return TriangleFinder(self.corners[:, :, :2])


def _level_of(corner_levels: NDArray[np.float64], weights: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the levels that weights make of three corner levels each, shape (n,). [mm]."""
    result: NDArray[np.float64] = np.einsum("nk,nk->n", weights, corner_levels)
    return result


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
        step_mm: From one line to the next, from level zero. [mm]

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


def _polygons_of(geometry: shapely.Geometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(geometry) if isinstance(part, Polygon) and part.area > 0.0]
