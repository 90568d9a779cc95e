"""Templates: cut pieces as offsets from a straight edge, to be marked on a unit with a rule and a pencil."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

import shapely
from shapely.affinity import rotate, translate

from pavewright.laying._types import PieceKind
from pavewright.laying._types_sheets import Ordinate, Template
from pavewright.laying.pieces import CURVE_DEG

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
_MAX_SIDES = 24
"""So many of the longest sides are tried for the direction of the unit."""


def wants_template(piece: Piece) -> bool:
    """Return whether a piece has an inner corner or a hole, or a curve that a straight cut does not meet."""
    return piece.kind is PieceKind.CUT and (
        piece.notched or (piece.curved and bool(_curve_points(piece.shape.polygon)))
    )


def has_curve(piece: Piece) -> bool:
    """Return whether a piece has a curve that a straight cut does not meet: it is marked by a template at true size."""
    return piece.kind is PieceKind.CUT and bool(_curves(piece.shape.polygon))


def curve_in_its_box(laid: LaidArea, piece: Piece) -> tuple[tuple[XY, ...], ...]:
    """Return the bows of the curves of a piece, three points each, counted from the corner of its box. [mm]."""
    points = _curves(_in_its_box(piece, laid.bearing_deg))
    return tuple(points[first : first + 3] for first in range(0, len(points), 3))


def _curves(outline: Polygon) -> tuple[XY, ...]:
    """Return the points of every curve of an outline and of the holes in it."""
    rings = (outline.exterior, *outline.interiors)
    return tuple(point for ring in rings for point in _curve_points(shapely.Polygon(ring)))


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

    Valid for: every_mm > 0. Offsets are taken of pieces with curves or holes only; corners give all others.
    """
    polygon = _in_its_box(piece, laid.bearing_deg)
    _, _, along, across = polygon.bounds
    curve = _curve_points(polygon) if piece.curved else ()
    upright = bool(curve) and not polygon.interiors and _runs_upright(curve)
    ordinates = _ordinates(polygon, every_mm, upright=upright) if curve or polygon.interiors else ()
    rings = tuple(
        tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1])
        for ring in (polygon.exterior, *polygon.interiors)
    )
    corners = tuple(corner for ring in rings for corner in _corners(ring, curved=bool(ordinates)))
    return Template(piece.number, piece.unit, along, across, rings, corners, ordinates, upright)


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
    for (ax, ay), (bx, by) in sides[:_MAX_SIDES]:
        lies = math.degrees(math.atan2(by - ay, bx - ax))
        yield from (-lies, 90.0 - lies)


def _ordinates(polygon: Polygon, every_mm: float, *, upright: bool) -> tuple[Ordinate, ...]:
    """Return offsets at equal steps along the box, or up it, and at its end."""
    outline = shapely.transform(polygon, lambda points: points[:, ::-1]) if upright else polygon
    _, _, reach, wide = shapely.bounds(outline).tolist()
    steps = math.ceil(reach / every_mm - 1e-6)
    places = [*(step * every_mm for step in range(steps)), reach]
    return tuple(Ordinate(at, _spans(outline, at, reach, wide)) for at in places)


def _spans(outline: shapely.Geometry, at_mm: float, reach_mm: float, wide_mm: float) -> tuple[XY, ...]:
    """Return from where to where a piece reaches across, at a place along it. [mm]."""
    x = min(max(at_mm, _INSIDE_MM), reach_mm - _INSIDE_MM)
    met = shapely.intersection(outline, shapely.LineString([(x, -1.0), (x, wide_mm + 1.0)]))
    spans = [shapely.bounds(part).tolist() for part in shapely.get_parts(met) if part.length > 0.0]
    return tuple(sorted((y1, y2) for _, y1, _, y2 in spans))


def _runs_upright(curve: tuple[XY, ...]) -> bool:
    """Return whether a curve runs further up its box than along it: offsets are then taken from the side."""
    xs, ys = [x for x, _ in curve], [y for _, y in curve]
    return max(ys) - min(ys) > max(xs) - min(xs)


def _corners(ring: tuple[XY, ...], *, curved: bool) -> tuple[XY, ...]:
    """Return the corners of a ring: points of a curve are none, and a bow too flat to matter has none."""
    straight = _straightened(ring)
    turns = _turns_deg(straight)
    least = CURVE_DEG if curved else _STRAIGHT_DEG
    return tuple(corner for corner, turn in zip(straight, turns, strict=True) if abs(turn) >= least)


def _curve_points(outline: Polygon) -> tuple[XY, ...]:
    """Return the points of a curve with the ends of it, flat bows made straight; none where there is no curve.

    A single point that turns a little is where two straight cuts meet, or a bow so small that two straight cuts follow
    it.
    """
    ring = _straightened(tuple((float(x), float(y)) for x, y in list(outline.exterior.coords)[:-1]))
    turns = _turns_deg(ring)
    small = [number for number, turn in enumerate(turns) if _STRAIGHT_DEG <= abs(turn) < CURVE_DEG]
    if len(small) < 2:  # noqa: PLR2004 - one alone is a corner
        return ()
    return tuple(ring[(number + step) % len(ring)] for number in small for step in (-1, 0, 1))


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
