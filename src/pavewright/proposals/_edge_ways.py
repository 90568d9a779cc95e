"""Edges moved within the freedom that the job gives them: their corners slide along the neighbouring sides."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point, Polygon

from pavewright.job import EdgeRestraint
from pavewright.proposals._variations import (
    AddedPoint,
    Slot,
    SlotKind,
    Variation,
    VariationFacts,
    VariationKind,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.geometry import XY
    from pavewright.pipeline import PlanSoFar
    from pavewright.survey import PlanArea

_STEPS = 4
"""A side is moved by so many steps either way; between them the best move is not looked for."""
_STEP_MM = 5.0
_SQUARE_PART = 0.2
"""Sine of the smallest angle at which a corner slides along a neighbouring side. [-]"""
_STAYS = frozenset({EdgeRestraint.WALL, EdgeRestraint.EXISTING})
"""What holds a side that is there already: it is never moved."""


def edge_ways(made: PlanSoFar, number: int) -> Iterator[Variation]:
    """Give the sides of an area that may be moved, each by some steps out and in.

    A side stays where a wall or what is there already holds it, where its corner belongs to another area or to steps,
    where a curve meets it, and along walls, boundaries and what
    the paving has to meet; none is moved over one of these.

    Args:
        made: The job as drawn, with its survey.
        number: Place of the area in the job.
    """
    area = next((each for each in made.survey.site.areas if each.path == f"areas.{number}"), None)
    if area is None:
        return
    shared = _shared(made, number)
    for place, edge in enumerate(area.area.edges):
        if edge.freedom_mm <= 0.0 or edge.restraint in _STAYS:
            continue
        names = [each.point for each in area.area.outline]
        start = names.index(edge.corner)
        ends = names[start], names[(start + 1) % len(names)]
        if shared.intersection(ends):
            continue
        side = area.side_from(edge.corner)
        if _lies_along_what_stays(made, side.start.xy, side.end.xy):
            continue
        for out_mm in _moves(edge.freedom_mm):
            points = _moved(area, start, out_mm, _taken(made))
            if points is not None and not _crosses_what_stays(made, area, points):
                facts = VariationFacts(VariationKind.EDGE, area.name, name=ends[0], other=ends[1], value=out_mm)
                yield Variation(Slot(SlotKind.EDGE, number, place), facts, points=points)


def _what_stays(made: PlanSoFar) -> list[LineString]:
    """Return the lines of boundaries, of paving and edges to meet, and of walls: none of them is the job's to move."""
    site = made.survey.site
    lines = [(each.start, each.end) for each in site.walls]
    lines += [(each.start, each.end) for each in site.boundaries]
    lines += [(each.start, each.end) for each in site.tie_ins]
    return [LineString(each) for each in lines]


def _lies_along_what_stays(made: PlanSoFar, start: XY, end: XY) -> bool:
    middle = Point((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    return any(line.distance(middle) < _ALONG_MM for line in _what_stays(made))


def _crosses_what_stays(made: PlanSoFar, area: PlanArea, points: tuple[AddedPoint, ...]) -> bool:
    """Return whether a side that is moved sweeps over something that stays."""
    at = {each.name: each.xy for each in area.ring.corners}
    old = [at[each.instead_of] for each in points]
    new = []
    for each in points:
        (x1, y1), (x2, y2) = at[each.line_from], at[each.line_to]
        part = each.along_mm / math.dist((x1, y1), (x2, y2))
        new.append((x1 + part * (x2 - x1), y1 + part * (y2 - y1)))
    swept = Polygon([old[0], old[1], new[1], new[0]]).buffer(-1.0)
    return any(line.intersects(swept) for line in _what_stays(made))


_ALONG_MM = 50.0
"""A side this near to a line lies along it. [mm]"""


def _shared(made: PlanSoFar, number: int) -> set[str]:
    """Return the corners that other areas, zones or steps stand on too."""
    found: set[str] = set()
    for place, area in enumerate(made.job.areas):
        if place != number:
            found |= {each.point for ring in (area.outline, *area.holes) for each in ring}
        else:
            found |= {each.point for ring in area.holes for each in ring}
            found |= {each.point for zone in area.zones for each in zone.outline}
    return found | {each.corner for each in made.job.steps}


def _taken(made: PlanSoFar) -> frozenset[str]:
    return frozenset(each.name for each in made.survey.points)


def _moves(freedom_mm: float) -> tuple[float, ...]:
    """Return how far a side is moved: whole steps, spread over its freedom. [mm]."""
    steps = min(_STEPS, math.floor(freedom_mm / _STEP_MM + 1e-9))
    each = [round(freedom_mm * step / steps / _STEP_MM) * _STEP_MM for step in range(1, steps + 1)]
    inside = sorted({move for move in each if 0.0 < move <= freedom_mm})
    return tuple(sign * move for move in inside for sign in (1.0, -1.0))


def _moved(area: PlanArea, start: int, out_mm: float, taken: frozenset[str]) -> tuple[AddedPoint, ...] | None:
    """Return the two corners of a moved side; None where a curve is met or a neighbouring side runs along it."""
    outline = area.area.outline
    count = len(outline)
    end, before, after = (start + 1) % count, (start - 1) % count, (start + 2) % count
    if any(outline[place].is_curved for place in (before, start, end)):
        return None
    at = {each.name: each.xy for each in area.ring.corners}
    names = [outline[place].point for place in (before, start, end, after)]
    if any(name not in at for name in names):
        return None
    a, b = at[names[1]], at[names[2]]
    long = math.dist(a, b)
    turned = 1.0 if _runs_anticlockwise([at[each.point] for each in outline if each.point in at]) else -1.0
    out = turned * (b[1] - a[1]) / long, -turned * (b[0] - a[0]) / long
    points = []
    for corner, neighbour in ((names[1], names[0]), (names[2], names[3])):
        along = _slid(at[neighbour], at[corner], out, out_mm)
        if along is None:
            return None
        points.append(AddedPoint(_free_name(corner, taken), corner, neighbour, corner, along))
    return tuple(points)


def _slid(neighbour: XY, corner: XY, out: XY, out_mm: float) -> float | None:
    """Return how far from its neighbour a corner then lies, on the line of the side between them. [mm]."""
    long = math.dist(neighbour, corner)
    if long == 0.0:
        return None
    square = ((corner[0] - neighbour[0]) * out[0] + (corner[1] - neighbour[1]) * out[1]) / long
    if abs(square) < _SQUARE_PART:
        return None
    along = long + out_mm / square
    return round(along, 1) if along > 0.0 else None


def _runs_anticlockwise(ring: list[XY]) -> bool:
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) > 0.0


def _free_name(corner: str, taken: frozenset[str]) -> str:
    """Return a name for a moved corner that no point has."""
    name = f"{corner} moved"
    number = 2
    while name in taken:
        name = f"{corner} moved {number}"
        number += 1
    return name
