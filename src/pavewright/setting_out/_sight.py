"""What stands in the way of a tape, a string or a pin: houses, walls, boundaries, posts, trees, holes and services."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import nearest_points

from pavewright.geometry import distance, joined, point_along, shared, side_beside, without
from pavewright.job import Neighbour
from pavewright.setting_out._types import InTheWay

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.geometry import XY
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.survey import PlacedService, PlanBoundary, PlanWall, SitePlan

_FACE_MM = 20.0
"""A tape may lie this far into a face: corners stand on walls. [mm]"""
BESIDE_MM = 600.0
"""The paving that a wall belongs to begins within this of it. [mm]"""


@dataclass(frozen=True)
class Hindrance:
    """Something that no tape goes through and on which no pin stands."""

    kind: InTheWay
    name: str
    shape: shapely.Geometry

    @cached_property
    def inner(self) -> shapely.Geometry:
        """A body less the width of a face."""
        inner = shapely.buffer(self.shape, -_FACE_MM)
        shapely.prepare(inner)
        return inner


@dataclass(frozen=True)
class Surroundings:
    """What setting out has to go round.

    Attributes:
        hindrances: What no tape goes through.
        wall_lines: Faces of walls, from which pins keep off.
        digs: All that is dug.
        bands: Services with the ground on both sides of them in which no pin is driven.
        off_wall_mm: How far pins keep off a wall. [mm]
    """

    hindrances: tuple[Hindrance, ...]
    wall_lines: tuple[LineString, ...]
    digs: shapely.Geometry
    bands: tuple[tuple[PlacedService, shapely.Geometry], ...]
    off_wall_mm: float

    def between(self, start: XY, end: XY) -> Hindrance | None:
        """Return what stands between two places, None where a tape can be pulled straight."""
        line = LineString([start, end])
        return next((each for each in self.hindrances if line.length > 0.0 and _cuts(line, each)), None)

    def free_parts(self, start: XY, end: XY) -> list[LineString]:
        """Return the parts of a line along which a tape can be pulled straight."""
        line: shapely.Geometry = LineString([start, end])
        for each in self.hindrances:
            line = without(line, _thick(each))
        return [part for part in shapely.get_parts(line) if isinstance(part, LineString) and part.length > 0.0]

    def reaches(self, at: XY, area: Polygon) -> bool:
        """Return whether nothing stands between a place and the nearest paving: it is on this side of fences."""
        near = shapely.get_coordinates(nearest_points(area, Point(at))[0])[0]
        return self.between((float(near[0]), float(near[1])), at) is None

    def at_wall(self, at: XY) -> bool:
        """Return whether a place is too near to a wall for a pin."""
        return any(line.distance(Point(at)) < self.off_wall_mm - 1e-6 for line in self.wall_lines)

    def in_bands(self, at: XY) -> list[PlacedService]:
        """Return the services in whose band a place lies."""
        return [placed for placed, band in self.bands if shapely.distance(band, Point(at)) <= 0.0]

    def takes_pin(self, at: XY, *, past_services: bool = False, in_dig: bool = False) -> bool:
        """Return whether a pin can be driven at a place and stays.

        Args:
            at: The place. [mm]
            past_services: Whether services are left out of account, because the peg is flagged instead.
            in_dig: Whether it may stand in the dig.
        """
        point = Point(at)
        if self.at_wall(at) or (not past_services and self.in_bands(at)):
            return False
        if not in_dig and shapely.distance(self.digs, point) <= 0.0:
            return False
        return all(shapely.distance(each.shape, point) > _PIN_ROOM_MM for each in self.hindrances)


_PIN_ROOM_MM = 50.0
"""Room about a pin. [mm]"""


def _thick(each: Hindrance) -> shapely.Geometry:
    """Return a hindrance as ground: a line gets a little width, a body loses the width of a face."""
    if shapely.area(each.shape) > 0.0:
        return each.inner
    return shapely.buffer(each.shape, 1.0, cap_style="flat")


_AWAY_MM = 1e-3
"""What is farther apart shares nothing, however overlays are rounded. [mm]"""


def _cuts(line: LineString, each: Hindrance) -> bool:
    """Return whether a line goes through something, not only along its face or up to it."""
    shapely.prepare(each.shape)
    if not shapely.intersects(each.shape, line):
        return False
    if shapely.area(each.shape) > 0.0:
        near = shapely.dwithin(each.inner, line, _AWAY_MM)
        return bool(near and shared(line, each.inner).length > 0.0)
    met = shared(line, each.shape)
    if met.is_empty or met.length > 0.0:
        # a tape along a face goes through nothing
        return False
    ends = shapely.MultiPoint([line.coords[0], line.coords[-1], *shapely.get_coordinates(each.shape)])
    return any(part.distance(ends) > _FACE_MM for part in shapely.get_parts(met))


def site_of(site: SitePlan, build_ups: BuildUps, figures: SetOutFigures) -> Surroundings:
    """Return what setting out has to go round on a site."""
    paved = joined([area.gross.polygon for area in site.areas])
    found: list[Hindrance] = []
    for wall in site.walls:
        found.append(Hindrance(InTheWay.WALL, wall.name, LineString([wall.start, wall.end])))
        body = _behind(wall, site, paved, figures.behind_wall.value)
        if body is not None and shapely.area(body) > 0.0:
            found.append(Hindrance(InTheWay.HOUSE, wall.name, body))
    found += [
        Hindrance(InTheWay.BOUNDARY, line.name, _run_on(line, site, figures.boundary_on_mm))
        for line in site.boundaries
        if line.neighbour is not Neighbour.OWN
    ]
    found += [Hindrance(InTheWay.OBSTACLE, each.obstacle.name, Polygon(each.outline)) for each in site.obstacles]
    for each in site.trees:
        stem = Point(each.at).buffer(each.tree.stem_diameter_mm / 2.0)
        found.append(Hindrance(InTheWay.TREE, each.tree.name, stem))
    for area in site.areas:
        found += [Hindrance(InTheWay.HOLE, area.name, Polygon(hole.points())) for hole in area.holes]
    band = figures.hand_dig.value
    return Surroundings(
        tuple(found),
        tuple(LineString([wall.start, wall.end]) for wall in site.walls),
        joined([up.dig_shape.polygon for up in build_ups.areas]),
        tuple((placed, shapely.buffer(_line_of(placed), band)) for placed in site.services),
        figures.off_wall_mm,
    )


def _run_on(line: PlanBoundary, site: SitePlan, on_mm: float) -> LineString:
    """Return a boundary, run on straight where an end of it meets nothing: it does not stop where it was measured."""
    others = [(each.start, each.end) for each in site.boundaries if each is not line]
    others += [(wall.start, wall.end) for wall in site.walls]
    run = distance(line.start, line.end)
    loose = [
        all(LineString(other).distance(Point(end)) > _MEETS_MM for other in others) for end in (line.start, line.end)
    ]
    return LineString(
        [
            point_along(line.start, line.end, -on_mm if loose[0] else 0.0),
            point_along(line.start, line.end, run + (on_mm if loose[1] else 0.0)),
        ]
    )


_MEETS_MM = 300.0
"""A boundary whose end is this near to a wall or another boundary ends there. [mm]"""


def _line_of(placed: PlacedService) -> shapely.Geometry:
    return LineString(placed.points) if len(placed.points) > 1 else Point(placed.points[0])


def _behind(wall: PlanWall, site: SitePlan, paved: shapely.Geometry, deep_mm: float) -> shapely.Geometry | None:
    """Return the ground behind a wall, on the side away from the paving; None where both sides are paved or none is.

    It reaches to the next wall behind, at most so deep as given, and never over paving.
    """
    way = side_beside(wall.start, wall.end, paved, BESIDE_MM)
    if way is None:
        return None
    run = distance(wall.start, wall.end)
    middle = point_along(wall.start, wall.end, run / 2.0, -way * _FACE_MM)
    beyond = LineString([middle, point_along(wall.start, wall.end, run / 2.0, -way * deep_mm)])
    for other in site.walls:
        line = LineString([other.start, other.end])
        if other is not wall and beyond.intersects(line):
            deep_mm = min(deep_mm, Point(middle).distance(beyond.intersection(line)) + _FACE_MM)
    left: shapely.Geometry = without(_strip(wall.start, wall.end, -way * deep_mm), paved)
    return left


def _strip(start: XY, end: XY, off_mm: float) -> Polygon:
    run = distance(start, end)
    far = [point_along(start, end, along, off_mm) for along in (run, 0.0)]
    return Polygon([start, end, *far])
