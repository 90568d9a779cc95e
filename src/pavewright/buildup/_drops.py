"""How high an edge stands over what lies beyond it, place by place along every side."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, Point

from pavewright.buildup._stretches import sides_of
from pavewright.buildup._types import Beyond
from pavewright.geometry import distance
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from pavewright.buildup._figures import EdgeFigures
    from pavewright.geometry import XY
    from pavewright.levels import Levels
    from pavewright.survey import PlanArea, Survey

STATION_MM = 250.0
"""An edge is looked at no further apart than this. [mm]"""
_LOOKS = 5
"""Places beyond an edge, itself one, at which a drop is looked for."""
_AT_STEPS_MM = 20.0
"""A place this near to the nosing of a flight stands at the flight. [mm]"""


@dataclass(frozen=True, slots=True)
class Station:
    """A place along a side.

    Attributes:
        at: Its place in plan. [mm]
        length_mm: Length of side that it stands for. [mm]
        beyond: What lies beyond.
        other: Name of the area or wall beyond; empty for the ground.
        drop_mm: Edge less what lies beyond; None where that is not known. [mm]
        fall_mm: Greatest drop as far beyond as a guard looks; None where no drop is known. [mm]
    """

    at: XY
    length_mm: float
    beyond: Beyond
    other: str
    drop_mm: float | None
    fall_mm: float | None = None


@dataclass(frozen=True, slots=True)
class SideDrops:
    """A side with its stations in order; those at a house wall, a flight or existing paving are left out."""

    corner: str
    side: str
    restraint: EdgeRestraint
    stations: tuple[Station | None, ...]


def side_drops(area: PlanArea, survey: Survey, levels: Levels, known: EdgeFigures) -> tuple[SideDrops, ...]:
    """Return every side of an area with how high it stands, place by place."""
    look = _Look(area, survey, levels, known)
    found = []
    for corner, restraint, line in sides_of(area):
        places = shapely.get_coordinates(shapely.segmentize(line, STATION_MM)).tolist()
        stations = tuple(look.station(a, b, restraint) for a, b in itertools.pairwise([(x, y) for x, y in places]))
        found.append(SideDrops(corner, area.side_from(corner).name, restraint, stations))
    return tuple(found)


class _Look:
    """What lies beyond the edge of one area."""

    def __init__(self, area: PlanArea, survey: Survey, levels: Levels, known: EdgeFigures) -> None:
        """Gather what stands about the area."""
        site = survey.site
        self._area, self._levels, self._ground = area, levels, survey.ground
        self._meets, self._past = known.meets_mm, known.look_past_mm
        self._known, self._guarded = known.known_within.value, known.guard_within_mm
        self._steps = [
            LineString([flight.start, flight.end])
            for flight in levels.steps
            if area.name in {flight.upper_area, flight.lower_area}
        ]
        self._ties = [LineString([tie.start, tie.end]) for tie in site.tie_ins]
        self._walls = [(wall, LineString([wall.start, wall.end])) for wall in site.walls]
        self._others = [other for other in site.areas if other.name != area.name]

    def station(self, start: XY, end: XY, restraint: EdgeRestraint) -> Station | None:
        """Return a place half way between two; None where nothing lies beyond that the paving could stand over."""
        length = distance(start, end)
        if length <= 0.0 or restraint is EdgeRestraint.EXISTING:
            return None
        mid = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
        here = Point(mid)
        # the ring runs anticlockwise: beyond lies to the right
        out = (end[1] - start[1]) / length, -(end[0] - start[0]) / length
        if any(line.distance(here) <= _AT_STEPS_MM for line in self._steps):
            return None
        if any(line.distance(here) <= self._meets for line in self._ties):
            return None
        level = self._levels.area(self._area.name).surface.level_at(mid)
        across = _across(mid, out, self._meets)
        for other in self._others:
            if other.gross.polygon.intersects(across):
                drop = level - self._levels.area(other.name).surface.level_at(mid)
                return Station(mid, length, Beyond.AREA, other.name, drop, max(drop, self._fall(mid, out, level)))
        return self._over_ground(mid, out, level, length, restraint)

    def _over_ground(self, mid: XY, out: XY, level: float, length: float, restraint: EdgeRestraint) -> Station | None:
        near = [wall for wall, line in self._walls if line.intersects(_across(mid, out, self._meets))]
        if any(wall.is_house for wall in near):
            return None
        behind = bool(near) or restraint is EdgeRestraint.WALL
        past = self._past + (self._meets if behind else 0.0)
        place = mid[0] + out[0] * past, mid[1] + out[1] * past
        if self._area.gross.contains(place):
            return None
        kind, name = (Beyond.BEHIND_WALL, near[0].name if near else "") if behind else (Beyond.GROUND, "")
        if self._ground is None or shapely.distance(self._ground.outline, Point(place)) > self._known:
            return Station(mid, length, kind, name, None)
        drop = level - self._ground.level_beyond(place)
        return Station(mid, length, kind, name, drop, max(drop, self._fall(mid, out, level)))

    def _is_read(self, place: XY) -> bool:
        """Return whether a place lies outside the area, where the ground is known."""
        if self._ground is None or self._area.gross.contains(place):
            return False
        return bool(shapely.distance(self._ground.outline, Point(place)) <= self._known)

    def _fall(self, mid: XY, out: XY, level: float) -> float:
        """Return the greatest drop to what is known beyond, as far as a guard looks; minus infinity where none is."""
        falls = [-math.inf]
        for far in np.linspace(0.0, self._guarded, _LOOKS)[1:].tolist():
            place = mid[0] + out[0] * far, mid[1] + out[1] * far
            paved = next((each for each in self._others if each.gross.contains(place)), None)
            if paved is not None:
                falls.append(level - self._levels.area(paved.name).surface.level_at(place))
            elif self._ground is not None and self._is_read(place):
                falls.append(level - self._ground.level_beyond(place))
        return max(falls)


def _across(mid: XY, out: XY, half_mm: float) -> LineString:
    """Return a short line square across an edge: what crosses it lies beyond, not round the corner."""
    x, y = out[0] * half_mm, out[1] * half_mm
    return LineString([(mid[0] - x, mid[1] - y), (mid[0] + x, mid[1] + y)])
