"""A finished surface folded along straight lines: plane facets that meet at their shared edges."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
import shapely.ops
from shapely.geometry import Point, Polygon

from pavewright.geometry._overlay import shared

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry._outline import Shape
    from pavewright.geometry._plane import Plane
    from pavewright.geometry._vectors import XY

_ON_MM = 1e-3
"""A point this near to a facet lies on it. [mm]"""
_MIN_FOLD_MM = 1.0
"""Facets that share less than this touch in a point. [mm]"""
_NO_FACET = -1
"""Not known yet which facet lies under a place."""


@dataclass(frozen=True, slots=True)
class Facet:
    """A plane part of a surface: its outline in plan, without holes, and its plane."""

    outline: tuple[XY, ...]
    plane: Plane

    @property
    def polygon(self) -> Polygon:
        """The outline as a polygon."""
        return Polygon(self.outline)


@dataclass(frozen=True, slots=True)
class Fold:
    """A line along which two facets meet.

    Attributes:
        start: Higher end in plan. [mm]
        end: Lower end in plan. [mm]
        fall: Fall along it, rise over run. [rise over run]
        step_mm: By how much one facet stands above the other along it; zero where they meet. [mm]
        is_valley: Whether water runs to it from both sides; else it is a ridge or a change of fall.
    """

    start: XY
    end: XY
    fall: float
    step_mm: float
    is_valley: bool


@dataclass(frozen=True)
class FoldedSurface:
    """Plane facets that cover an area; a single facet is a plane without an end."""

    facets: tuple[Facet, ...]

    @property
    def is_plane(self) -> bool:
        """Whether the whole surface is one plane."""
        return len(self.facets) == 1

    def facet_at(self, point: XY) -> Facet:
        """Return the facet under a plan point, the nearest one for a point past the edge."""
        if self.is_plane:
            return self.facets[0]
        place = Point(point)
        away = [polygon.distance(place) for polygon in self._polygons]
        return self.facets[away.index(min(away))]

    @cached_property
    def _polygons(self) -> tuple[Polygon, ...]:
        """The outlines of the facets, made once."""
        return tuple(facet.polygon for facet in self.facets)

    def level_at(self, point: XY) -> float:
        """Return the level at a plan point. [mm]."""
        return self.facet_at(point).plane.level_at(point)

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the levels at plan points, each array of shape (n,), float64. [mm].

        Args:
            x: Places towards east, shape (n,), float64. [mm]
            y: Places towards north, likewise. [mm]
        """
        planes = np.array([_plane_levels(facet.plane, x, y) for facet in self.facets])
        if self.is_plane:
            return np.asarray(planes[0], dtype=np.float64)
        under = self._facets_under(x, y)
        return np.asarray(np.take_along_axis(planes, under[None, :], axis=0)[0], dtype=np.float64)

    def _facets_under(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return the number of the facet under each place, of several that are as near the first, shape (n,)."""
        polygons = self._polygons
        under = np.full(len(x), _NO_FACET, dtype=np.intp)
        unsure = np.zeros(len(x), dtype=np.bool_)
        for number, polygon in enumerate(polygons):
            within, about = polygon.buffer(-_ON_MM), polygon.buffer(2.0 * _ON_MM)
            shapely.prepare([within, about])
            open_yet = np.flatnonzero((under == _NO_FACET) & ~unsure)
            near = open_yet[shapely.contains_xy(about, x[open_yet], y[open_yet])]
            well_in = shapely.contains_xy(within, x[near], y[near])
            under[near[well_in]] = number
            unsure[near[~well_in]] = True
        rest = np.flatnonzero(under == _NO_FACET)
        if len(rest):
            places = shapely.points(x[rest], y[rest])
            away = np.array([shapely.distance(polygon, places) for polygon in polygons])
            under[rest] = away.argmin(axis=0)
        return under

    def lowered(self, depth_mm: float) -> FoldedSurface:
        """Return the surface a thickness lower."""
        return FoldedSurface(tuple(Facet(facet.outline, facet.plane.lowered(depth_mm)) for facet in self.facets))

    @property
    def main(self) -> Facet:
        """The largest facet."""
        return max(self.facets, key=lambda facet: facet.polygon.area)

    @property
    def folds(self) -> tuple[Fold, ...]:
        """The lines along which facets meet, in the order of the facets."""
        found = []
        for number, first in enumerate(self.facets):
            for second in self.facets[number + 1 :]:
                line = shared(first.polygon, second.polygon)
                ends = shapely.get_coordinates(line)
                if line.length < _MIN_FOLD_MM:
                    continue
                found.append(_fold(first, second, [(float(x), float(y)) for x, y in ends]))
        return tuple(found)


def _plane_levels(plane: Plane, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
    x0, y0 = plane.origin_mm
    return np.asarray(plane.level_mm + plane.slope_x * (x - x0) + plane.slope_y * (y - y0), dtype=np.float64)


def _fold(first: Facet, second: Facet, points: list[XY]) -> Fold:
    """Return the fold along the points that two facets share."""
    (x1, y1), (x2, y2) = points[0], points[-1]
    run = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    drop = first.plane.level_at(points[0]) - first.plane.level_at(points[-1])
    start, end = (points[0], points[-1]) if drop >= 0.0 else (points[-1], points[0])
    middle = Point((x1 + x2) / 2.0, (y1 + y2) / 2.0)
    inner = first.polygon.representative_point()
    across = (-(y2 - y1) / run, (x2 - x1) / run)
    if across[0] * (inner.x - middle.x) + across[1] * (inner.y - middle.y) < 0.0:
        across = -across[0], -across[1]
    to_fold = first.plane.fall_along((-across[0], -across[1]))
    from_other = second.plane.fall_along(across)
    at = (middle.x, middle.y)
    step = abs(first.plane.level_at(at) - second.plane.level_at(at))
    step = step if step > _MIN_STEP_MM else 0.0
    return Fold(start, end, abs(drop) / run, step, is_valley=to_fold > 0.0 and from_other > 0.0)


_MIN_STEP_MM = 0.01
"""Facets that differ by less than this meet. [mm]"""


def one_plane(shape: Shape, plane: Plane) -> FoldedSurface:
    """Return a surface of one facet."""
    return FoldedSurface((Facet(shape.outer, plane),))


def split(shape: Polygon, line: tuple[XY, XY]) -> tuple[tuple[XY, ...], ...]:
    """Return the outlines of the parts into which a straight line through two points cuts a shape without holes.

    Source: definition
    """
    (x1, y1), (x2, y2) = line
    minx, miny, maxx, maxy = shape.bounds
    reach = 4.0 * (maxx - minx + maxy - miny) / max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, _ON_MM)
    dx, dy = (x2 - x1) * reach, (y2 - y1) * reach
    far = shapely.LineString([(x1 - dx, y1 - dy), (x2 + dx, y2 + dy)])
    parts = shapely.ops.split(shape, far)
    return tuple(
        tuple((float(x), float(y)) for x, y in shapely.get_coordinates(part.exterior)[:-1])
        for part in parts.geoms
        if isinstance(part, Polygon) and part.area > 1.0
    )
