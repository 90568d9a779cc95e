"""Outlines with straight and arc sides, and the shapes that they enclose."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPolygon, Polygon

from pavewright import units
from pavewright.geometry._arcs import arc_length_mm, radius_from_rise_mm
from pavewright.geometry._overlay import shared, without
from pavewright.geometry._vectors import XY, distance

if TYPE_CHECKING:
    from collections.abc import Sequence

_SAGITTA_MM = 0.25
"""How far a chord of a flattened arc may lie from the arc: well below what a saw or a string can show. [mm]"""


_STRAIGHT_MM = 0.001
"""A side that rises less than this is straight: no tape or saw could show it. [mm]"""


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of an outline and the side that leaves it.

    Attributes:
        name: Name of the measured point, or an invented one.
        x_mm: East. [mm]
        y_mm: North. [mm]
        rise_mm: Rise of the arc at mid-chord of the side to the next corner, positive to the right of the direction of
            travel (outward on an outline that runs anticlockwise); zero for a straight side. [mm]
    """

    name: str
    x_mm: float
    y_mm: float
    rise_mm: float = 0.0

    @property
    def xy(self) -> XY:
        """The corner as a plan point."""
        return self.x_mm, self.y_mm


@dataclass(frozen=True, slots=True)
class Side:
    """One side of an outline, from a corner to the next."""

    start: Corner
    end: Corner

    @property
    def name(self) -> str:
        """The side by its two corners."""
        return f"{self.start.name}–{self.end.name}"

    @property
    def chord_mm(self) -> float:
        """Straight distance between the corners. [mm]."""
        return distance(self.start.xy, self.end.xy)

    @property
    def radius_mm(self) -> float:
        """Radius of the arc; infinite for a straight side. [mm]."""
        rise = abs(self.start.rise_mm)
        return radius_from_rise_mm(self.chord_mm, rise) if rise > 0.0 else math.inf

    @property
    def length_mm(self) -> float:
        """Length along the side. [mm]."""
        rise = abs(self.start.rise_mm)
        return arc_length_mm(self.chord_mm, rise) if rise > 0.0 else self.chord_mm

    def points(self) -> tuple[XY, ...]:
        """Return the side as points, without its end, arcs flattened to a quarter of a millimetre."""
        rise = self.start.rise_mm
        if abs(rise) < _STRAIGHT_MM:
            return (self.start.xy,)
        radius = self.radius_mm
        sweep = 4.0 * math.atan2(2.0 * abs(rise), self.chord_mm)
        step = 2.0 * math.acos(max(-1.0, 1.0 - _SAGITTA_MM / radius)) if radius > _SAGITTA_MM else math.pi / 2
        count = max(4, math.ceil(sweep / step))
        (x1, y1), (x2, y2) = self.start.xy, self.end.xy
        ux, uy = (x2 - x1) / self.chord_mm, (y2 - y1) / self.chord_mm
        right_x, right_y = uy, -ux
        sign = math.copysign(1.0, rise)
        depth = radius - abs(rise)
        cx = (x1 + x2) / 2.0 - sign * right_x * depth
        cy = (y1 + y2) / 2.0 - sign * right_y * depth
        first = math.atan2(y1 - cy, x1 - cx)
        turn = sign * sweep
        inner = tuple(
            (cx + radius * math.cos(first + turn * k / count), cy + radius * math.sin(first + turn * k / count))
            for k in range(1, count)
        )
        return (self.start.xy, *inner)


@dataclass(frozen=True, slots=True)
class Ring:
    """A closed line of corners; the side from the last runs back to the first."""

    corners: tuple[Corner, ...]

    @property
    def sides(self) -> tuple[Side, ...]:
        """The sides in order."""
        following = (*self.corners[1:], *self.corners[:1])
        return tuple(Side(start, end) for start, end in zip(self.corners, following, strict=True))

    def points(self) -> tuple[XY, ...]:
        """Return the ring as points, arcs flattened."""
        return tuple(point for side in self.sides for point in side.points())

    def anticlockwise(self) -> Ring:
        """Return the same ring run anticlockwise, rises kept on their own sides."""
        points = self.points()
        doubled = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True))
        if doubled >= 0.0:
            return self
        # the side that leaves a corner on the way back is the one that led to it before
        led_to = (self.corners[-1], *self.corners[:-1])
        turned = [
            Corner(corner.name, corner.x_mm, corner.y_mm, -before.rise_mm)
            for corner, before in zip(self.corners, led_to, strict=True)
        ]
        return Ring(tuple(reversed(turned)))


