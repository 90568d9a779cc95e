"""Bodies and surfaces as triangles: a layer between two levels, a finished surface, what is dug, a box."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from pavewright.geometry import XY, FoldedSurface

_GRID_MM = 1e-3
"""Corners nearer to each other than this are one. [mm]"""
_CRUMB_MM2 = 1e-2
"""Triangles smaller than this are none. [mm²]"""

XYZ = tuple[float, float, float]
Triangle = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Mesh:
    """Triangles in space.

    Attributes:
        points: Corners. [mm]
        triangles: Three numbers of corners each; seen from outside they run anticlockwise.
        closed: Whether they close a body.
    """

    points: tuple[XYZ, ...]
    triangles: tuple[Triangle, ...]
    closed: bool

    @property
    def volume_m3(self) -> float:
        """What it holds; zero of a surface. [m³].

        Source: definition, the sum of tetrahedra from one point to every triangle
        """
        if not self.closed or not self.triangles:
            return 0.0
        corners = np.asarray(self.points)[np.asarray(self.triangles)]
        corners = corners - corners[0, 0]
        return units.mm3_to_m3(float(np.linalg.det(corners).sum() / 6.0))


@dataclass(frozen=True, slots=True)
class Net:
    """A shape in plan as triangles that meet corner to corner.

    Attributes:
        places: Corners, shape (n, 2), float64. [mm]
        triangles: Numbers of three corners each, anticlockwise.
    """

    places: NDArray[np.float64]
    triangles: tuple[Triangle, ...]


def net_of(polygon: shapely.Geometry, lines: Iterable[shapely.Geometry] = ()) -> Net:
    """Return a shape as triangles none of which crosses a line; neighbours share their corners.

    Args:
        polygon: The shape, of one part or more. [mm]
        lines: Along which it is parted, as folds and sides of triangles of the ground. [mm]
    """
    drawn = shapely.unary_union([shapely.boundary(polygon), *lines], grid_size=_GRID_MM)
    cells = shapely.get_parts(shapely.polygonize(list(shapely.get_parts(drawn))))
    shapely.prepare(polygon)
    inside = [cell for cell in cells if shapely.contains(polygon, cell.representative_point())]
    numbers: dict[XY, int] = {}
    found: list[Triangle] = []
    for cell in inside:
        for triangle in shapely.get_parts(shapely.constrained_delaunay_triangles(cell)):
            if triangle.area < _CRUMB_MM2:
                continue
            ring = shapely.get_coordinates(shapely.geometry.polygon.orient(triangle))[:3].tolist()
            a, b, c = (numbers.setdefault((x, y), len(numbers)) for x, y in ring)
            found.append((a, b, c))
    places = np.asarray(list(numbers), dtype=np.float64).reshape(-1, 2)
    return Net(places, tuple(found))


def folded_net(polygon: shapely.Geometry, surface: FoldedSurface) -> Net:
    """Return a shape as triangles that each lie on one plane of a surface."""
    return net_of(polygon, [] if surface.is_plane else [facet.polygon.exterior for facet in surface.facets])


def sheet(net: Net, levels: NDArray[np.float64]) -> Mesh:
    """Return a surface over a net.

    Args:
        net: Its triangles in plan.
        levels: Its level at each corner, shape (n,), float64. [mm]
    """
    return Mesh(_raised(net.places, levels), net.triangles, closed=False)


def body(net: Net, top: NDArray[np.float64], bottom: NDArray[np.float64]) -> Mesh:
    """Return what lies between two surfaces over a net; where they meet there is no wall between them.

    Args:
        net: Its triangles in plan.
        top: Level of the upper one at each corner, shape (n,), float64. [mm]
        bottom: Level of the lower one at each corner, likewise. [mm]
    """
    count = len(net.places)
    meets = np.abs(top - bottom) < _GRID_MM
    under = [number if meets[number] else number + count for number in range(count)]
    found: list[Triangle] = list(net.triangles)
    found += [(under[a], under[c], under[b]) for a, b, c in net.triangles]
    for a, b in _rim(net.triangles):
        found += [(a, under[a], under[b]), (a, under[b], b)]
    points = (*_raised(net.places, top), *_raised(net.places, bottom))
    return Mesh(points, tuple(each for each in found if len(set(each)) == len(each)), closed=True)


def _rim(triangles: Sequence[Triangle]) -> list[tuple[int, int]]:
    """Return the sides that one triangle alone has, in its direction."""
    sides = [side for a, b, c in triangles for side in ((a, b), (b, c), (c, a))]
    taken = Counter(frozenset(side) for side in sides)
    return [side for side in sides if taken[frozenset(side)] == 1]


def _raised(places: NDArray[np.float64], levels: NDArray[np.float64]) -> tuple[XYZ, ...]:
    rows = np.column_stack([places, levels]).tolist()
    return tuple((x, y, z) for x, y, z in rows)


def parted(net: Net, heights: NDArray[np.float64], *, below_too: bool = False) -> Net:
    """Return a net whose triangles are parted where a height changes its sign: what is above zero, or both parts.

    Args:
        net: The triangles in plan.
        heights: The height at each corner, linear over each triangle, shape (n,), float64. [mm]
        below_too: Whether what is below zero stays too.
    """
    crossings = _Crossings(net, heights)
    signs = (1.0, -1.0) if below_too else (1.0,)
    kept = [crossings.above(triangle, heights * sign) for triangle in net.triangles for sign in signs]
    found = tuple((ring[0], ring[k], ring[k + 1]) for ring in kept for k in range(1, len(ring) - 1))
    return Net(np.asarray(crossings.places, dtype=np.float64).reshape(-1, 2), found)


class _Crossings:
    """Where a height is zero along sides of triangles; two triangles with one side have one crossing on it."""

    def __init__(self, net: Net, heights: NDArray[np.float64]) -> None:
        self.places: list[XY] = [(x, y) for x, y in net.places.tolist()]
        self._heights = heights
        self._on: dict[frozenset[int], int] = {}

    def above(self, triangle: Triangle, heights: NDArray[np.float64]) -> list[int]:
        """Return the corners of the part of a triangle that is above zero; those on the line belong to it."""
        corners: list[int] = []
        for a, b in zip(triangle, (*triangle[1:], triangle[0]), strict=True):
            if heights[a] >= 0.0:
                corners.append(a)
            if heights[a] * heights[b] < 0.0:
                corners.append(self._crossing(a, b))
        flat = all(heights[corner] <= 0.0 for corner in triangle)
        return [] if flat else corners

    def _crossing(self, a: int, b: int) -> int:
        key = frozenset((a, b))
        if key not in self._on:
            first, second = sorted((a, b))
            share = self._heights[first] / (self._heights[first] - self._heights[second])
            (x1, y1), (x2, y2) = self.places[first], self.places[second]
            self._on[key] = len(self.places)
            self.places.append((x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
        return self._on[key]
