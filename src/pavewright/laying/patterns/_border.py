"""Borders: courses that follow the outline, mitred or butted at its corners, and the field that they leave inside.

Each side of the outline claims a strip as deep as the border; where two sides meet, the line of the mitre or of the
butt joint parts their strips. What no strip claims is the field, so that nothing of an area is lost or covered twice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from pavewright.geometry import joined, shared, without
from pavewright.job import BorderCorner
from pavewright.laying.patterns._curved_rows import curved_row
from pavewright.laying.patterns._side_units import row_joint_mm, side_units
from pavewright.laying.patterns._sides import OutlineSide, beyond, sides_of, square_enough

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.geometry import XY
    from pavewright.laying.patterns._curved_rows import CurvedRow
    from pavewright.laying.patterns._edging import Ring
    from pavewright.laying.patterns._placing import Placing

_CRUMB_MM2 = 100.0
"""A part of the field that is smaller than a fingernail is none. [mm²]"""
_TOUCH_MM = 0.01
"""A part of a strip belongs to its side where it comes so near to it. [mm]"""


@dataclass(frozen=True)
class Bordered:
    """An area with a border.

    Attributes:
        strips: What is to be covered and the units over it, in the order of laying.
        field: What the border leaves to the pattern, in one part or several.
        joints_mm: Joint between the units along each straight side. [mm]
        curved: Joints of each course along each curved side.
    """

    strips: tuple[tuple[Polygon, Placing], ...]
    field: tuple[Polygon, ...]
    joints_mm: tuple[float, ...] = ()
    curved: tuple[CurvedRow, ...] = ()


def bordered(region: Polygon, ring: Ring, start: XY) -> Bordered:
    """Return a border round an area, begun at the corner nearest to a starting point, and the field inside it.

    Source: definition
    """
    sides = sides_of(region)
    away = [float(np.hypot(*(side.points[0] - np.array(start)))) for side in sides]
    nearest = away.index(min(away))
    sides = (*sides[nearest:], *sides[:nearest])
    claims = _claims(region, sides, ring)
    strips: list[tuple[Polygon, Placing]] = []
    order = 0.0
    for place, side in enumerate(sides):
        bounds = _ends(sides, place, ring, gap_mm=ring.joint_mm / 2.0)
        for course in range(ring.courses):
            band = beyond(side, course * (ring.course_mm + ring.joint_mm), ring.course_mm, ring.depth_mm, bounds)
            for part in _polygons(shared(band, claims[place])):
                strips.extend(
                    (part_of, units) for part_of, units in side_units(part, sides, place, ring, course, order)
                )
        order += side.length_mm
    left = without(region, _surface(joined(claims)))
    field = tuple(part for part in _polygons(left) if part.area > _CRUMB_MM2)
    joints = tuple(row_joint_mm(sides, place, ring) for place, side in enumerate(sides) if side.straight)
    curves = [side for side in sides if not side.straight]
    curved = tuple(curved_row(side, ring, course) for side in curves for course in range(ring.courses))
    return Bordered(tuple(strips), field, joints, curved)


def _claims(region: Polygon, sides: tuple[OutlineSide, ...], ring: Ring) -> list[shapely.Geometry]:
    """Return what each side claims of an area, longer sides first where two claim the same."""
    found: dict[int, shapely.Geometry] = {}
    taken: shapely.Geometry = Polygon()
    for place in sorted(range(len(sides)), key=lambda each: (-sides[each].length_mm, each)):
        side = sides[place]
        whole = beyond(side, 0.0, ring.depth_mm, ring.depth_mm, _ends(sides, place, ring, gap_mm=0.0))
        line = LineString(side.points).buffer(_TOUCH_MM)
        parts = [part for part in _polygons(without(_surface(shared(whole, region)), taken)) if part.intersects(line)]
        found[place] = joined(parts) if parts else Polygon()
        taken = _surface(joined([taken, found[place]]))
    return [found[place] for place in range(len(sides))]


def _ends(
    sides: tuple[OutlineSide, ...], place: int, ring: Ring, *, gap_mm: float
) -> tuple[tuple[np.ndarray, float], ...]:
    """Return half-planes that part a strip from its neighbours: points p with normal · p at most the number.

    Args:
        sides: All sides, anticlockwise.
        place: Which of them.
        ring: The border.
        gap_mm: Half the joint left at a mitre; zero for the line of the mitre itself. [mm]
    """
    if len(sides) == 1:
        return ()
    before, side, after = sides[place - 1], sides[place], sides[(place + 1) % len(sides)]
    butted = ring.corner is BorderCorner.BUTTED
    return (
        _parted(side.first_normal, before.last_normal, side.points[0], ring, gap_mm, runs_through=False, butted=butted),
        _parted(side.last_normal, after.first_normal, side.points[-1], ring, gap_mm, runs_through=True, butted=butted),
    )


def _parted(
    mine: np.ndarray,
    other: np.ndarray,
    corner: np.ndarray,
    ring: Ring,
    gap_mm: float,
    *,
    runs_through: bool,
    butted: bool,
) -> tuple[np.ndarray, float]:
    """Return the half-plane of a side at a corner.

    With heights h over the two sides, a strip keeps at a mitre what lies nearer to its own side on an outer corner,
    and nearer to the other on an inner one. At a butt the side that arrives runs through to the other's line, and the
    side that leaves starts behind its depth. Corners far from square are mitred in any case.

    Source: definition
    """
    first, second = (mine, other) if runs_through else (other, mine)
    inner = float(first[0] * second[1] - first[1] * second[0]) < 0.0
    if not (butted and square_enough(first, second)):
        normal = (other - mine) if inner else (mine - other)
        normal /= np.hypot(*normal)
        return normal, float(normal @ corner) - gap_mm
    joint = ring.joint_mm if gap_mm else 0.0
    if runs_through:
        if inner:
            return other, float(other @ corner) + ring.depth_mm - joint
        return -other, float(-other @ corner)
    if inner:
        return other, float(other @ corner) - joint
    return -other, float(-other @ corner) - ring.depth_mm


def _surface(shape: shapely.Geometry) -> shapely.Geometry:
    """Return a shape without the points and lines where an overlay only touched."""
    return shapely.MultiPolygon(list(_polygons(shape)))


def _polygons(shape: shapely.Geometry) -> Iterator[Polygon]:
    """Give the polygons of a shape."""
    for part in shapely.get_parts(shape):
        if isinstance(part, Polygon) and part.area > 0.0:
            yield part
        elif not isinstance(part, Polygon) and shapely.get_num_geometries(part) > 1:
            yield from _polygons(part)
