"""Pegs of an area: at corners, along edges, at crossings of strings inside, and on profiles outside."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString

from pavewright.buildup import LayerKey
from pavewright.geometry import along_and_offset, side_beside, unit_vector
from pavewright.levels import SpotKind
from pavewright.setting_out._sight import BESIDE_MM
from pavewright.setting_out._strings import down_from_string
from pavewright.setting_out._types import HeightOf, LayerHeight, Peg, PegRole, Stands

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.buildup import AreaBuildUp
    from pavewright.geometry import XY
    from pavewright.levels import FinishedArea
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.survey import PlanArea, SitePlan

_LAYERS = {
    LayerKey.BED: HeightOf.BED,
    LayerKey.BASE: HeightOf.BASE,
    LayerKey.SUB_BASE: HeightOf.SUB_BASE,
    LayerKey.CAPPING: HeightOf.CAPPING,
}


@dataclass(frozen=True, slots=True)
class Place:
    """Where a peg is to stand, before it has a name."""

    role: PegRole
    at: XY
    said: str
    stands: Stands = Stands.DIP


def heights(at: XY, finished: FinishedArea, build_up: AreaBuildUp, string_mm: float) -> tuple[LayerHeight, ...]:
    """Return the top of every layer at a place and how far it is below the string."""
    level = finished.surface.level_at(at)
    down = down_from_string(string_mm, tuple(layer.thickness_mm for layer in build_up.layers))
    tops = [HeightOf.FINISHED, *(_LAYERS.get(layer.key) for layer in build_up.layers[1:]), HeightOf.FORMATION]
    return tuple(
        LayerHeight(top, level + string_mm - below, below)
        for top, below in zip(tops, down, strict=True)
        if top is not None
    )


def corner_places(area: PlanArea) -> list[Place]:
    """Return a place at every corner of the outline and of its holes."""
    return [
        Place(PegRole.CORNER, corner.xy, corner.name) for ring in (area.ring, *area.holes) for corner in ring.corners
    ]


def fold_places(finished: FinishedArea) -> list[Place]:
    """Return a place at every end of a fold that is no corner."""
    return [Place(PegRole.FOLD, spot.at, spot.label) for spot in finished.spots if spot.kind is SpotKind.FOLD]


def edge_places(area: PlanArea, figures: SetOutFigures) -> list[Place]:
    """Return places along the sides so that no two stand further apart than the rule; arcs are set out closer."""
    found: list[Place] = []
    for side in area.sides:
        arc = side.start.rise_mm != 0.0
        spacing = figures.arc_spacing_mm if arc else figures.peg_spacing_mm
        path = LineString([*side.points(), side.end.xy])
        parts = math.ceil(path.length / spacing - 1e-9)
        for k in range(1, parts):
            point = path.interpolate(path.length * k / parts)
            found.append(Place(PegRole.EDGE, (float(point.x), float(point.y)), f"on {side.name}"))
    return found


def grid_places(area: PlanArea, base: Base, figures: SetOutFigures) -> list[Place]:
    """Return places inside the area where strings along and square to the base line cross."""
    spacing = figures.peg_spacing_mm
    measured = [base.measures(point) for point in area.gross.outer]
    reaches = [(min(values), max(values)) for values in zip(*measured, strict=True)]
    (low, high), (near, far) = reaches
    columns = max(1, math.ceil((high - low) / spacing - 1e-9))
    rows = max(1, math.ceil((far - near) / spacing - 1e-9))
    edge = shapely.LinearRing(area.gross.outer)
    found = []
    for row in range(1, rows):
        for column in range(1, columns):
            along = low + (high - low) * column / columns
            offset = near + (far - near) * row / rows
            at = base.place(along, offset)
            if area.shape.contains(at) and edge.distance(shapely.Point(at)) > spacing / 6.0:
                found.append(Place(PegRole.GRID, at, "inside"))
    return found


def base_places(base: Base) -> list[Place]:
    """Return the two places between which the base line runs, where it has pegs of its own."""
    if not base.own_pegs:
        return []
    return [
        Place(PegRole.BASE, base.start, "start of the base line", Stands.PIN),
        Place(PegRole.BASE, base.end, "end of the base line", Stands.PIN),
    ]


def profile_places(
    area: PlanArea, site: SitePlan, around: Surroundings, figures: SetOutFigures, out_mm: float
) -> dict[tuple[int, bool], Place]:
    """Return places outside the dig in line with each straight side, by number of the side and whether past its start.

    A place that a wall or a boundary cuts off is left out: there the string is tied to a mark at the corner. One in the
    band of a service, at a wall or in something that stands there is moved along its line; where the line has no other
    place it stays and is flagged.
    """
    found: dict[tuple[int, bool], Place] = {}
    for number, side in enumerate(area.sides):
        if side.start.rise_mm != 0.0:
            continue
        ux, uy = unit_vector(side.start.xy, side.end.xy)
        for past_start in (True, False):
            corner = side.start if past_start else side.end
            way = (-ux, -uy) if past_start else (ux, uy)
            place = pin_past(corner.xy, way, area, site, around, figures, out_mm)
            if place is not None:
                words = f"in line with {side.name}, past {corner.name}"
                found[number, past_start] = Place(PegRole.PROFILE, place, words, Stands.PIN)
    return found


def pin_past(
    edge: XY,
    way: XY,
    area: PlanArea,
    site: SitePlan,
    around: Surroundings,
    figures: SetOutFigures,
    out_mm: float,
) -> XY | None:
    """Return a place for a pin past the edge of an area along a line; None where a wall or a boundary cuts it off.

    Args:
        edge: Where the line leaves the area. [mm]
        way: Its direction, of length one, away from the area.
        area: The area.
        site: The site.
        around: What stands in the way.
        figures: The figures of setting out.
        out_mm: How far past the edge the pin stands. [mm]
    """
    barriers = [(wall.start, wall.end) for wall in site.walls]
    barriers += [(line.start, line.end) for line in site.boundaries]
    outs = [out_mm + step for step in _STEPS_MM if out_mm + step > 0.0]
    tried = [(edge[0] + out * way[0], edge[1] + out * way[1]) for out in outs]
    open_to = (
        at
        for at in tried
        if around.between(edge, at) is None
        and not any(_cut_off(edge, at, area, *barrier, figures.meets_mm) for barrier in barriers)
    )
    return _place_for_pin(open_to, around)


def _place_for_pin(places: Iterator[XY], around: Surroundings) -> XY | None:
    """Return the first place that takes a pin, else the first that would but for a service, if there is one."""
    flagged = None
    for at in places:
        if around.takes_pin(at):
            return at
        if flagged is None and around.takes_pin(at, past_services=True):
            flagged = at
    return flagged


_STEPS_MM = (*range(0, 1600, 100), *range(-100, -500, -100))
"""A profile is moved along its line by so much where it cannot stand, first away from the dig, then nearer. [mm]"""


_ON_FACE_MM = 50.0
"""A place this near to the face of a wall is marked on it. [mm]"""


def _cut_off(corner: XY, at: XY, area: PlanArea, start: XY, end: XY, meets_mm: float) -> bool:
    """Return whether a wall or boundary stands between a corner and a place, or the place lies behind it."""
    barrier = LineString([start, end])
    if barrier.distance(shapely.Point(corner)) > meets_mm:
        return bool(barrier.intersects(LineString([corner, at])))
    own_side = side_beside(start, end, area.gross.polygon, BESIDE_MM)
    beyond = along_and_offset(start, end, at)[1]
    return own_side is not None and abs(beyond) > meets_mm and own_side * beyond < 0.0


def stands_at(place: Place, site: SitePlan) -> Stands:
    """Return how a place is held: a place at the face of a wall is marked on it."""
    if place.stands is Stands.DIP and any(
        LineString([wall.start, wall.end]).distance(shapely.Point(place.at)) <= _ON_FACE_MM for wall in site.walls
    ):
        return Stands.MARK
    return place.stands


def peg_name(number: int) -> str:
    """Return the name of a peg on the sheet."""
    return f"Peg {number}"


def peg(
    number: int,
    place: Place,
    base: Base,
    finished: FinishedArea,
    build_up: AreaBuildUp,
    string_mm: float,
) -> Peg:
    """Return a place as a numbered peg with its heights."""
    along, offset = base.measures(place.at)
    return Peg(
        number=number,
        name=peg_name(number),
        area=finished.area,
        role=place.role,
        at=place.at,
        string_level_mm=finished.surface.level_at(place.at) + string_mm,
        heights=heights(place.at, finished, build_up, string_mm),
        from_corner=f"{place.said}: {base.words(place.at)}",
        along_mm=along,
        offset_mm=offset,
        stands=place.stands,
    )
