"""Where to dig with care: services, roots and walls."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Point

from pavewright.earthworks import _words as words
from pavewright.earthworks._codes import Code
from pavewright.earthworks._types import RootsNear, ServiceNear, ServiceState
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.earthworks._figures import CareFigures
    from pavewright.geometry import TriangulatedSurface
    from pavewright.job import Service
    from pavewright.survey import SitePlan

_EVERY_MM = 250.0
"""A service is followed in steps no longer than this: ground hardly bends within it. [mm]"""


def services_near(
    build_ups: BuildUps, site: SitePlan, ground: TriangulatedSurface | None, known: CareFigures, topsoil_mm: float = 0.0
) -> tuple[ServiceNear, ...]:
    """Return every known service that a dig comes near, with how deep the dig goes beside it.

    Args:
        build_ups: Formation and what is dug.
        site: The site in plan.
        ground: The ground as it lies; None where it was not levelled.
        known: Where to dig with care.
        topsoil_mm: Depth of topsoil, all of which is dug. [mm]
    """
    found = []
    for number, placed in enumerate(site.services):
        line = LineString(placed.points) if len(placed.points) > 1 else Point(placed.points[0])
        met = [up for up in build_ups.areas if up.dig_shape.polygon.distance(line) < known.hand_dig.value]
        if met:
            deep, at = _deepest(line, met, ground, topsoil_mm, known.hand_dig.value)
            state = _state(placed.service.depth_mm, deep, known.met_below_mm)
            found.append(ServiceNear(number, tuple(up.area for up in met), deep, state, at))
    return tuple(found)


def _state(lies_mm: float | None, dig_mm: float | None, met_below_mm: float) -> ServiceState:
    if lies_mm is None or dig_mm is None:
        return ServiceState.NOT_KNOWN
    return ServiceState.MET if lies_mm < dig_mm + met_below_mm else ServiceState.BELOW_THE_DIG


def service_findings(near: Iterable[ServiceNear], site: SitePlan, known: CareFigures) -> list[Finding]:
    """Return a finding for every known service that a dig comes near, and a caution where none is known at all."""
    if not site.services:
        said = words.services_unknown()
        return [Finding(Code.SERVICES_UNKNOWN, Severity.CHECK, "whole site", said, figure=known.hand_dig)]
    return [_service(each, site.services[each.number].service, known) for each in near]


def _service(near: ServiceNear, service: Service, known: CareFigures) -> Finding:
    meets = near.state is ServiceState.MET
    said, options = words.service_in_dig(service, known.hand_dig.value, near.areas, near.dig_mm, meets=meets)
    return Finding(
        Code.SERVICE_IN_DIG,
        Severity.STOP if meets else Severity.CHECK,
        f"service {service.name}",
        said,
        value=near.dig_mm,
        limit=service.depth_mm,
        unit="mm",
        figure=known.hand_dig,
        options=options,
        at_mm=near.at_mm,
    )


def _deepest(
    line: LineString | Point,
    met: list[AreaBuildUp],
    ground: TriangulatedSurface | None,
    topsoil_mm: float,
    near_mm: float,
) -> tuple[float | None, tuple[float, float]]:
    """Return how deep the dig goes where it is deepest along a service, and where; no depth without ground levels.

    The service is followed through every dig that comes near it, at its bends and every so often between them.
    """
    depth: float | None = None
    place: tuple[float, float] | None = None
    for up in met:
        part = shapely.segmentize(line.intersection(up.dig_shape.polygon.buffer(near_mm)), _EVERY_MM)
        for x, y in shapely.get_coordinates(part).tolist():
            place = place or (x, y)
            if ground is None:
                continue
            here = max(ground.level_beyond((x, y)) - up.formation.level_at((x, y)), topsoil_mm)
            if depth is None or here > depth:
                depth, place = here, (x, y)
    if place is None:
        first = line.coords[0]
        place = float(first[0]), float(first[1])
    return depth, place


def roots_near(build_ups: BuildUps, site: SitePlan, known: CareFigures) -> tuple[RootsNear, ...]:
    """Return every tree into whose root area a dig goes."""
    found = []
    for number, placed in enumerate(site.trees):
        reach = known.root_times_stem.value * placed.tree.stem_diameter_mm
        away = {up.area: up.dig_shape.polygon.distance(Point(placed.at)) for up in build_ups.areas}
        near = {area: distance for area, distance in away.items() if distance < reach}
        if near:
            found.append(RootsNear(number, tuple(near), min(near.values()), reach))
    return tuple(found)


def root_findings(near: Iterable[RootsNear], site: SitePlan, known: CareFigures) -> list[Finding]:
    """Return a finding for every tree into whose root area a dig goes."""
    found = []
    for each in near:
        placed = site.trees[each.number]
        said, options = words.roots(placed.tree, each.away_mm, each.reach_mm)
        found.append(
            Finding(
                Code.ROOTS,
                Severity.CHECK,
                f"tree {placed.tree.name}",
                said,
                each.away_mm,
                each.reach_mm,
                "mm",
                known.root_times_stem,
                options=options,
                at_mm=placed.at,
            )
        )
    return found


def wall_findings(
    build_ups: BuildUps, site: SitePlan, ground: TriangulatedSurface, known: CareFigures
) -> list[Finding]:
    """Return a finding for every wall beside which the dig goes deeper than is wise without looking at its footing."""
    limit = known.near_wall
    found = []
    for wall in site.walls:
        line = LineString([wall.start, wall.end])
        worst: tuple[float, tuple[float, float]] | None = None
        for up in build_ups.areas:
            if up.dig_shape.polygon.distance(line) > limit.value:
                continue
            for share in (0.0, 0.25, 0.5, 0.75, 1.0):
                at = line.interpolate(share, normalized=True)
                if up.dig_shape.polygon.distance(at) > limit.value:
                    continue
                place = float(at.x), float(at.y)
                depth = ground.level_beyond(place) - up.formation.level_at(place)
                if worst is None or depth > worst[0]:
                    worst = depth, place
        if worst is not None and worst[0] > limit.value and math.isfinite(worst[0]):
            said, options = words.near_wall(wall.name, worst[0])
            found.append(
                Finding(
                    Code.NEAR_WALL,
                    Severity.CHECK,
                    f"wall {wall.name}",
                    said,
                    worst[0],
                    limit.value,
                    "mm",
                    limit,
                    options=options,
                    at_mm=worst[1],
                )
            )
    return found
