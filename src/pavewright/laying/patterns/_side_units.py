"""Units along one side of a border: in a straight row, or fanned out round a curve with joints in wedges."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.geometry import shared
from pavewright.job import BorderCorner, BorderKind
from pavewright.laying.patterns._placing import Placing
from pavewright.laying.patterns._sides import OutlineSide, bearing, square_enough

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying.patterns._edging import Ring

_EXACT_MM = 1e-6
"""Joints at their limit are within it. [mm]"""


def side_units(
    strip: Polygon, sides: tuple[OutlineSide, ...], place: int, ring: Ring, course: int, order: float
) -> Iterator[tuple[Polygon, Placing]]:
    """Give parts of a strip with the units over each: one part for a straight side, one a unit for a curve.

    Args:
        strip: The strip in plan.
        sides: Sides of the outline.
        place: Which of them.
        ring: The ring of the border.
        course: Number of the course.
        order: How far along the border its side begins, which sorts the units. [mm]
    """
    side = sides[place]
    if side.straight:
        yield strip, _row(strip, sides, place, ring, course, order)
        return
    yield from _fan(strip, side, ring, course, order)


def _row(strip: Polygon, sides: tuple[OutlineSide, ...], place: int, ring: Ring, course: int, order: float) -> Placing:
    """Return units in a row along a straight side, whole from the corner where it begins."""
    side = sides[place]
    forth = side.steps[0]
    start = side.points[0]
    pitch = ring.wide_mm + row_joint_mm(sides, place, ring)
    first = _beginning(sides, place, ring)
    if ring.kind is BorderKind.STRETCHER and course % 2:
        first -= pitch / 2.0
    reach = (shapely.get_coordinates(strip) - start) @ forth
    numbers = np.arange(math.floor((reach.min() - first) / pitch), math.ceil((reach.max() - first) / pitch) + 1)
    begins = first + numbers * pitch
    outer = start + side.first_normal * course * (ring.course_mm + ring.joint_mm) + begins[:, None] * forth
    return _placed(ring, course, outer, np.broadcast_to(forth, outer.shape), order + begins)


def row_joint_mm(sides: tuple[OutlineSide, ...], place: int, ring: Ring) -> float:
    """Return the joint between the units of a row along a straight side. [mm].

    Where joints may be stretched it is the one nearest to the joint asked for with which the row ends in a whole unit,
    joint = (row - n units) / (n - 1); the joint asked for where none within the limits does.

    Source: definition
    """
    if ring.stretch_mm is None:
        return ring.joint_mm
    wide, (least, most) = ring.wide_mm, ring.stretch_mm
    row = _end(sides, place, ring) - _beginning(sides, place, ring)
    about = (row + ring.joint_mm) / (wide + ring.joint_mm)
    counts = [count for count in (math.floor(about), math.ceil(about)) if count > 1]
    joints = [(row - count * wide) / (count - 1) for count in counts]
    fits = [joint for joint in joints if least - _EXACT_MM <= joint <= most + _EXACT_MM]
    return min(fits, key=lambda joint: abs(joint - ring.joint_mm), default=ring.joint_mm)


def _end(sides: tuple[OutlineSide, ...], place: int, ring: Ring) -> float:
    """Return where a row ends: at the corner, or where it butts against the next side of an inner corner. [mm]."""
    side = sides[place]
    after = sides[(place + 1) % len(sides)]
    butted = ring.corner is BorderCorner.BUTTED and len(sides) > 1
    if not butted or not square_enough(side.last_normal, after.first_normal):
        return side.length_mm
    inner = float(after.first_normal @ side.steps[-1]) > 0.0
    return side.length_mm + (ring.depth_mm - ring.joint_mm if inner else 0.0)


def _beginning(sides: tuple[OutlineSide, ...], place: int, ring: Ring) -> float:
    """Return where the first whole unit of a row begins: at the corner, or behind the side that runs through. [mm]."""
    if ring.corner is BorderCorner.MITRED or len(sides) == 1:
        return 0.0
    before, side = sides[place - 1], sides[place]
    away = float(before.last_normal @ side.steps[0])
    if not square_enough(before.last_normal, side.first_normal):
        return 0.0
    return ring.depth_mm / away if away > 0.0 else -ring.joint_mm / away


def _placed(ring: Ring, course: int, outer: np.ndarray, forth: np.ndarray, order: np.ndarray) -> Placing:
    """Return units from the outer corner where each begins, of shape (n, 2), and their directions along the side."""
    count = len(outer)
    soldier = ring.kind is BorderKind.SOLDIER
    corner = outer + forth * ring.size.across_mm if soldier else outer
    turn = np.array([bearing(each) for each in forth])
    return Placing(
        x_mm=corner[:, 0],
        y_mm=corner[:, 1],
        turn_deg=turn + 90.0 if soldier else turn,
        along_mm=np.full(count, ring.size.along_mm),
        across_mm=np.full(count, ring.size.across_mm),
        course=np.full(count, course, dtype=np.int64),
        order=order,
        size=np.full(count, ring.number, dtype=np.int64),
    )


def _fan(strip: Polygon, side: OutlineSide, ring: Ring, course: int, order: float) -> Iterator[tuple[Polygon, Placing]]:
    """Give units round a curve, each with the part of the strip that is its own.

    The joint is kept on the tighter edge of the course and opens as a wedge towards the other. The line square to the
    curve in the middle of each joint parts a unit from the next, so that none overlap where a curve is not even.

    Source: definition
    """
    fan = _fanned(side, ring, course)
    for outer, forth, (begin, end) in zip(fan.outer, fan.forth, fan.ends, strict=True):
        own = shared(
            _sector(fan.curve, fan.along, (begin, end), ring.course_mm, ring.joint_mm / 2.0 if ring.tapered else 0.0),
            strip,
        )
        for part in shapely.get_parts(own):
            if isinstance(part, Polygon) and part.area > 0.0:
                yield (
                    part,
                    _placed(ring, course, outer[None, :], forth[None, :], np.array((order + begin - fan.reach_mm,))),
                )


@dataclass(frozen=True, slots=True)
class _Fan:
    """Units round a curve: where each begins on the outline's side, its direction, and its ends along the tight edge.

    Attributes:
        outer: Corners, shape (n, 2). [mm]
        forth: Directions along the side, shape (n, 2).
        ends: Where each with its joint begins and ends along the tight edge, shape (n, 2). [mm]
        curve: The tight edge, drawn on, shape (m, 2). [mm]
        along: Lengths along it, shape (m,). [mm]
        reach_mm: How far it is drawn on at both ends. [mm]
    """

    outer: np.ndarray
    forth: np.ndarray
    ends: np.ndarray
    curve: np.ndarray
    along: np.ndarray
    reach_mm: float


def _fanned(side: OutlineSide, ring: Ring, course: int) -> _Fan:
    """Return the units of one course round a curve."""
    wide = ring.wide_mm
    pitch = wide + ring.joint_mm
    off = course * (ring.course_mm + ring.joint_mm)
    tight_off = off + ring.course_mm if side.turn_deg > 0.0 else off
    reach = 0.0 if side.closed else 4.0 * ring.depth_mm
    curve = _offset(side, reach, tight_off)
    along = np.concatenate(((0.0,), np.cumsum(np.hypot(*np.diff(curve, axis=0).T))))
    total = along[-1]
    if ring.tapered:
        # whole units on the wide edge, cut narrower towards the tight one
        far = _offset(side, reach, off + ring.course_mm - (tight_off - off))
        round_mm = float(np.hypot(*np.diff(far, axis=0).T).sum())
        pitch *= (total - 2.0 * reach) / (round_mm - 2.0 * reach)
    if side.closed:
        count = max(math.floor(total / pitch), 1)
        pitch, numbers = total / count, np.arange(count)
    else:
        numbers = np.arange(-math.floor(reach / pitch), math.ceil((total - reach) / pitch))
    outers, forths, ends = [], [], []
    for number in numbers:
        begin, end = reach + number * pitch, reach + (number + 1) * pitch
        if end > total + 1e-6 or begin < 0.0:
            continue
        first, last = _at(curve, along, begin), _at(curve, along, end)
        forth = (last - first) / np.hypot(*(last - first))
        left = np.array((-forth[1], forth[0]))
        middle = (first + last) / 2.0 if side.turn_deg < 0.0 else _at(curve, along, (begin + end) / 2.0)
        outers.append(middle - left * (tight_off - off) - forth * (wide / 2.0))
        forths.append(forth)
        ends.append((begin, end))
    shape = (len(ends), 2)
    return _Fan(
        np.array(outers).reshape(shape),
        np.array(forths).reshape(shape),
        np.array(ends).reshape(shape),
        curve,
        along,
        reach,
    )


def _sector(
    curve: np.ndarray, along: np.ndarray, ends: tuple[float, float], deep_mm: float, inset_mm: float
) -> Polygon:
    """Return what lies between the lines square to a curve at two places on it, each moved inward by so much."""
    corners = []
    pitch_mm = ends[1] - ends[0]
    for place, inward in zip(ends, (inset_mm, -inset_mm), strict=True):
        before, after = _at(curve, along, place - pitch_mm / 2.0), _at(curve, along, place + pitch_mm / 2.0)
        forth = (after - before) / np.hypot(*(after - before))
        left = np.array((-forth[1], forth[0])) * (deep_mm + 2.0 * pitch_mm)
        point = _at(curve, along, place) + forth * inward
        corners.append((point - left, point + left))
    return Polygon((corners[0][0], corners[1][0], corners[1][1], corners[0][1])).buffer(0.0)


def _at(curve: np.ndarray, along: np.ndarray, place: float) -> np.ndarray:
    """Return the point at a length along a curve; round again where a closed one ends."""
    closed = bool(np.all(curve[0] == curve[-1]))
    if closed:
        place %= along[-1]
    return np.array((np.interp(place, along, curve[:, 0]), np.interp(place, along, curve[:, 1])))


def _offset(side: OutlineSide, reach_mm: float, off_mm: float) -> np.ndarray:
    """Return a side drawn on at both ends and moved square to itself into the area, of shape (n, 2)."""
    points = side.drawn_on(reach_mm)
    away = np.diff(points, axis=0)
    steps = away / np.hypot(away[:, 0], away[:, 1])[:, None]
    normals = np.stack((-steps[:, 1], steps[:, 0]), axis=1)
    before = np.vstack((normals[-1:] if side.closed else normals[:1], normals))
    after = np.vstack((normals, normals[:1] if side.closed else normals[-1:]))
    both = before + after
    # the mitre: as long as makes both parts lie the offset away
    moved: np.ndarray = points + both * (off_mm / (1.0 + (before * after).sum(axis=1)))[:, None]
    return moved
