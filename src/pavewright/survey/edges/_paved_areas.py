"""Areas to be paved: their outlines, and what is left of them round covers, gullies and obstacles."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Polygon

from pavewright.geometry import (
    Ring,
    Shape,
    bearing_of,
    joined,
    outline_faults,
    shape_from_polygon,
    shared,
    unit_vector,
    without,
)
from pavewright.survey._remarks import metres
from pavewright.survey._types import PlanArea
from pavewright.survey._types_channels import ChannelCut
from pavewright.survey.edges._outlines import ArcFaultError, is_inside_out, outline_ring, rectangle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.job import Area, Job, OutlineCorner
    from pavewright.survey.edges._features import Features, Places

_DEEPER_THAN_MM = 1.0
"""Areas that overlap less than this in depth share an edge; more than this is an overlap. [mm]"""
_CRUMB_MM2 = 100.0
"""A piece cut off an area that is smaller than a fingernail is not a piece. [mm²]"""


def place_areas(job: Job, features: Features, where: Places) -> tuple[PlanArea, ...]:
    """Return every area at its place; what is wrong with an outline is reported."""
    found = []
    for number, area in enumerate(job.areas):
        placed = _area(number, area, features, where)
        if placed is not None:
            found.append((number, placed))
    _tell_overlaps(found, where)
    return tuple(area for _, area in found)


def _area(number: int, area: Area, features: Features, where: Places) -> PlanArea | None:
    path = f"areas.{number}.outline"
    ring = _ring(path, f"Area {area.name}", area.outline, where)
    holes = tuple(
        _ring(f"areas.{number}.holes.{index}", f"Hole {index + 1} of area {area.name}", hole, where)
        for index, hole in enumerate(area.holes)
    )
    sound_holes = tuple(hole for hole in holes if hole is not None)
    if ring is None or len(sound_holes) < len(holes):
        return None
    faults = outline_faults(ring, sound_holes) or _arc_faults(ring, sound_holes)
    for sentence in faults:
        where.remarks.fault(path, f"Area {area.name}: {sentence}")
    if faults:
        return None
    # a hole may touch the edge, so it is taken out as a shape and not hung in as a ring
    pieces = _pieces_left(Polygon(ring.points()), [Polygon(hole.points()) for hole in sound_holes])
    if len(pieces) != 1:
        where.remarks.fault(path, f"Area {area.name}: its holes leave nothing of it in one piece: measure them again.")
        return None
    gross = pieces[0]
    shape = _less_what_stands_in_it(path, area, gross, features, where)
    return (
        None
        if shape is None
        else PlanArea(
            area,
            ring,
            sound_holes,
            shape,
            shape_from_polygon(gross),
            f"areas.{number}",
            _channels_through(gross, features),
        )
    )


def _arc_faults(ring: Ring, holes: tuple[Ring, ...]) -> tuple[str, ...]:
    if not any(is_inside_out(each) for each in (ring, *holes)):
        return ()
    return ("The arcs turn the outline inside out: a rise is positive where the side bulges out, negative where in.",)


def _ring(path: str, what: str, outline: Sequence[OutlineCorner], where: Places) -> Ring | None:
    named = [name for each in outline for name in (each.point, each.through, each.centre) if name is not None]
    if where.find(path, what, named) is None:
        return None
    try:
        return outline_ring(outline, where.places, where.curves)
    except ArcFaultError as fault:
        where.remarks.fault(f"{path}.{fault.number}", f"{what}: {fault}")
        return None


def _less_what_stands_in_it(path: str, area: Area, gross: Polygon, features: Features, where: Places) -> Shape | None:
    """Return an area less the covers, obstacles and gullies in it; report where they leave no single piece."""
    turn = _course_bearing(path, area, where)
    outlines: list[tuple[str, tuple[XY, ...]]] = [
        *((f"cover {placed.cover.name}", placed.outline) for placed in features.covers),
        *((f"obstacle {placed.obstacle.name}", placed.outline) for placed in features.obstacles),
        *(
            (f"gully {placed.gully.name}", rectangle(placed.at, placed.gully.size_mm, placed.gully.size_mm, turn))
            for placed in features.gullies
        ),
    ]
    standing = [(name, Polygon(points)) for name, points in outlines]
    standing = [(name, polygon) for name, polygon in standing if shared(gross, polygon).area > 0.0]
    if not standing:
        return shape_from_polygon(gross)
    pieces = _pieces_left(gross, [polygon for _, polygon in standing])
    names = ", ".join(name for name, _ in standing)
    if not pieces:
        where.remarks.fault(
            path, f"Nothing is left of area {area.name} beside {names}: measure their places and sizes again."
        )
        return None
    if len(pieces) > 1:
        where.remarks.fault(
            path,
            f"Area {area.name} is cut into {len(pieces)} separate parts by {names}: enter each part as its own area, "
            f"or measure where they stand again.",
        )
        return None
    return shape_from_polygon(pieces[0])


def _channels_through(gross: Polygon, features: Features) -> tuple[ChannelCut, ...]:
    """Return what channels take of an area that they run through; it may end up in parts, with one pattern over all.

    A channel along the edge stands beside the area, which is measured up to it.
    """
    inside = gross.buffer(-_DEEPER_THAN_MM, join_style="mitre")
    found = []
    for channel in features.channels:
        line = LineString([channel.start, channel.end])
        if line.intersection(inside).length > 0.0:
            grating = line.buffer(channel.width_mm / 2.0, cap_style="flat")
            parts = shapely.get_parts(shared(gross, grating))
            found += [ChannelCut(channel.name, shape_from_polygon(each)) for each in parts if isinstance(each, Polygon)]
    return tuple(found)


def _pieces_left(whole: Polygon, taken_out: Sequence[Polygon]) -> tuple[Polygon, ...]:
    """Return what is left of a polygon, without crumbs."""
    left = without(whole, joined(taken_out)) if taken_out else whole
    parts: tuple[shapely.Geometry, ...] = tuple(shapely.get_parts(left))
    return tuple(part for part in parts if isinstance(part, Polygon) and part.area > _CRUMB_MM2)


def _course_bearing(path: str, area: Area, where: Places) -> float:
    """Return the direction of the courses: a gully is set square to them."""
    if area.laying.along is None:
        return area.laying.bearing_deg
    ends = where.line(
        path.replace("outline", "laying.along"),
        f"Area {area.name}: the line along which its courses run",
        *area.laying.along,
    )
    return area.laying.bearing_deg if ends is None else bearing_of(unit_vector(*ends))


def _tell_overlaps(areas: Sequence[tuple[int, PlanArea]], where: Places) -> None:
    for (_, first), (number, second) in itertools.combinations(areas, 2):
        both = shared(first.gross.polygon, second.gross.polygon)
        if both.area == 0.0 or both.buffer(-_DEEPER_THAN_MM / 2.0).is_empty:
            continue
        x1, y1, x2, y2 = both.bounds
        where.remarks.fault(
            f"areas.{number}.outline",
            f"Areas {first.name} and {second.name} overlap between x {metres(x1)} and {metres(x2)}, y {metres(y1)} and "
            f"{metres(y2)}: use the same points along the edge that they share, or measure those points again.",
        )
