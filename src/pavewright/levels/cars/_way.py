"""The ways of a car over paving: from the road to a garage door, and where the gradient changes on them."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.geometry import distance, unit_vector
from pavewright.job import Beyond, Neighbour
from pavewright.levels.edges import away_from, contacts

if TYPE_CHECKING:
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, PlanBoundary, PlanOpening, PlanTieIn, SitePlan

_ON_MM = 1.0
"""Places this near to each other are one. [mm]"""
_MIN_WAY_MM = 1000.0
"""A way shorter than this is none. [mm]"""


@dataclass(frozen=True, slots=True)
class Gate:
    """Where cars come onto an area or leave it.

    Attributes:
        name: The road, the footway or the door, as the job names it.
        at: Its middle.
        inward: Direction into the area, square to it, length one.
        beyond: Gradient beyond it towards the area, rise over run; None where the surface goes on as it is.
            [rise over run]
        is_road: Whether it is the road; else a garage door.
        door: The door of a garage; None of the road.
    """

    name: str
    at: XY
    inward: XY
    beyond: float | None
    is_road: bool
    door: PlanOpening | None = None


@dataclass(frozen=True, slots=True)
class CarWay:
    """A straight way over an area with the gates at its ends; None where it only runs to the edge."""

    start: XY
    end: XY
    first: Gate | None
    last: Gate | None

    @property
    def length_mm(self) -> float:
        """Its length in plan. [mm]."""
        return distance(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Profile:
    """Levels along a way where its gradient changes.

    Attributes:
        along_mm: Places from the start of the way; what lies before and beyond is in it too. [mm]
        level_mm: Levels there. [mm]
        own: First and last number of the places that lie on the area.
    """

    along_mm: tuple[float, ...]
    level_mm: tuple[float, ...]
    own: tuple[int, int]

    @property
    def gradients(self) -> tuple[float, ...]:
        """Gradient between each place and the next; positive where it rises."""
        places = zip(itertools.pairwise(self.along_mm), itertools.pairwise(self.level_mm), strict=True)
        return tuple((high - low) / (end - start) for (start, end), (low, high) in places)


def gates(area: PlanArea, site: SitePlan, figures: LevelFigures) -> tuple[Gate, ...]:
    """Return where cars come onto an area: along the road or its footway, and at doors wide enough for a car."""
    found: list[Gate] = []
    within = figures.cars.meets_road_mm
    footway = figures.cars.footway.value / 100.0
    lines: list[PlanBoundary | PlanTieIn] = [*_roads(site)]
    lines += [tie for tie in site.tie_ins if tie.beyond is Beyond.HIGHWAY]
    for line in lines:
        inward = away_from(line.start, line.end, area.gross.centre_mm)
        for contact in contacts(area, line.start, line.end, within):
            if all(distance(contact.middle, gate.at) > 2.0 * within for gate in found):
                found.append(Gate(line.name, contact.middle, inward, footway, is_road=True))
    wide = figures.cars.garage_door_mm
    for wall in site.walls:
        met = contacts(area, wall.start, wall.end, figures.meets_mm)
        for door in wall.openings:
            reach = distance(wall.start, door.start), distance(wall.start, door.end)
            if distance(door.start, door.end) >= wide and any(contact.overlaps(*reach) for contact in met):
                middle = (door.start[0] + door.end[0]) / 2.0, (door.start[1] + door.end[1]) / 2.0
                inward = away_from(wall.start, wall.end, area.gross.centre_mm)
                found.append(Gate(door.name, middle, inward, 0.0, is_road=False, door=door))
    return tuple(found)


def _roads(site: SitePlan) -> list[PlanBoundary]:
    return [line for line in site.boundaries if line.neighbour is Neighbour.HIGHWAY]


def car_ways(area: PlanArea, surface: FoldedSurface, found: tuple[Gate, ...]) -> tuple[CarWay, ...]:
    """Return the ways of a car over an area.

    From each place at the road to each garage door; where only one of the two is known, straight on from it to the
    far edge; where neither is, square over every fold, since a car may go that way.
    """
    roads = [gate for gate in found if gate.is_road]
    doors = [gate for gate in found if not gate.is_road]
    ways = [CarWay(road.at, door.at, road, door) for road in roads for door in doors]
    if not ways:
        ways = [CarWay(gate.at, _across(area, gate.at, gate.inward), gate, None) for gate in (*roads, *doors)]
    inside = area.gross.polygon.buffer(_NEAR_MM)
    ways = [way for way in ways if inside.contains(LineString([way.start, way.end]))]
    if not ways:
        ways = _over_folds(area, surface)
    return tuple(way for way in ways if way.length_mm > _MIN_WAY_MM)


_NEAR_MM = 700.0
"""Gates stand this near to the edge of their area. [mm]"""


def _over_folds(area: PlanArea, surface: FoldedSurface) -> list[CarWay]:
    ways = []
    for fold in surface.folds:
        ux, uy = unit_vector(fold.start, fold.end)
        middle = (fold.start[0] + fold.end[0]) / 2.0, (fold.start[1] + fold.end[1]) / 2.0
        ends = [_across(area, middle, direction) for direction in ((-uy, ux), (uy, -ux))]
        ways.append(CarWay(ends[0], ends[1], None, None))
    return ways


def _across(area: PlanArea, at: XY, direction: XY) -> XY:
    """Return where a straight line from a place leaves an area."""
    whole = area.gross.polygon
    far = at[0] + direction[0] * whole.length, at[1] + direction[1] * whole.length
    cut = LineString([at, far]).intersection(whole)
    reach = max((math.hypot(x - at[0], y - at[1]) for part in _parts(cut) for x, y in part.coords), default=0.0)
    return at[0] + direction[0] * reach, at[1] + direction[1] * reach


def _parts(cut: object) -> list[LineString]:
    parts = getattr(cut, "geoms", [cut])
    return [part for part in parts if isinstance(part, LineString) and not part.is_empty]


def tracks(way: CarWay, area: PlanArea, apart_mm: float) -> tuple[CarWay, ...]:
    """Return the way and the two tracks of its wheels where they lie on the area."""
    ux, uy = unit_vector(way.start, way.end)
    inside = area.gross.polygon.buffer(_NEAR_MM)
    found = [way]
    for side in (-0.5, 0.5):
        dx, dy = -uy * apart_mm * side, ux * apart_mm * side
        start, end = (way.start[0] + dx, way.start[1] + dy), (way.end[0] + dx, way.end[1] + dy)
        if inside.contains(Point(start)) and inside.contains(Point(end)):
            found.append(CarWay(start, end, way.first, way.last))
    return tuple(found)


def profile(way: CarWay, surface: FoldedSurface, reach_mm: float) -> Profile:
    """Return the levels along a way where its gradient changes, with what lies beyond its gates.

    Args:
        way: The way.
        surface: The surface under it.
        reach_mm: How far beyond its gates it is followed. [mm]
    """
    line = LineString([way.start, way.end])
    cuts = {0.0, way.length_mm}
    for facet in surface.facets if not surface.is_plane else ():
        for part in _parts(line.intersection(facet.polygon)):
            cuts |= {round(line.project(Point(corner)), 6) for corner in part.coords}
    ordered: list[float] = []
    for cut in sorted(cuts):
        if not ordered or cut - ordered[-1] > _ON_MM:
            ordered.append(cut)
    ordered[-1] = way.length_mm
    ux, uy = unit_vector(way.start, way.end)
    along = list(ordered)
    level = [surface.level_at((way.start[0] + ux * cut, way.start[1] + uy * cut)) for cut in ordered]
    kept = [number for number in range(len(along)) if not _straight(along, level, number)]
    along, level = [along[number] for number in kept], [level[number] for number in kept]
    first = 0
    if way.first is not None and way.first.beyond is not None:
        along.insert(0, -reach_mm)
        level.insert(0, level[0] - way.first.beyond * reach_mm)
        first = 1
    last = len(along) - 1
    if way.last is not None and way.last.beyond is not None:
        along.append(way.length_mm + reach_mm)
        level.append(level[-1] - way.last.beyond * reach_mm)
    return Profile(tuple(along), tuple(level), (first, last))


def _straight(along: list[float], level: list[float], number: int) -> bool:
    """Return whether a way goes straight on at a place between its ends."""
    if number in {0, len(along) - 1}:
        return False
    before = (level[number] - level[number - 1]) / (along[number] - along[number - 1])
    after = (level[number + 1] - level[number]) / (along[number + 1] - along[number])
    return abs(after - before) < _STRAIGHT


_STRAIGHT = 1e-6
"""A smaller change of gradient is none. [-]"""
