"""Which triangle of a sheet lies under a plan point, for one point or for many at once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry._vectors import XY

_EDGE = 1e-9
"""Slack of a weight for a point that stands on the edge of a triangle. [-]"""
_FLAT_MM2 = 1.0
"""A triangle of less than half of this has no height that a staff could show. [mm²]"""
_ALL_PAIRS = 20_000
"""Up to so many pairs of a point and a triangle each pair is tried; past it boxes are sought first. [-]"""
_BOX_SLACK = 1e-6
"""A box is wider than its triangle by this part of its size, far more than the slack of a weight. [-]"""
_NEARLY_IN = -1e-7
"""A best weight below this may be beaten by a triangle whose box was not met. [-]"""


@dataclass(frozen=True)
class TriangleFinder:
    """Triangles in plan, ready to be asked which of them is under a point.

    Attributes:
        plan: Corners, shape (n, 3, 2), float64. [mm]
    """

    plan: NDArray[np.float64]

    def under(self, places: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
        """Return the first triangle over each place, -1 where there is none, and the weights of its corners.

        Args:
            places: Plan points, shape (n, 2), float64. [mm]
        """
        found, kept = np.full(len(places), -1, dtype=np.intp), np.zeros((len(places), 3))
        place, triangle = self._pairs(places)
        weights = self._weights(places[place], triangle)
        held = np.flatnonzero((weights >= -_EDGE).all(axis=1))
        at, first = np.unique(place[held], return_index=True)
        found[at], kept[at] = triangle[held[first]], weights[held[first]]
        return found, kept

    def under_one(self, place: XY) -> tuple[int, NDArray[np.float64]] | None:
        """Return the first triangle over one place and the weights of its corners, or None; no boxes are sought."""
        weights = self._weights(np.array(place, dtype=np.float64), slice(None))
        held: NDArray[np.bool_] = np.all(weights >= -_EDGE, axis=1)
        first = int(held.argmax())
        return (first, weights[first]) if held[first] else None

    def nearest(self, places: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
        """Return for each place on the edge of the sheet the triangle that it lies deepest in, and the weights.

        Args:
            places: Plan points, shape (n, 2), float64. [mm]
        """
        found, kept = self._deepest(places, *self._pairs(places))
        missed = np.flatnonzero(kept.min(axis=1) < _NEARLY_IN)
        for one in missed:
            every = np.arange(len(self.plan), dtype=np.intp)
            best, weights = self._deepest(places[[one]], np.zeros_like(every), every)
            found[one], kept[one] = best[0], weights[0]
        return found, kept

    def _deepest(
        self, places: NDArray[np.float64], place: NDArray[np.intp], triangle: NDArray[np.intp]
    ) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
        found, kept = np.full(len(places), -1, dtype=np.intp), np.full((len(places), 3), -np.inf)
        weights = self._weights(places[place], triangle)
        order = np.lexsort((triangle, -weights.min(axis=1), place))
        at, first = np.unique(place[order], return_index=True)
        found[at], kept[at] = triangle[order[first]], weights[order[first]]
        return found, kept

    def _pairs(self, places: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """Return pairs of a place and a triangle that may be over it, by place and then by triangle."""
        if len(places) * len(self.plan) <= _ALL_PAIRS:
            place, triangle = np.divmod(np.arange(len(places) * len(self.plan), dtype=np.intp), len(self.plan))
            return place, triangle
        place, triangle = self._boxes.query(shapely.points(places))
        order = np.lexsort((triangle, place))
        return place[order], triangle[order]

    def _weights(self, places: NDArray[np.float64], triangle: NDArray[np.intp] | slice) -> NDArray[np.float64]:
        """Return barycentric weights of places in a triangle each, shape (n, 3)."""
        a, b, c = (self.plan[triangle, k] - places for k in range(3))
        spread, flat = self._spreads
        whole = spread[triangle]
        first = np.where(flat[triangle], -np.inf, cross(b, c) / whole)
        second = np.where(flat[triangle], -np.inf, cross(c, a) / whole)
        return np.stack((first, second, 1.0 - first - second), axis=1)

    @cached_property
    def _spreads(self) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
        """Twice the area of each triangle, and whether its corners stand on one line: that carries no level. [mm²]."""
        a, b, c = (self.plan[:, k] for k in range(3))
        spread = cross(b - a, c - a)
        flat = np.abs(spread) < _FLAT_MM2
        return np.where(flat, 1.0, spread), flat

    @cached_property
    def _boxes(self) -> shapely.STRtree:
        low, high = self.plan.min(axis=1), self.plan.max(axis=1)
        slack = _BOX_SLACK * (1.0 + (high - low).max(axis=1, keepdims=True))
        return shapely.STRtree(shapely.box(*(low - slack).T, *(high + slack).T))


def cross(first: NDArray[np.float64], second: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the cross products of rows of plan vectors. [mm²].

    Args:
        first: Vectors, shape (…, 2), float64. [mm]
        second: Vectors to multiply them by, likewise. [mm]
    """
    result: NDArray[np.float64] = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return result
