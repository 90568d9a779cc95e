"""Pieces with inner corners laid as two or more with a joint at the corner: through cuts instead of stopped ones."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Polygon

from pavewright.geometry import without
from pavewright.laying.pieces._pieces import CURVE_DEG, is_sliver, is_whole

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.geometry import XY
    from pavewright.laying.pieces._cells import Clipped
    from pavewright.laying.pieces._pieces import Sizes

_MAX_CORNERS = 4
"""A piece with more inner corners than this is cut to a template, whatever is asked for."""
_LITTLE_MM = 0.01
"""Pieces thinner than this are what an overlay leaves. [mm]"""
_NEAR_MM = 1e-3
"""What a line meets this near to its start begins there. [mm]"""
_STRAIGHT_DEG = 1e-3
"""A corner that turns less than this is none. [deg]"""


def split_at_corners(kept: Sequence[Clipped], joint_mm: float, limits: Sequence[Sizes]) -> list[Clipped]:
    """Return parts of units, each with inner corners split along a side of every such corner, a joint between.

    A part stays as it is where it has a hole or a curve, or where parting it would leave a sliver. Of the ways to part
    one the way whose narrowest part is widest is taken.

    Args:
        kept: Parts of units.
        joint_mm: Joint between the two. [mm]
        limits: Limits of each size of unit.
    """
    found: list[Clipped] = []
    for each in kept:
        if each.untouched or is_whole(each, limits[each.size]):
            found.append(each)
            continue
        parts = _parted(each, joint_mm, limits[each.size])
        found += [replace(each, part=part) for part in parts] if parts else [each]
    return found


def _parted(clipped: Clipped, joint_mm: float, limits: Sizes) -> tuple[Polygon, ...]:
    """Return the parts of a part; none where it stays whole."""
    part = clipped.part
    corners = _inner_corners(part)
    if part.interiors or not corners or len(corners) > _MAX_CORNERS:
        return ()
    ways = [way for way in _ways(part, joint_mm, _MAX_CORNERS) if not any(_sliver(clipped, one, limits) for one in way)]
    return max(ways, key=lambda way: (-len(way), _narrowest_mm(clipped, way)), default=())


def _sliver(clipped: Clipped, part: Polygon, limits: Sizes) -> bool:
    return is_sliver(replace(clipped, part=part).on_unit, limits)


def _narrowest_mm(clipped: Clipped, parts: tuple[Polygon, ...]) -> float:
    """Return the least side of the boxes of parts. [mm]."""
    boxes = [replace(clipped, part=part).on_unit.bounds for part in parts]
    return min(min(x2 - x1, y2 - y1) for x1, y1, x2, y2 in boxes)


def _ways(part: Polygon, joint_mm: float, depth: int) -> Iterator[tuple[Polygon, ...]]:
    """Give every way to part a shape at its inner corners, one corner after another."""
    corners = _inner_corners(part)
    if not corners:
        yield (part,)
        return
    if depth == 0:
        return
    before, at, after = corners[0]
    for strip in (_joint(before, at, joint_mm, part), _joint(after, at, -joint_mm, part)):
        left = shapely.get_parts(without(part, strip))
        pieces = [one for one in left if isinstance(one, Polygon) and one.area > _LITTLE_MM * one.length]
        if len(pieces) < 2:  # noqa: PLR2004 - a joint that parts nothing is no way
            continue
        for way in itertools.product(*(tuple(_ways(one, joint_mm, depth - 1)) for one in pieces)):
            yield tuple(itertools.chain.from_iterable(way))


def _joint(start: XY, at: XY, joint_mm: float, part: Polygon) -> Polygon:
    """Return the joint that carries a side on from its inner corner to the far side, on the side of the notch.

    The piece that keeps the side keeps it straight right through. A negative joint lies to the left of the side.
    """
    along = math.dist(start, at)
    ux, uy = (at[0] - start[0]) / along, (at[1] - start[1]) / along
    x, y = at
    ray = shapely.LineString([at, (x + ux * part.length, y + uy * part.length)])
    met = [
        one for one in shapely.get_parts(shapely.intersection(ray, part)) if one.distance(shapely.Point(at)) < _NEAR_MM
    ]
    reach = max((one.length for one in met), default=0.0) + abs(joint_mm)  # past a side that is not square
    nx, ny = uy * joint_mm, -ux * joint_mm
    fx, fy = x + ux * reach, y + uy * reach
    return Polygon([(x, y), (fx, fy), (fx + nx, fy + ny), (x + nx, y + ny)])


def _inner_corners(part: Polygon) -> list[tuple[XY, XY, XY]]:
    """Return the inner corners of an outline, each between its neighbours; none for a part with a curve."""
    points = [(float(x), float(y)) for x, y in shapely.geometry.polygon.orient(part).exterior.coords[:-1]]
    found = []
    for number, (bx, by) in enumerate(points):
        (ax, ay), (cx, cy) = points[number - 1], points[(number + 1) % len(points)]
        cross = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        turn = math.degrees(math.atan2(cross, (bx - ax) * (cx - bx) + (by - ay) * (cy - by)))
        if _STRAIGHT_DEG < abs(turn) < CURVE_DEG:
            return []
        if turn <= -CURVE_DEG:
            found.append(((ax, ay), (bx, by), (cx, cy)))
    return found
