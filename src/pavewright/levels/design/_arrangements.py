"""Ways to fold a surface: one plane, a valley or ridge, planes to a gully, a mitre at a house corner."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon

from pavewright import units
from pavewright.geometry import along_and_offset, distance, split, unit_vector
from pavewright.job import Folding

if TYPE_CHECKING:
    from pavewright.geometry import XY

_ON_MM = 1.0
"""A point this near to a line lies on it. [mm]"""
_FILLS = 1e-6
"""Facets have to cover the area to this part of it."""
_REFLEX_DEG = 5.0
"""A corner that turns inward by less is no house corner. [deg]"""


@dataclass(frozen=True)
class FacetWish:
    """A facet before it has its levels.

    Attributes:
        outline: Its outline in plan. [mm]
        direction: Direction in which it has to fall, length one.
        target: Places that have to be its lowest: a gully, the ends of a channel or an edge; may be empty.
    """

    outline: tuple[XY, ...]
    direction: XY
    target: tuple[XY, ...] = ()

    @cached_property
    def polygon(self) -> Polygon:
        """Its outline as a shape."""
        return Polygon(self.outline)

    @cached_property
    def middle(self) -> XY:
        """Its centre of area. [mm]."""
        centre = self.polygon.centroid
        return float(centre.x), float(centre.y)


@dataclass(frozen=True)
class Arrangement:
    """A way to fold a surface.

    Attributes:
        kind: Which way it is.
        words: What it is, for a person.
        facets: Its facets.
        valleys: Lines that need a fall of their own, from the high end to the low end.
        steps: Lines along which the first facet stands above the second by one riser, with its least and greatest
            height. [mm]
        may_turn: Whether the direction of a facet may turn to its own steepest fall while it is designed.
    """

    kind: Folding
    words: str
    facets: tuple[FacetWish, ...]
    valleys: tuple[tuple[XY, XY], ...] = ()
    steps: tuple[tuple[XY, XY, float, float], ...] = ()
    may_turn: bool = True

    @property
    def folds_m(self) -> float:
        """Length of the lines along which facets meet. [m]."""
        outlines = [facet.polygon for facet in self.facets]
        total = sum(outline.length for outline in outlines) - shapely.union_all(outlines).length
        return units.mm_to_m(total / 2.0)

    @cached_property
    def joins(self) -> tuple[tuple[int, int, XY], ...]:
        """Two facets and a corner of the first that lies on the edge of the second, each pair and place once."""
        found = []
        for number, facet in enumerate(self.facets):
            places = shapely.points(facet.outline)
            for other, beside in enumerate(self.facets):
                if other == number:
                    continue
                touched = shapely.distance(beside.polygon, places) < _ON_MM
                for corner, touching in zip(facet.outline, touched.tolist(), strict=True):
                    mutual = any(distance(corner, each) < _ON_MM for each in beside.outline)
                    if touching and not (mutual and other < number):
                        found.append((number, other, corner))
        return tuple(found)

    def facet_under(self, at: XY) -> int:
        """Return the number of the facet under a place, or of the nearest one."""
        place = Point(at)
        away = [facet.polygon.distance(place) for facet in self.facets]
        return away.index(min(away))

    def facets_under(self, places: np.ndarray) -> np.ndarray:
        """Return the number of the facet under each of many places, shape (n, 2) in and (n,) out."""
        if len(self.facets) == 1:
            return np.zeros(len(places), dtype=np.intp)
        points = shapely.points(places)
        away = np.array([shapely.distance(facet.polygon, points) for facet in self.facets])
        return np.asarray(away.argmin(axis=0))


def one_plane(outline: tuple[XY, ...], direction: XY) -> Arrangement:
    """Return a single plane that falls in a direction."""
    return Arrangement(Folding.ONE_PLANE, "one plane", (FacetWish(outline, direction),), may_turn=False)


def valley(outline: tuple[XY, ...], at: XY, along: XY, name: str) -> Arrangement | None:
    """Return two planes that fall to a line through an inlet; None where the line does not cut the area in two."""
    parts = split(Polygon(outline), (at, (at[0] + along[0], at[1] + along[1])))
    if len(parts) != 2:  # noqa: PLR2004
        return None
    across = -along[1], along[0]
    facets = tuple(FacetWish(part, _towards(part, at, across)) for part in parts)
    high, low = _ends(outline, at, along)
    return Arrangement(Folding.VALLEY, f"two planes with a valley through {name}", facets, ((high, low),))


def crossed_valley(outline: tuple[XY, ...], at: XY, along: XY, name: str) -> Arrangement | None:
    """Return four planes that meet at an inlet, with a valley that falls to it from both ends."""
    parts = split(Polygon(outline), (at, (at[0] + along[0], at[1] + along[1])))
    across = -along[1], along[0]
    square = at, (at[0] + across[0], at[1] + across[1])
    pieces = [piece for part in parts for piece in split(Polygon(part), square)]
    facets = [FacetWish(piece, _towards(piece, at, across), (at,)) for piece in pieces]
    if len(facets) != 4:  # noqa: PLR2004
        return None
    ends = [end for end in _line_ends(outline, at, along) if distance(end, at) > _ON_MM]
    valleys = tuple((end, at) for end in ends)
    return Arrangement(Folding.CROSSED_VALLEY, f"four planes that meet at {name}", tuple(facets), valleys)


def to_gully(outline: tuple[XY, ...], at: XY, name: str) -> Arrangement | None:
    """Return a triangle from each side to an inlet; None where the inlet does not see every side."""
    facets = []
    for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
        triangle = (start, end, at)
        if Polygon(triangle).area <= _ON_MM:
            continue
        ux, uy = unit_vector(start, end)
        facets.append(FacetWish(triangle, _towards(triangle, at, (-uy, ux)), (at,)))
    whole = Polygon(outline)
    covered = shapely.union_all([facet.polygon for facet in facets])
    total = sum(facet.polygon.area for facet in facets)
    if covered.symmetric_difference(whole).area > _FILLS * whole.area or total > whole.area * (1.0 + _FILLS):
        return None
    return Arrangement(Folding.TO_GULLY, f"a plane from each side to {name}", tuple(facets))


def can_lead_to(kind: Folding, outline: tuple[XY, ...], at: XY, direction: XY) -> bool:
    """Return whether an outline can be folded to an inlet in a way: an inner corner may hide sides from it.

    Args:
        kind: Which way: crossed valleys, or a plane from each side.
        outline: Outline of the area. [mm]
        at: Where the inlet stands. [mm]
        direction: Main direction of fall, length one.
    """
    if kind is Folding.TO_GULLY:
        return to_gully(outline, at, "") is not None
    return crossed_valley(outline, at, (-direction[1], direction[0]), "") is not None


def ridge(outline: tuple[XY, ...], along: XY) -> Arrangement | None:
    """Return two planes that fall away from a line through the middle."""
    middle = Polygon(outline).centroid
    at = float(middle.x), float(middle.y)
    parts = split(Polygon(outline), (at, (at[0] + along[0], at[1] + along[1])))
    if len(parts) != 2:  # noqa: PLR2004
        return None
    across = -along[1], along[0]
    facets = []
    for part in parts:
        dx, dy = _towards(part, at, across)
        facets.append(FacetWish(part, (-dx, -dy)))
    return Arrangement(Folding.RIDGE, "two planes from a ridge in the middle", tuple(facets))


def stepped(outline: tuple[XY, ...], direction: XY, min_mm: float, max_mm: float) -> Arrangement | None:
    """Return two planes that fall the same way, split half way by a step of one riser square to the fall."""
    along = -direction[1], direction[0]
    reaches = [x * direction[0] + y * direction[1] for x, y in outline]
    middle = Polygon(outline).representative_point()
    off = (min(reaches) + max(reaches)) / 2.0 - (middle.x * direction[0] + middle.y * direction[1])
    at = middle.x + direction[0] * off, middle.y + direction[1] * off
    parts = split(Polygon(outline), (at, (at[0] + along[0], at[1] + along[1])))
    if len(parts) != 2:  # noqa: PLR2004
        return None

    def reach(part: tuple[XY, ...]) -> float:
        centre = Polygon(part).centroid
        return centre.x * direction[0] + centre.y * direction[1]

    upper, lower = sorted(parts, key=reach)
    ends = [corner for corner in upper if touches(corner, FacetWish(lower, direction))]
    if len(ends) < 2:  # noqa: PLR2004
        return None
    start, end = max(itertools.combinations(ends, 2), key=lambda pair: distance(*pair))
    facets = (FacetWish(upper, direction), FacetWish(lower, direction))
    words = "two planes with a step between them"
    return Arrangement(Folding.STEPPED, words, facets, steps=((start, end, min_mm, max_mm),), may_turn=False)


def mitres(outline: tuple[XY, ...]) -> list[Arrangement]:
    """Return two planes for each inner corner: each falls away from its own side, and they meet in the mitre."""
    found = []
    whole = Polygon(outline)
    ring = outline if whole.exterior.is_ccw else outline[::-1]
    for number, corner in enumerate(ring):
        before, after = ring[number - 1], ring[(number + 1) % len(ring)]
        ux, uy = unit_vector(before, corner)
        vx, vy = unit_vector(corner, after)
        if ux * vy - uy * vx >= -math.sin(math.radians(_REFLEX_DEG)):
            continue
        inward = (-uy - vy, ux + vx)
        far = corner[0] + inward[0] * whole.length, corner[1] + inward[1] * whole.length
        cut = LineString([corner, far]).intersection(whole)
        line = next((part for part in shapely.get_parts(cut) if part.distance(Point(corner)) < _ON_MM), None)
        if line is None or line.length < _ON_MM:
            continue
        end = shapely.get_coordinates(line)[-1]
        parts = _halves(ring, number, (float(end[0]), float(end[1])))
        first, second = parts
        facets = (FacetWish(first, (-uy, ux)), FacetWish(second, (-vy, vx)))
        found.append(Arrangement(Folding.MITRE, "two planes that meet in a mitre at the house corner", facets))
    return found


def _halves(ring: tuple[XY, ...], number: int, end: XY) -> tuple[tuple[XY, ...], tuple[XY, ...]]:
    """Return the two parts of a ring cut from a corner to a point on another side: before the corner, and after it."""
    turned = (*ring[number:], *ring[:number])
    path = [*turned, turned[0]]
    place = next(k for k in range(1, len(path) - 2) if LineString([path[k], path[k + 1]]).distance(Point(end)) < _ON_MM)
    after = _without_doubles((*turned[: place + 1], end))
    before = _without_doubles((turned[0], end, *turned[place + 1 :]))
    return before, after


def _without_doubles(points: tuple[XY, ...]) -> tuple[XY, ...]:
    return tuple(point for number, point in enumerate(points) if distance(point, points[number - 1]) > _ON_MM)


def _towards(part: tuple[XY, ...], at: XY, across: XY) -> XY:
    """Return the direction, square to a line through a point, in which a part has to fall to reach that line."""
    middle = Polygon(part).centroid
    aside = (at[0] - middle.x) * across[0] + (at[1] - middle.y) * across[1]
    sign = math.copysign(1.0, aside)
    return across[0] * sign, across[1] * sign


def _line_ends(outline: tuple[XY, ...], at: XY, along: XY) -> list[XY]:
    """Return where a line through a point of the area leaves it on either side of the point."""
    whole = Polygon(outline)
    reach = whole.length
    found = []
    for sign in (-1.0, 1.0):
        far = at[0] + sign * along[0] * reach, at[1] + sign * along[1] * reach
        cut = LineString([at, far]).intersection(whole)
        parts = [part for part in shapely.get_parts(cut) if part.distance(Point(at)) < _ON_MM]
        ends = shapely.get_coordinates(parts[0])[-1] if parts else at
        found.append((float(ends[0]), float(ends[1])))
    return found


def _ends(outline: tuple[XY, ...], at: XY, along: XY) -> tuple[XY, XY]:
    """Return the ends of a line through an inlet: the one further from it first, which is the high one."""
    first, second = _line_ends(outline, at, along)
    return (first, second) if distance(first, at) >= distance(second, at) else (second, first)


def touches(point: XY, facet: FacetWish) -> bool:
    """Return whether a point lies on the edge of a facet or in it."""
    return bool(facet.polygon.distance(Point(point)) < _ON_MM)


def on_line(point: XY, start: XY, end: XY) -> bool:
    """Return whether a point lies on a stretch of line."""
    along, offset = along_and_offset(start, end, point)
    return abs(offset) < _ON_MM and -_ON_MM < along < distance(start, end) + _ON_MM
