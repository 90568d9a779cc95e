"""Templates: cut pieces as offsets from a straight edge, to be marked on a unit with a rule and a pencil."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

import shapely
from shapely.affinity import rotate, translate

from pavewright.laying._pieces import CURVE_DEG
from pavewright.laying._types import Ordinate, PieceKind, Template

if TYPE_CHECKING:
    from collections.abc import Iterator

    from shapely.geometry import Polygon

    from pavewright.geometry import XY
    from pavewright.laying._types import LaidArea, Piece

_SAME_MM = 0.05
"""Boxes that differ by less are the same. [mm]"""
_INSIDE_MM = 0.01
"""The first and the last offset are read this far inside the box, where an edge may stand upright. [mm]"""
_FLAT_MM = 1.0
"""A bow flatter than this is cut straight: the joint takes it up. [mm]"""
_STRAIGHT_DEG = 0.05
"""A point that turns less is no corner. [deg]"""
_SQUARE_PART = 0.998
"""A piece that fills its box to this part is square: its two sizes tell all. [-]"""
_MOST_SIDES = 24
"""So many of the longest sides are tried for the direction of the unit."""


def wants_template(piece: Piece) -> bool:
    """Return whether a piece has an inner corner or a hole, or a curve that a straight cut does not meet."""
    return piece.kind is PieceKind.CUT and (piece.notched or (piece.curved and _is_bent(piece.shape.polygon)))


def is_skew(piece: Piece) -> bool:
    """Return whether a piece has straight cuts only, or such as may be straight, of which one is not square."""
    if piece.kind is PieceKind.WHOLE or wants_template(piece):
        return False
    return piece.shape.polygon.area < _SQUARE_PART * piece.along_mm * piece.across_mm


def template_of(laid: LaidArea, piece: Piece, every_mm: float) -> Template:
    """Return a piece as it lies in its box, seen from above: its corners, and offsets across from the edge of the box.

    Args:
        laid: The laying plan to which the piece belongs.
        piece: The piece.
        every_mm: Distance from offset to offset. [mm]

    Valid for: every_mm > 0. Offsets are taken of pieces with curves or holes only; corners tell of all others.
    """
    polygon = _in_its_box(piece, laid.bearing_deg)
    _, _, along, across = polygon.bounds
    ordinates: tuple[Ordinate, ...] = ()
    if polygon.interiors or (piece.curved and _is_bent(polygon)):
        steps = math.ceil(along / every_mm - 1e-6)
        places = [*(step * every_mm for step in range(steps)), along]
        ordinates = tuple(Ordinate(at, _spans(polygon, at, along, across)) for at in places)
    rings = tuple(
        tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1])
        for ring in (polygon.exterior, *polygon.interiors)
    )
    corners = tuple(corner for ring in rings for corner in _corners(ring, curved=bool(ordinates)))
    return Template(piece.number, piece.unit, along, across, rings, corners, ordinates)


def _in_its_box(piece: Piece, bearing_deg: float) -> Polygon:
    """Return the outline turned so that the length of its unit runs along x, its box in the origin."""
    outline = piece.shape.polygon
    best: tuple[float, Polygon] | None = None
    for turn in _turns(outline, bearing_deg):
        turned = rotate(outline, turn, origin=(0.0, 0.0))
        x1, y1, x2, y2 = turned.bounds
        off = max(abs(x2 - x1 - piece.along_mm), abs(y2 - y1 - piece.across_mm))
        if best is None or off < best[0] - _SAME_MM:
            best = off, translate(turned, -x1, -y1)
        if off < _SAME_MM:
            break
    assert best is not None  # noqa: S101 - the courses themselves give a first turn
    return shapely.geometry.polygon.orient(best[1])


def _turns(outline: Polygon, bearing_deg: float) -> Iterator[float]:
    """Give turns to try: the courses, square to them, then each long side of the outline. [deg]."""
    yield from (bearing_deg - 90.0, bearing_deg)
    points = list(outline.exterior.coords)
    sides = sorted(itertools.pairwise(points), key=lambda side: -math.dist(*side))
    for (ax, ay), (bx, by) in sides[:_MOST_SIDES]:
        lies = math.degrees(math.atan2(by - ay, bx - ax))
        yield from (-lies, 90.0 - lies)


def _spans(polygon: Polygon, at_mm: float, along_mm: float, across_mm: float) -> tuple[XY, ...]:
    """Return from where to where a piece reaches across, at a place along it. [mm]."""
    x = min(max(at_mm, _INSIDE_MM), along_mm - _INSIDE_MM)
    met = shapely.intersection(polygon, shapely.LineString([(x, -1.0), (x, across_mm + 1.0)]))
    spans = [shapely.bounds(part).tolist() for part in shapely.get_parts(met) if part.length > 0.0]
    return tuple(sorted((y1, y2) for _, y1, _, y2 in spans))


def _corners(ring: tuple[XY, ...], *, curved: bool) -> tuple[XY, ...]:
    """Return the corners of a ring: points of a curve are none, and a bow too flat to matter has none."""
    straight = _straightened(ring)
    turns = _turns_deg(straight)
    least = CURVE_DEG if curved else _STRAIGHT_DEG
    return tuple(corner for corner, turn in zip(straight, turns, strict=True) if abs(turn) >= least)


def _is_bent(outline: Polygon) -> bool:
    """Return whether an outline, flat bows made straight, still turns a little at two points or more: it is a curve.

    A single such point is where two straight cuts meet, or a bow so small that two straight cuts follow it.
    """
    straight = _straightened(tuple((float(x), float(y)) for x, y in list(outline.exterior.coords)[:-1]))
    return sum(_STRAIGHT_DEG <= abs(turn) < CURVE_DEG for turn in _turns_deg(straight)) > 1


def _straightened(ring: tuple[XY, ...]) -> tuple[XY, ...]:
    """Return a ring without points that lie so near to a straight line that a straight cut takes them in."""
    turns = [abs(turn) for turn in _turns_deg(ring)]
    first = turns.index(max(turns))  # a point that surely stays
    line = shapely.LineString((*ring[first:], *ring[: first + 1]))
    kept = shapely.get_coordinates(shapely.simplify(line, _FLAT_MM))[:-1]
    return tuple((float(x), float(y)) for x, y in kept)


def _turns_deg(ring: tuple[XY, ...]) -> list[float]:
    """Return the turn at each point of a ring, positive to the left. [deg]."""
    found = []
    for number, (bx, by) in enumerate(ring):
        (ax, ay), (cx, cy) = ring[number - 1], ring[(number + 1) % len(ring)]
        cross = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        found.append(math.degrees(math.atan2(cross, (bx - ax) * (cx - bx) + (by - ay) * (cy - by))))
    return found
