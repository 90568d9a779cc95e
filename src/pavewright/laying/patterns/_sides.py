"""Sides of an outline: from one true corner to the next, straight or curved."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from pavewright.geometry import shared

if TYPE_CHECKING:
    from collections.abc import Sequence

_CURVE_DEG = 6.0
"""A corner that turns less than this is a point of a curved side: arcs are flattened in such steps. [deg]"""
_SAME_MM = 1e-3
"""Points of an outline that lie nearer are one. [mm]"""
_STRAIGHT_DEG = 0.05
"""A side that turns less than this from end to end is straight. [deg]"""
_SQUARE_COSINE = 0.7072
"""Corners within 45 degrees of square may be butted."""
_REACH = 4.0
"""So many depths a strip is drawn on past the ends of its side, to be cut there by its neighbours."""


@dataclass(frozen=True)
class OutlineSide:
    """A side of an outline with the area on its left.

    Attributes:
        points: Its points from corner to corner, of shape (n, 2). [mm]
        closed: Whether it runs all round, without a corner.
    """

    points: np.ndarray
    closed: bool = False

    @cached_property
    def steps(self) -> np.ndarray:
        """Directions of its parts, of shape (n - 1, 2)."""
        away = np.diff(self.points, axis=0)
        directions: np.ndarray = away / np.hypot(away[:, 0], away[:, 1])[:, None]
        return directions

    @property
    def length_mm(self) -> float:
        """Length along it. [mm]."""
        return float(np.hypot(*np.diff(self.points, axis=0).T).sum())

    @property
    def first_normal(self) -> np.ndarray:
        """Direction into the area at its beginning."""
        return np.array((-self.steps[0, 1], self.steps[0, 0]))

    @property
    def last_normal(self) -> np.ndarray:
        """Direction into the area at its end."""
        return np.array((-self.steps[-1, 1], self.steps[-1, 0]))

    @cached_property
    def turn_deg(self) -> float:
        """How far it turns to the left from end to end: more than zero where it bulges out of the area. [deg]."""
        return float(_turns(self.steps).sum())

    @property
    def straight(self) -> bool:
        """Whether it is straight."""
        return bool(np.abs(_turns(self.steps)).sum() < _STRAIGHT_DEG)

    def drawn_on(self, reach_mm: float) -> np.ndarray:
        """Return its points with its first and last part drawn on straight by so much; as it is where it is closed."""
        if self.closed:
            return self.points
        return np.vstack(
            (self.points[0] - self.steps[0] * reach_mm, self.points, self.points[-1] + self.steps[-1] * reach_mm)
        )


def sides_of(region: Polygon) -> tuple[OutlineSide, ...]:
    """Return the sides of the outer outline of an area, anticlockwise."""
    points = np.array(shapely.geometry.polygon.orient(region).exterior.coords)
    apart = np.hypot(*np.diff(points, axis=0).T) > _SAME_MM
    points = points[:-1][apart]
    away = np.roll(points, -1, axis=0) - points
    steps = away / np.hypot(away[:, 0], away[:, 1])[:, None]
    turns = np.roll(_turns(np.vstack((steps, steps[:1]))), 1)
    corners = np.flatnonzero(np.abs(turns) >= _CURVE_DEG)
    if not len(corners):
        return (OutlineSide(np.vstack((points, points[:1])), closed=True),)
    found = []
    for start, end in zip(corners, np.append(corners[1:], corners[0] + len(points)), strict=True):
        found.append(OutlineSide(points[np.arange(start, end + 1) % len(points)]))
    return tuple(found)


def _turns(steps: np.ndarray) -> np.ndarray:
    """Return the turn from each direction to the next, positive to the left; of shape (n - 1,). [deg]."""
    before, after = steps[:-1], steps[1:]
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turns: np.ndarray = np.degrees(np.arctan2(cross, (before * after).sum(axis=1)))
    return turns


def beyond(
    side: OutlineSide,
    off_mm: float,
    deep_mm: float,
    depth_mm: float,
    bounds: Sequence[tuple[np.ndarray, float]],
) -> shapely.Geometry:
    """Return the strip beside a side, on its left, within half-planes.

    Args:
        side: The side.
        off_mm: Where the strip begins, square to the side. [mm]
        deep_mm: How deep it is. [mm]
        depth_mm: How deep the whole border is, for how far strips are drawn on. [mm]
        bounds: Half-planes: points p with normal · p at most the number. [-, mm]
    """
    reach = _REACH * depth_mm
    strip = _beside(side, reach, off_mm + deep_mm)
    if off_mm > 0.0:
        strip = shapely.difference(strip, _beside(side, reach, off_mm), grid_size=1e-6)
    wide = side.length_mm + 4.0 * reach
    for normal, limit in bounds:
        cut = shapely.get_parts(shared(strip, _half_plane(normal, limit, side.points[0], wide)))
        strip = shapely.MultiPolygon([part for part in cut if isinstance(part, Polygon)])
    return strip


def _beside(side: OutlineSide, reach_mm: float, deep_mm: float) -> shapely.Geometry:
    if side.closed:
        outline = Polygon(side.points)
        return shapely.difference(outline, outline.buffer(-deep_mm, join_style="mitre"), grid_size=1e-6)
    line = LineString(side.drawn_on(reach_mm))
    return shapely.make_valid(line.buffer(deep_mm, single_sided=True, join_style="mitre"))


def _half_plane(normal: np.ndarray, limit: float, near: np.ndarray, wide_mm: float) -> Polygon:
    """Return a square that fills a half-plane as far as anything near a point may reach."""
    foot = near + normal * (limit - float(normal @ near))
    along = np.array((-normal[1], normal[0])) * 2.0 * wide_mm
    back = -normal * 4.0 * wide_mm
    return Polygon((foot + along, foot - along, foot - along + back, foot + along + back))


def square_enough(before: np.ndarray, after: np.ndarray) -> bool:
    """Return whether a corner between two normals is near enough to square for one side to butt against the other."""
    return abs(float(before @ after)) <= _SQUARE_COSINE


def bearing(direction: np.ndarray) -> float:
    """Return a direction as an angle anticlockwise from the x axis. [deg]."""
    return math.degrees(math.atan2(direction[1], direction[0]))
