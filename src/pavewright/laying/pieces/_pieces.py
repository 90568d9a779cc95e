"""Pieces: what each part of a unit is, whole or cut, with its size, cut and mass."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.geometry import shapes_from_polygons, without
from pavewright.laying._types import Piece, PieceKind
from pavewright.laying.pieces._necks import necks_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shapely.geometry import Polygon

    from pavewright.geometry import Shape
    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.pieces._cells import Clipped
    from pavewright.laying.pieces._frame import Frame

CURVE_DEG = 12.0
"""A corner that turns less than this is a point of a flattened arc, not a corner. [deg]"""
_STRAIGHT_DEG = 1e-3
"""A corner that turns less than this is no corner at all. [deg]"""


@dataclass(frozen=True, slots=True)
class Sizes:
    """Limits that decide what a part of a unit is. [mm]."""

    absorbed_mm: float
    sliver_along_mm: float
    sliver_across_mm: float
    min_width_mm: float


def sizes(unit: PavingUnit, known: LayingFigures) -> Sizes:
    """Return the limits for a unit: a third of it where that is less than the rule's smallest piece."""
    wanted = known.sliver_mm.value
    narrowest = known.min_width[unit.kind].value
    return Sizes(
        known.absorbed_mm.value,
        min(wanted, unit.length_mm / 3.0),
        min(wanted, unit.width_mm / 3.0),
        min(narrowest, unit.length_mm / 3.0, unit.width_mm / 3.0),
    )


def is_crumb(clipped: Clipped, limits: Sizes) -> bool:
    """Return whether a part is so narrow that the joints take it up."""
    if clipped.untouched or clipped.part.area > limits.absorbed_mm * clipped.part.length:
        return False  # half the area at most goes where so little is taken off all round
    return bool(clipped.part.buffer(-limits.absorbed_mm / 2.0).is_empty)


def is_whole(clipped: Clipped, limits: Sizes) -> bool:
    """Return whether nothing is missing from a unit but what the joints take up."""
    if clipped.untouched:
        return True
    if clipped.part.interiors:
        return False
    missing = clipped.along_mm * clipped.across_mm - clipped.part.area
    if missing > limits.absorbed_mm * 2.0 * (clipped.along_mm + clipped.across_mm):
        return False
    if missing <= 1.0:
        return True
    box = shapely.box(0.0, 0.0, clipped.along_mm, clipped.across_mm)
    return bool(without(box, clipped.on_unit).buffer(-limits.absorbed_mm / 2.0).is_empty)


def is_sliver(part: Polygon, limits: Sizes) -> bool:
    """Return whether a cut part is narrower than the smallest piece worth laying, measured whichever way it lies."""
    x1, y1, x2, y2 = part.bounds
    if x2 - x1 < limits.sliver_along_mm or y2 - y1 < limits.sliver_across_mm:
        return True
    return narrowest_mm(part) < min(limits.sliver_along_mm, limits.sliver_across_mm)


