"""Zones of an area: parts that are laid in their own way, with the joint round them, and the laying plan of all."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import Point, Polygon

from pavewright.geometry import Corner, Ring, joined, shape_from_polygon, shared, without
from pavewright.job import Fault
from pavewright.laying._types import joined_counts
from pavewright.laying._types_parts import LaidZone, MovementJoints
from pavewright.survey import ArcFaultError, outline_ring

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.job import Zone
    from pavewright.laying._types import LaidArea, Piece
    from pavewright.laying.cutting import SawnUnit
    from pavewright.sums import Working
    from pavewright.survey import PlanArea, Survey

_QUARTER = 32
"""Sides of a quarter of a round zone."""
_OUTSIDE_MM2 = 100.0
"""A zone may reach out of its area by no more than a fingernail. [mm²]"""
_DEEPER_THAN_MM = 1.0
"""Zones that overlap less than this share a seam. [mm]"""


@dataclass(frozen=True)
class Part:
    """One part of an area that is laid by itself.

    Attributes:
        zone: Name of its zone; empty for the rest of the area.
        area: The part as an area of its own.
        path: Where its laying stands in the document.
    """

    zone: str
    area: PlanArea
    path: str


def parts_of(number: int, area: PlanArea, survey: Survey) -> tuple[Part, ...] | Fault:
    """Return the parts of an area in the order in which they are laid: zones first, then what is left of it."""
    path = f"areas.{number}"
    if not area.area.zones:
        return (Part("", area, f"{path}.laying"),)
    found: list[Part] = []
    taken: list[tuple[str, Polygon]] = []
    for index, zone in enumerate(area.area.zones):
        whole = _shape(zone, area, survey)
        fault = _fault(zone, whole, area, taken)
        inside = shared(whole, area.shape.polygon)
        if fault is None and not isinstance(inside, Polygon):
            fault = f"Zone {zone.name} is cut into separate parts by what stands in it: make each a zone of its own."
        if fault is not None or not isinstance(inside, Polygon):
            return Fault(f"{path}.zones.{index}", fault or "")
        taken.append((zone.name, whole))
        named = {"name": f"{area.name}, {zone.name}", "laying": zone.laying, "zones": ()}
        found.append(
            Part(zone.name, _as_area(area, named, inside, f"{path}.zones.{index}"), f"{path}.zones.{index}.laying")
        )
    joint = area.area.laying.joint_mm
    seams = joined([polygon.buffer(joint, join_style="mitre") for _, polygon in taken])
    rest = [each for each in shapely.get_parts(without(area.shape.polygon, seams)) if each.area > _OUTSIDE_MM2]
    if len(rest) != 1 or not isinstance(rest[0], Polygon):
        words = (
            f"The zones leave {len(rest)} separate parts of {area.name}: make each part a zone, or an area of its own."
        )
        return Fault(f"{path}.zones", words)
    left = replace(area, area=area.area.model_copy(update={"zones": ()}), shape=shape_from_polygon(rest[0]))
    return (*found, Part("", left, f"{path}.laying"))


def _as_area(area: PlanArea, named: dict[str, object], polygon: Polygon, path: str) -> PlanArea:
    shape = shape_from_polygon(polygon)
    ring = Ring(tuple(Corner("", x, y) for x, y in shape.outer))
    entered = area.area.model_copy(update=named)
    return replace(area, area=entered, ring=ring, holes=(), shape=shape, gross=shape, path=path)


def _shape(zone: Zone, area: PlanArea, survey: Survey) -> Polygon:
    """Return a zone in plan; one beyond a line is cut off its area."""
    if zone.circle_at is not None and zone.radius_mm is not None:
        return Point(survey.point(zone.circle_at).xy).buffer(zone.radius_mm, quad_segs=_QUARTER)
    if zone.beyond is not None:
        half = _left_of(survey.point(zone.beyond[0]).xy, survey.point(zone.beyond[1]).xy, area)
        cut = shared(half, area.gross.polygon)
        return cut if isinstance(cut, Polygon) else Polygon()
    named = {name for each in zone.outline for name in (each.point, each.through, each.centre) if name is not None}
    try:
        ring = outline_ring(zone.outline, {name: survey.point(name).xy for name in named})
    except ArcFaultError:
        return Polygon()
    return Polygon(ring.points())


def _left_of(first: XY, second: XY, area: PlanArea) -> Polygon:
    """Return all that lies left of a line, as far as an area reaches."""
    x1, y1, x2, y2 = area.gross.polygon.bounds
    far = 2.0 * (math.hypot(x2 - x1, y2 - y1) + math.hypot(first[0] - x1, first[1] - y1))
    long = math.hypot(second[0] - first[0], second[1] - first[1])
    ahead = (second[0] - first[0]) / long, (second[1] - first[1]) / long
    left = -ahead[1], ahead[0]
    start = first[0] - far * ahead[0], first[1] - far * ahead[1]
    end = first[0] + far * ahead[0], first[1] + far * ahead[1]
    return Polygon(
        [
            start,
            end,
            (end[0] + far * left[0], end[1] + far * left[1]),
            (start[0] + far * left[0], start[1] + far * left[1]),
        ]
    )


def _fault(zone: Zone, whole: Polygon, area: PlanArea, taken: Sequence[tuple[str, Polygon]]) -> str | None:
    """Return what is wrong with the place of a zone."""
    if not whole.is_valid:
        return f"Sides of zone {zone.name} cross: check the order of its corners, or measure them again."
    if whole.area <= _OUTSIDE_MM2 or shared(whole, area.shape.polygon).area <= _OUTSIDE_MM2:
        return f"Zone {zone.name} does not lie in {area.name}: measure where it is, or turn its line round."
    if float(shapely.area(without(whole, area.gross.polygon))) > _OUTSIDE_MM2:
        return f"Zone {zone.name} reaches out of {area.name}: measure its corners again, or make it smaller."
    for name, other in taken:
        both = shared(whole, other).buffer(-_DEEPER_THAN_MM / 2.0)
        if not both.is_empty:
            return f"Zones {name} and {zone.name} of {area.name} overlap: measure their edges again."
    return None


def with_zones(area: PlanArea, laid: Sequence[tuple[Part, LaidArea]]) -> LaidArea:
    """Return the laying plan of an area from those of its parts, pieces numbered through in the order of laying."""
    field = laid[-1][1]
    through = _numbered_through(laid)
    parts = [one for _, one in laid]
    paved = math.fsum(one.paved_m2 for one in parts)
    return replace(
        field,
        area=area.name,
        pieces=through.pieces,
        courses=sum(one.courses for one in parts),
        border_courses=sum(one.border_courses for one in parts),
        sawn=through.sawn,
        whole=sum(one.whole for one in parts),
        cut=sum(one.cut for one in parts),
        slivers=sum(one.slivers for one in parts),
        units_each_cut_new=sum(one.units_each_cut_new for one in parts),
        units_with_offcuts=sum(one.units_with_offcuts for one in parts),
        min_units=sum(one.min_units for one in parts),
        units_bound=sum(one.units_bound for one in parts),
        joint_length_m=math.fsum(one.joint_length_m for one in parts),
        paved_m2=paved,
        joint_m2=max(area.laid_m2 - paved, 0.0),
        saw_m=math.fsum(one.saw_m for one in parts),
        by_unit=joined_counts(count for one in (field, *parts[:-1]) for count in one.by_unit),
        workings=_workings(laid),
        limits=tuple(dict.fromkeys(limit for one in parts for limit in one.limits)),
        gauge=tuple(replace(mark, piece=mark.piece + through.offset) for mark in field.gauge),
        zones=_laid_zones(laid),
        left_overs=tuple(left for one in parts for left in one.left_overs),
        movement=_movement(parts),
        fills=tuple(fill for one in parts for fill in one.fills),
    )


@dataclass(frozen=True, slots=True)
class _Through:
    """Pieces and sawn units of all parts, numbered through.

    Attributes:
        pieces: All pieces.
        sawn: All sawn units.
        offset: How many pieces come before those of the last part.
    """

    pieces: tuple[Piece, ...]
    sawn: tuple[SawnUnit, ...]
    offset: int


def _numbered_through(laid: Sequence[tuple[Part, LaidArea]]) -> _Through:
    """Return pieces and sawn units of all parts, numbered in the order of laying."""
    pieces: list[Piece] = []
    sawn: list[SawnUnit] = []
    courses = offset = 0
    for part, one in laid:
        offset = len(pieces)
        pieces += [
            replace(piece, number=piece.number + offset, course=piece.course + courses, zone=part.zone)
            for piece in one.pieces
        ]
        sawn += [_moved(each, len(sawn) + number, offset) for number, each in enumerate(one.sawn, start=1)]
        courses += one.courses
    return _Through(tuple(pieces), tuple(sawn), offset)


def _laid_zones(laid: Sequence[tuple[Part, LaidArea]]) -> tuple[LaidZone, ...]:
    """Return the zones of an area, each with how it is laid."""
    return tuple(
        LaidZone(part.zone, one.unit, one.pattern, one.joint_mm, part.area.shape, len(one.pieces))
        for part, one in laid
        if part.zone
    )


def _workings(laid: Sequence[tuple[Part, LaidArea]]) -> tuple[Working, ...]:
    """Return the sums of all parts, each with the name of its part before it."""
    return tuple(
        replace(working, expression=f"{part.zone or 'rest'}: {working.expression}")
        for part, one in laid
        for working in one.workings
    )


def _movement(parts: Sequence[LaidArea]) -> MovementJoints:
    """Return the movement joints of all parts together."""
    return MovementJoints(
        tuple(ends for one in parts for ends in one.movement.placed),
        math.fsum(one.movement.placed_m for one in parts),
        math.fsum(one.movement.unplaced_m for one in parts),
        longest_m=max(one.movement.longest_m for one in parts),
    )


def _moved(unit: SawnUnit, number: int, offset: int) -> SawnUnit:
    """Return a sawn unit whose parts name their pieces as they are numbered through."""
    return replace(
        unit,
        number=number,
        parts=tuple(replace(part, piece=part.piece + offset) for part in unit.parts),
        pairs=tuple(replace(pair, pieces=(pair.pieces[0] + offset, pair.pieces[1] + offset)) for pair in unit.pairs),
    )