@dataclass(frozen=True)
class Shape:
    """A plan shape: one outer ring of points and holes, arcs already flattened.

    Attributes:
        outer: Points of the outer ring, anticlockwise, first not repeated. [mm]
        holes: Rings of holes, clockwise. [mm]
    """

    outer: tuple[XY, ...]
    holes: tuple[tuple[XY, ...], ...] = ()

    @cached_property
    def polygon(self) -> Polygon:
        """The shape for overlay work, prepared."""
        polygon = Polygon(self.outer, self.holes)
        shapely.prepare(polygon)
        return polygon

    @property
    def area_m2(self) -> float:
        """Area. [m²]."""
        return units.mm2_to_m2(float(self.polygon.area))

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Min x, min y, max x, max y. [mm]."""
        x1, y1, x2, y2 = self.polygon.bounds
        return float(x1), float(y1), float(x2), float(y2)

    @property
    def centre_mm(self) -> XY:
        """A point inside, near the middle. [mm]."""
        centroid = self.polygon.centroid
        point = centroid if self.polygon.contains(centroid) else self.polygon.representative_point()
        return float(point.x), float(point.y)

    def contains(self, point: XY, slack_mm: float = 1e-6) -> bool:
        """Return whether a point lies in the shape or on its edge; far away the box alone says that it does not."""
        (x, y), (min_x, min_y, max_x, max_y) = point, self._box
        if x < min_x - slack_mm or x > max_x + slack_mm or y < min_y - slack_mm or y > max_y + slack_mm:
            return False
        return bool(self.polygon.distance(shapely.Point(point)) <= slack_mm)

    @cached_property
    def _box(self) -> tuple[float, float, float, float]:
        return self.bounds_mm


def shape_from_polygon(polygon: Polygon) -> Shape:
    """Return a shapely polygon as a shape, rings oriented and closing points dropped."""
    oriented = shapely.geometry.polygon.orient(polygon)
    return Shape(
        outer=tuple((float(x), float(y)) for x, y in oriented.exterior.coords[:-1]),
        holes=tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in oriented.interiors),
    )


def shapes_from_polygons(polygons: Sequence[Polygon]) -> list[Shape]:
    """Return many shapely polygons as shapes at once, as each would be by itself."""
    if not len(polygons):
        return []
    _, points, (starts, firsts) = shapely.to_ragged_array(np.asarray(polygons, dtype=object))
    # twice the area of each ring, taken about its first point so that no place is too far away
    x, y = (points - np.repeat(points[starts[:-1]], np.diff(starts), axis=0)).T
    around = np.add.reduceat(x * np.roll(y, -1) - np.roll(x, -1) * y, starts[:-1])
    placed = list(zip(*points.T.tolist(), strict=True))
    found = []
    for first, last in itertools.pairwise(firsts.tolist()):
        rings = []
        for ring in range(first, last):
            line = placed[starts[ring] : starts[ring + 1]]
            forth = around[ring] >= 0.0 if ring == first else around[ring] <= 0.0
            rings.append(tuple((line if forth else line[::-1])[:-1]))
        found.append(Shape(rings[0], tuple(rings[1:])))
    return found


def outline_faults(outer: Ring, holes: tuple[Ring, ...] = ()) -> tuple[str, ...]:
    """Return what is wrong with an outline, each as a sentence; empty when it is sound."""
    few = len(outer.corners)
    if few < 2 or (few < 3 and not any(corner.rise_mm for corner in outer.corners)):  # noqa: PLR2004
        return ("An outline needs at least three corners.",)
    same = tuple(
        f"Corners {side.name} stand on the same point: measure one of them again."
        for side in outer.sides
        if side.chord_mm == 0.0
    )
    if same:
        return same
    crossing = _crossing_sides(outer)
    if crossing:
        first, second = crossing
        return (f"Side {first} crosses side {second}: check the order of the corners and measure those tapes again.",)
    polygon = Polygon(outer.points())
    if not polygon.is_valid or polygon.area == 0.0:
        return ("The outline touches itself or has no area: check the order of its corners.",)
    return _hole_faults(polygon, [Polygon(hole.points()) for hole in holes])


def _hole_faults(polygon: Polygon, holes: list[Polygon]) -> tuple[str, ...]:
    """Return what is wrong with the holes of a sound outline, each as a sentence."""
    faults: list[str] = []
    for number, hole in enumerate(holes, start=1):
        if not hole.is_valid or hole.area == 0.0:
            faults.append(f"Hole {number} crosses itself or has no area: measure its corners again.")
        elif not polygon.covers(hole):
            faults.append(f"Hole {number} lies outside the outline or over its edge: measure where it stands again.")
    if faults:
        return tuple(faults)
    faults.extend(
        f"Holes {first + 1} and {second + 1} overlap: measure where they stand again."
        for first, second in combinations(range(len(holes)), 2)
        if shared(holes[first], holes[second]).area > 0
    )
    if not faults and holes and isinstance(without(polygon, MultiPolygon(holes)), MultiPolygon):
        faults.append("The holes cut the outline into separate parts: enter each part as its own area.")
    return tuple(faults)


def _crossing_sides(ring: Ring) -> tuple[str, str] | None:
    """Return the names of two sides that cross away from a shared corner."""
    lines = [LineString((*side.points(), side.end.xy)) for side in ring.sides]
    count = len(lines)
    for first in range(count):
        for second in range(first + 1, count):
            beside = second - first == 1 or (first == 0 and second == count - 1)
            if lines[first].crosses(lines[second]) and not beside:
                return ring.sides[first].name, ring.sides[second].name
            if beside and count > 2 and lines[first].intersection(lines[second]).geom_type != "Point":  # noqa: PLR2004
                return ring.sides[first].name, ring.sides[second].name
    return None