def narrowest_mm(part: Polygon) -> float:
    """Return the width of a part, measured whichever way it lies least wide. [mm].

    Source: definition, the smallest width of a convex shape is square to one of its sides
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
    kept: Sequence[Clipped], frame: Frame, sold: Sequence[PavingUnit], known: LayingFigures
) -> tuple[tuple[Piece, ...], int]:
    """Return pieces numbered outward from the starting corner, and the number of courses.

    A border comes first, round the outline; then course by course from the start, in each from the starting end.

    Args:
        kept: What is left of each unit.
        frame: The frame of the courses.
        sold: The paving unit of each size.
        known: Figures of this room.
    """
    limits = [sizes(unit, known) for unit in sold]
    in_turn = laid_in_turn(kept, from_right=frame.from_right, from_far=frame.from_far)
    courses = sorted({(not each.border, each.course) for each in kept})
    present = {course: number for number, course in enumerate(courses, start=1)}
    pieces: list[Piece] = []
    place = 0
    before: tuple[bool, int] | None = None
    turned = frame.out_of_polygons([each.part for each in in_turn])
    for number, (each, shape) in enumerate(zip(in_turn, shapes_from_polygons(turned), strict=True), start=1):
        course = not each.border, each.course
        place = place + 1 if course == before else 1
        before = course
        pieces.append(_piece(number, present[course], place, each, shape, sold[each.size], limits[each.size]))
    return with_necks(pieces, in_turn, limits), len(present)


def with_necks(pieces: Sequence[Piece], in_turn: Sequence[Clipped], limits: Sequence[Sizes]) -> tuple[Piece, ...]:
    """Return pieces, those that are too narrow somewhere to be cut and laid with that width."""
    cut = [number for number, piece in enumerate(pieces) if piece.kind is PieceKind.CUT]
    found = list(pieces)
    for number, width in zip(cut, necks_of([in_turn[number] for number in cut], limits), strict=True):
        if width is not None:
            found[number] = replace(found[number], neck_mm=width)
    return tuple(found)


def necks_of(cut: Sequence[Clipped], limits: Sequence[Sizes]) -> list[float | None]:
    """Return for each cut part of a unit the width where it is too narrow to be cut and laid; None for others. [mm]."""
    if not cut:
        return []
    least = [limits[each.size].min_width_mm for each in cut]
    return necks_mm([each.part for each in cut], least, limits[0].absorbed_mm)


def laid_in_turn(kept: Sequence[Clipped], *, from_right: bool, from_far: bool) -> list[Clipped]:
    """Return parts of units in the order of laying, as their pieces are numbered."""
    sign_x, sign_y = (-1.0 if from_right else 1.0), (-1.0 if from_far else 1.0)
    centres = shapely.centroid(np.array([each.part for each in kept], dtype=object))
    x, y = (sign_x * shapely.get_x(centres)).tolist(), (sign_y * shapely.get_y(centres)).tolist()
    # parts of one unit from the starting end
    turns = [(not each.border, each.course, each.order, x[at], y[at]) for at, each in enumerate(kept)]
    return [kept[at] for at in sorted(range(len(kept)), key=turns.__getitem__)]


def _piece(
    number: int, course: int, place: int, clipped: Clipped, shape: Shape, unit: PavingUnit, limits: Sizes
) -> Piece:
    # overlays snap to a fine grid, so that a part may stand out of its unit by that much
    full = 0.0, 0.0, clipped.along_mm, clipped.across_mm
    x1, y1, x2, y2 = full if clipped.untouched else clipped.on_unit.bounds
    x1, y1, x2, y2 = max(x1, 0.0), max(y1, 0.0), min(x2, clipped.along_mm), min(y2, clipped.across_mm)
    whole = is_whole(clipped, limits)
    notched, curved = (False, False) if whole else _notched_and_curved(clipped.part)
    area_m2 = units.mm2_to_m2(clipped.part.area)
    unit_m2 = units.mm2_to_m2(unit.length_mm * unit.width_mm)
    return Piece(
        number=number,
        course=course,
        place=place,
        unit=unit.name,
        border=clipped.border,
        kind=PieceKind.WHOLE if whole else PieceKind.CUT,
        shape=shape,
        along_mm=x2 - x1,
        across_mm=y2 - y1,
        turn_deg=clipped.turn_deg,
        frame_x_mm=x1,
        frame_y_mm=y1,
        area_m2=area_m2,
        kg=unit.kg_each if whole else unit.kg_each * area_m2 / unit_m2,
        notched=notched,
        curved=curved,
        sliver=not whole and is_sliver(clipped.on_unit, limits),
        saw_m=0.0 if whole else units.mm_to_m(_saw_mm(clipped)),
    )


def _saw_mm(clipped: Clipped) -> float:
    """Return the length of outline of a part that is not an edge of its unit. [mm]."""
    x2, y2 = clipped.along_mm, clipped.across_mm
    sawn = 0.0
    for ring in (clipped.on_unit.exterior, *clipped.on_unit.interiors):
        points = list(ring.coords)
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            on_edge = any(
                abs(a - edge) < _ON_EDGE_MM and abs(b - edge) < _ON_EDGE_MM
                for a, b, edge in ((ax, bx, 0.0), (ax, bx, x2), (ay, by, 0.0), (ay, by, y2))
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
        if _STRAIGHT_DEG < abs(turn) < CURVE_DEG:
            curved = True
        elif turn <= -CURVE_DEG:
            notched = True
    return notched, curved
