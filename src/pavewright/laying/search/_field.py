"""A field and its pattern made ready for the kernel: arrays of edges, cells and units."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.laying.search._arms import arms, inner_turns

if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import ModuleType

    from shapely.geometry import Polygon

    from pavewright.geometry import XY
    from pavewright.laying.patterns import Layout

_CELLS_ACROSS = 240
"""So many cells at most lie along the longer side of a field."""
_CELL_MM = 100.0
"""No cell is smaller. [mm]"""
_SMALLEST = 4
"""Column of the counts that holds the smallest size of a cut piece."""
_TRIANGLE = 1.71
"""A triangle with two equal sides is so many times wider in its box than in its inscribed circle: 2 / (2 - √2)."""
_SKEW_MM = 1.0
"""An edge that runs further both ways is askew. [mm]"""
_CURVE_DEG = 12.0
"""A corner that turns less than this is a point of a flattened arc. [deg]"""


@dataclass(frozen=True, slots=True)
class Limits:
    """What makes a piece a crumb or a sliver, by size of unit.

    Attributes:
        absorbed_mm: Trim that the joints take up. [mm]
        min_mm: Smallest length and smallest width of a cut piece, for each size. [mm]
        min_width_mm: Narrowest piece, arm or web that can be cut and laid, for each size; none is judged where it is
            left out. [mm]
    """

    absorbed_mm: float
    min_mm: tuple[tuple[float, float], ...]
    min_width_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Field:
    """A field and its pattern as arrays.

    Attributes:
        units: Rectangles with their limits, shape (n, 6). [mm]
        edges: Edges of the field with the inside on their left, shape (e, 4). [mm]
        corners: True corners of its outline, shape (c, 2). [mm]
        inner_corners: Those that turn inward, shape (r, 2). [mm]
        inside: Whether each cell lies wholly inside, shape (rows, columns).
        edged: Sums of the cells that the outline runs through, shape (rows + 1, columns + 1).
        raster: Least x, least y and side of the cells, shape (3,). [mm]
        absorbed_mm: Trim that the joints take up. [mm]
        turns: Where the outline turns inward, see there. [mm]
        min_width_mm: Narrowest piece, arm or web of each unit, shape (n,); zero where none is judged. [mm]
        skew: Whether an edge of the field runs askew to the courses.
    """

    units: np.ndarray
    edges: np.ndarray
    corners: np.ndarray
    inner_corners: np.ndarray
    inside: np.ndarray
    edged: np.ndarray
    raster: np.ndarray
    absorbed_mm: float
    turns: np.ndarray
    min_width_mm: np.ndarray
    skew: bool

    def too_narrow(self, shifts: np.ndarray, counts: np.ndarray, period_mm: XY) -> np.ndarray:
        """Return about how many pieces are too narrow somewhere to be cut and laid, for each shift; shape (m,).

        Arms and webs are found by their width beside the corners where the outline turns inward, whole pieces by the
        smallest box; beside a skew edge a box may hold a triangle, which is narrower.
        """
        least = float(self.min_width_mm.min(initial=np.inf))
        box = counts[:, _SMALLEST] < least * (_TRIANGLE if self.skew else 1.0)
        found: np.ndarray = box + arms(
            self.units, self.turns, self.min_width_mm, shifts, (*period_mm, self.absorbed_mm)
        )
        return found

    def count(self, shifts: np.ndarray) -> np.ndarray:
        """Return whole, cut, slivers, notched, smallest size and sawn length for each shift; shape (m, 6)."""
        found: np.ndarray = _kernels().count(
            self.units,
            np.ascontiguousarray(shifts, dtype=np.float64),
            self.edges,
            self.inner_corners,
            self.inside,
            self.edged,
            self.raster,
            self.absorbed_mm,
        )
        return found


@cache
def _kernels() -> ModuleType:
    """Return the kernels: the compiler takes longer to load than most plans."""
    return import_module("pavewright.laying.search._count_kernel")


def field_of(parts: Sequence[Polygon], layout: Layout, limits: Limits) -> Field:
    """Return a field, in the frame of its courses, made ready for shifts of up to one period either way."""
    bounds = shapely.total_bounds(np.array(parts))
    wide, deep = layout.period_mm
    x1, y1, x2, y2 = (float(each) for each in bounds)
    placing = layout.over((x1 - wide, y1 - deep, x2 + wide, y2 + deep))
    boxes = placing.boxes()
    upright = placing.turn_deg != 0.0
    least = np.array(limits.min_mm)[placing.size]
    least = np.where(upright[:, None], least[:, ::-1], least)
    edges, corners, inner = _outline(parts)
    narrow = np.array(limits.min_width_mm or (0.0,) * len(limits.min_mm))[placing.size]
    away = np.abs(edges[:, :2] - edges[:, 2:])
    inside, edged, raster = _cells(parts, (x1, y1, x2, y2), edges)
    return Field(
        units=np.hstack((boxes, least)),
        edges=edges,
        corners=corners,
        inner_corners=inner,
        inside=inside,
        edged=edged,
        raster=raster,
        absorbed_mm=limits.absorbed_mm,
        turns=inner_turns(parts),
        min_width_mm=narrow,
        skew=bool(np.any(away.min(axis=1) > _SKEW_MM)),
    )


def _outline(parts: Sequence[Polygon]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return edges, true corners and corners that turn inward."""
    edges, corners, inner = [], [np.zeros((0, 2))], [np.zeros((0, 2))]
    for part in parts:
        oriented = shapely.geometry.polygon.orient(part)
        for ring in (oriented.exterior, *oriented.interiors):
            points = np.array(ring.coords)[:-1]
            after = np.roll(points, -1, axis=0)
            edges.append(np.hstack((points, after)))
            here, before = after - points, points - np.roll(points, 1, axis=0)
            cross = before[:, 0] * here[:, 1] - before[:, 1] * here[:, 0]
            turn = np.degrees(np.arctan2(cross, (before * here).sum(axis=1)))
            corners.append(points[np.abs(turn) >= _CURVE_DEG])
            inner.append(points[turn <= -_CURVE_DEG])
    return np.vstack(edges), np.vstack(corners), np.vstack(inner)


def _cells(
    parts: Sequence[Polygon], bounds: tuple[float, float, float, float], edges: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return which cells lie inside, sums of those that the outline runs through, and where they lie."""
    x1, y1, x2, y2 = bounds
    side = max(_CELL_MM, (x2 - x1) / _CELLS_ACROSS, (y2 - y1) / _CELLS_ACROSS)
    x0, y0 = x1 - side, y1 - side
    columns, rows = math.ceil((x2 - x0) / side) + 1, math.ceil((y2 - y0) / side) + 1
    raster = np.array((x0, y0, side))
    edged = np.zeros((rows, columns), dtype=bool)
    _kernels().mark(edges, raster, edged)
    left, near = np.meshgrid(x0 + side * (np.arange(columns) + 0.5), y0 + side * (np.arange(rows) + 0.5))
    inside = np.zeros((rows, columns), dtype=bool)
    for part in parts:
        shapely.prepare(part)
        inside |= shapely.contains_xy(part, left, near)
    inside &= ~edged
    sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
    sums[1:, 1:] = edged.cumsum(axis=0).cumsum(axis=1)
    return inside, sums, raster
