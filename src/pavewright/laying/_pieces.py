"""Pieces: what each part of a unit is, whole or cut, with its size, cut and mass."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.geometry import shape_from_polygon
from pavewright.laying._types import Piece, PieceKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shapely.geometry import Polygon

    from pavewright.job import PavingUnit
    from pavewright.laying._cells import Clipped, Grid
    from pavewright.laying._frame import Frame
    from pavewright.rules import Rulebook

_CURVE_DEG = 12.0
"""A corner that turns less than this is a point of a flattened arc, not a corner. [deg]"""
_STRAIGHT_DEG = 1e-3
"""A corner that turns less than this is no corner at all. [deg]"""


@dataclass(frozen=True, slots=True)
class Sizes:
    """Limits that decide what a part of a unit is. [mm]."""

    absorbed_mm: float
    sliver_along_mm: float
    sliver_across_mm: float


def sizes(grid: Grid, rules: Rulebook) -> Sizes:
    """Return the limits for a unit: a third of it where that is less than the rule's smallest piece."""
    least = rules.value("laying.sliver_mm")
    return Sizes(rules.value("laying.absorbed_mm"), min(least, grid.along_mm / 3.0), min(least, grid.across_mm / 3.0))


def is_crumb(clipped: Clipped, limits: Sizes) -> bool:
    """Return whether a part is so narrow that the joints take it up."""
    return not clipped.untouched and bool(clipped.part.buffer(-limits.absorbed_mm / 2.0).is_empty)


def is_whole(clipped: Clipped, grid: Grid, limits: Sizes) -> bool:
    """Return whether nothing is missing from a unit but what the joints take up."""
    if clipped.untouched:
        return True
    if clipped.part.interiors:
        return False
    box = shapely.box(clipped.x_mm, clipped.y_mm, clipped.x_mm + grid.along_mm, clipped.y_mm + grid.across_mm)
    missing = box.area - clipped.part.area
    if missing > limits.absorbed_mm * 2.0 * (grid.along_mm + grid.across_mm):
        return False
    return missing <= 1.0 or bool(shapely.difference(box, clipped.part).buffer(-limits.absorbed_mm / 2.0).is_empty)


def is_sliver(part: Polygon, limits: Sizes) -> bool:
    """Return whether a cut part is narrower than the smallest piece worth laying, measured whichever way it lies."""
    x1, y1, x2, y2 = part.bounds
    if x2 - x1 < limits.sliver_along_mm or y2 - y1 < limits.sliver_across_mm:
        return True
    return narrowest_mm(part) < min(limits.sliver_along_mm, limits.sliver_across_mm)


def narrowest_mm(part: Polygon) -> float:
    """Return the width of a part, measured whichever way it lies least wide. [mm].

    Source: definition, the least width of a convex shape is square to one of its sides
    """
    points = shapely.get_coordinates(part.convex_hull)[:-1]
    edges = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    edges, starts, lengths = edges[lengths > _ON_EDGE_MM], points[lengths > _ON_EDGE_MM], lengths[lengths > _ON_EDGE_MM]
    if not len(edges):
        return 0.0
    away = points[None, :, :] - starts[:, None, :]
    heights = np.abs(edges[:, None, 0] * away[:, :, 1] - edges[:, None, 1] * away[:, :, 0]) / lengths[:, None]
    return float(heights.max(axis=1).min())


def number_pieces(
    kept: Sequence[Clipped], grid: Grid, frame: Frame, unit: PavingUnit, rules: Rulebook
) -> tuple[tuple[Piece, ...], int]:
    """Return pieces numbered outward from the starting corner, and the number of courses.

    Course by course from the start, in each course from the starting end.
    """
    limits = sizes(grid, rules)
    sign = -1.0 if grid.from_right else 1.0
    in_turn = sorted(kept, key=lambda each: (each.course, sign * each.x_mm, sign * each.part.centroid.x, each.y_mm))
    present = {course: number for number, course in enumerate(sorted({each.course for each in kept}), start=1)}
    pieces: list[Piece] = []
    place = 0
    before: int | None = None
    for number, each in enumerate(in_turn, start=1):
        place = place + 1 if each.course == before else 1
        before = each.course
        pieces.append(_piece(number, present[each.course], place, each, grid, frame, unit, limits))
    return tuple(pieces), len(present)


def _piece(
    number: int,
    course: int,
    place: int,
    clipped: Clipped,
    grid: Grid,
    frame: Frame,
    unit: PavingUnit,
    limits: Sizes,
) -> Piece:
    x1, y1, x2, y2 = clipped.part.bounds
    whole = is_whole(clipped, grid, limits)
    notched, curved = (False, False) if whole else _notched_and_curved(clipped.part)
    area_m2 = units.mm2_to_m2(clipped.part.area)
    unit_m2 = units.mm2_to_m2(unit.length_mm * unit.width_mm)
    return Piece(
        number=number,
        course=course,
        place=place,
        kind=PieceKind.WHOLE if whole else PieceKind.CUT,
        shape=shape_from_polygon(frame.out_of_polygon(clipped.part)),
        along_mm=x2 - x1,
        across_mm=y2 - y1,
        frame_x_mm=x1 - clipped.x_mm,
        frame_y_mm=y1 - clipped.y_mm,
        area_m2=area_m2,
        kg=unit.kg_each if whole else unit.kg_each * area_m2 / unit_m2,
        notched=notched,
        curved=curved,
        sliver=not whole and is_sliver(clipped.part, limits),
        saw_m=0.0 if whole else units.mm_to_m(_saw_mm(clipped, grid)),
    )


def _saw_mm(clipped: Clipped, grid: Grid) -> float:
    """Return the length of outline of a part that is not an edge of its unit. [mm]."""
    x1, y1 = clipped.x_mm, clipped.y_mm
    x2, y2 = x1 + grid.along_mm, y1 + grid.across_mm
    sawn = 0.0
    for ring in (clipped.part.exterior, *clipped.part.interiors):
        points = list(ring.coords)
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            on_edge = any(
                abs(a - edge) < _ON_EDGE_MM and abs(b - edge) < _ON_EDGE_MM
                for a, b, edge in ((ax, bx, x1), (ax, bx, x2), (ay, by, y1), (ay, by, y2))
            )
            if not on_edge:
                sawn += math.hypot(bx - ax, by - ay)
    return sawn


_ON_EDGE_MM = 1e-3
"""Slack of coordinates that were turned into the frame. [mm]"""


def _notched_and_curved(part: Polygon) -> tuple[bool, bool]:
    """Return whether a part has an inner corner, which takes a stopped cut, and whether it has a curved edge."""
    notched, curved = bool(part.interiors), False
    points = list(shapely.geometry.polygon.orient(part).exterior.coords[:-1])
    count = len(points)
    for k in range(count):
        (ax, ay), (bx, by), (cx, cy) = points[k - 1], points[k], points[(k + 1) % count]
        turn = math.degrees(
            math.atan2((bx - ax) * (cy - by) - (by - ay) * (cx - bx), (bx - ax) * (cx - bx) + (by - ay) * (cy - by))
        )
        if _STRAIGHT_DEG < abs(turn) < _CURVE_DEG:
            curved = True
        elif turn <= -_CURVE_DEG:
            notched = True
    return notched, curved
