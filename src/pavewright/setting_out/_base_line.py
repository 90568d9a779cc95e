"""The base line of an area: the line from which everything else is measured, between two pegs that stay."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import Point

from pavewright import units
from pavewright.geometry import along_and_offset, distance, point_along
from pavewright.setting_out._fixing import Station, fixing

if TYPE_CHECKING:
    from shapely.geometry import LineString, Polygon

    from pavewright.geometry import XY, Side
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.survey import PlanArea, SitePlan

_STEP_MM = 100.0
"""Places for a peg are tried this far apart along a line. [mm]"""
_NEARLY = 0.8
"""A line along a house wall is taken where it is not much shorter than the longest. [-]"""


@dataclass(frozen=True, slots=True)
class Base:
    """A line to measure from, parallel to a side of the outline.

    Attributes:
        side: The side.
        start: Where it starts. [mm]
        end: Where it ends. [mm]
        start_name: What stands at its start.
        own_pegs: Whether it has pegs of its own, outside the dig; else it runs between two corners.
    """

    side: Side
    start: XY
    end: XY
    start_name: str
    own_pegs: bool

    @property
    def length_mm(self) -> float:
        """Its length. [mm]."""
        return distance(self.start, self.end)

    @property
    def off_mm(self) -> float:
        """How far it runs off its side, positive into the area. [mm]."""
        return along_and_offset(self.side.start.xy, self.side.end.xy, self.start)[1]

    def ends(self) -> tuple[Station, Station]:
        """Return its two ends."""
        return Station(self.start_name, self.start), Station("", self.end)

    def measures(self, point: XY) -> XY:
        """Return how far along the line a point lies, and how far to its left. [mm]."""
        return along_and_offset(self.start, self.end, point)

    def place(self, along_mm: float, offset_mm: float) -> XY:
        """Return the point at a distance along the line and off it."""
        return point_along(self.start, self.end, along_mm, offset_mm)

    def words(self, point: XY) -> str:
        """Return where a point is, measured from the line."""
        along, offset = self.measures(point)
        way = "along from" if along >= -_NOTHING_MM else "back from"
        first = f"{units.metres_text(abs(along))} m {way} {self.start_name}"
        if abs(offset) < 1.0:
            return f"{first}, on the line"
        return f"{first}, {units.metres_text(abs(offset))} m square {'left' if offset > 0 else 'right'}"

    def runs(self) -> str:
        """Return where the line itself runs."""
        off = self.off_mm
        if not self.own_pegs:
            return f"along {self.side.name}"
        return (
            f"parallel to {self.side.name}, {units.metres_text(abs(off))} m "
            f"{'into the area' if off > 0.0 else 'outside it'}"
        )


_NOTHING_MM = 0.5


def base_line(
    area: PlanArea, dig: Polygon, site: SitePlan, around: Surroundings, first_peg: str, figures: SetOutFigures
) -> Base:
    """Return the longest line that can be taped and whose pegs stand off walls and outside the dig.

    Lines parallel to the straight sides are tried, the longest of them and those along walls: beside the dig, and
    inside it where the side runs along a wall, with both pegs past the ends of the dig. Of those from which most
    corners can be fixed by tapes, one along a wall is taken where it is nearly as long as the longest, else the
    longest. Where no line has room for two pegs, the longest side that can be taped serves.
    """
    straight = [side for side in area.sides if side.start.rise_mm == 0.0] or list(area.sides)
    out_mm = figures.profile_out.value
    found: list[tuple[bool, Base]] = []
    for side, on_wall in _tried(straight, site, figures.meets_mm):
        edge = max(along_and_offset(side.start.xy, side.end.xy, point)[1] * -1.0 for point in area.gross.outer)
        offs = [-(edge + _past(dig, area) + out_mm)]
        if on_wall:
            offs = [around.off_wall_mm]
        for off in offs:
            ends = _longest(side, off, area.gross.polygon, dig, around, out_mm)
            if ends is not None:
                found.append((on_wall, Base(side, *ends, first_peg, own_pegs=True)))
    least = figures.base_share * _reach(area)
    usable = [each for each in found if each[1].length_mm >= least]
    if not usable:
        return _between_corners(straight, around)
    open_corners = [len(fixing(area, base.ends(), around, figures)[1]) for _, base in usable]
    usable = [each for each, lost in zip(usable, open_corners, strict=True) if lost == min(open_corners)]
    most = max(base.length_mm for _, base in usable)
    walls = [base for on_wall, base in usable if on_wall and base.length_mm >= _NEARLY * most]
    return max(walls or [base for _, base in usable], key=lambda base: base.length_mm)


_MAX_TRIED = 16
"""Of the sides that run along no wall, no more than this are tried; an outline of more is a curve read as points."""


def _tried(straight: list[Side], site: SitePlan, meets_mm: float) -> list[tuple[Side, bool]]:
    """Return the sides beside which a line is tried, in their order, each with whether it runs along a wall."""
    reported = [(side, _on_wall(side, site, meets_mm)) for side in straight]
    free = sorted((side for side, on_wall in reported if not on_wall), key=lambda side: -side.chord_mm)
    kept = {id(side) for side in free[:_MAX_TRIED]}
    return [(side, on_wall) for side, on_wall in reported if on_wall or id(side) in kept]


def _between_corners(straight: list[Side], around: Surroundings) -> Base:
    clear = [side for side in straight if around.between(side.start.xy, side.end.xy) is None]
    side = max(clear or straight, key=lambda each: each.chord_mm)
    return Base(side, side.start.xy, side.end.xy, side.start.name, own_pegs=False)


def _reach(area: PlanArea) -> float:
    """Return the longer side of the box about an area. [mm]."""
    x1, y1, x2, y2 = area.gross.bounds_mm
    return max(x2 - x1, y2 - y1)


def _past(dig: Polygon, area: PlanArea) -> float:
    """Return how far the dig runs past the paving. [mm]."""
    return float(max(area.gross.polygon.exterior.distance(Point(point)) for point in dig.exterior.coords))


def _longest(
    side: Side, off_mm: float, area: Polygon, dig: Polygon, around: Surroundings, out_mm: float
) -> tuple[XY, XY] | None:
    """Return the two places furthest apart on a line beside a side, with nothing between them."""
    begin, finish = side.start.xy, side.end.xy
    alongs = [along_and_offset(begin, finish, (float(x), float(y)))[0] for x, y in dig.exterior.coords]
    low, high = min(alongs) - out_mm, max(alongs) + out_mm
    ends = point_along(begin, finish, low, off_mm), point_along(begin, finish, high, off_mm)
    best: tuple[XY, XY] | None = None
    for part in around.free_parts(*ends):
        places = [at for at in _places(part, ends[0]) if around.takes_pin(at) and around.reaches(at, area)]
        if len(places) > 1 and (best is None or distance(places[0], places[-1]) > distance(*best)):
            best = places[0], places[-1]
    return best


def _places(part: LineString, origin: XY) -> list[XY]:
    """Return places along a part of a line, in order from an origin."""
    count = max(1, math.floor(part.length / _STEP_MM))
    steps = [part.interpolate(min(part.length, _STEP_MM * k)) for k in range(count + 1)]
    steps.append(part.interpolate(part.length))
    points = [(float(point.x), float(point.y)) for point in steps]
    return sorted(points, key=lambda at: distance(origin, at))


def _on_wall(side: Side, site: SitePlan, meets_mm: float) -> bool:
    return any(
        all(abs(along_and_offset(wall.start, wall.end, corner.xy)[1]) <= meets_mm for corner in (side.start, side.end))
        and _overlaps(side, wall.start, wall.end)
        for wall in site.walls
    )


def _overlaps(side: Side, start: XY, end: XY) -> bool:
    run = distance(start, end)
    alongs = [along_and_offset(start, end, corner.xy)[0] for corner in (side.start, side.end)]
    return max(alongs) > 0.0 and min(alongs) < run
