"""Where to dig with care: services, roots, walls, deep places, and ground that nobody levelled."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.earthworks._types import AreaDig
    from pavewright.geometry import TriangulatedSurface
    from pavewright.rules import Rulebook
    from pavewright.survey import PlacedService, SitePlan

_SAY_MM = 20.0
"""Ground this little below formation is trimmed and rolled, not filled. [mm]"""
_DRAIN_COVER_MM = 150.0
"""A service less than this below formation is met by the dig, as far as its depth is known. [mm]"""


def service_findings(
    build_ups: BuildUps, site: SitePlan, ground: TriangulatedSurface | None, rules: Rulebook
) -> list[Finding]:
    """Return a finding for every known service that a dig comes near, and a caution where none is known at all."""
    near = rules.figure("earthworks.hand_dig_mm")
    if not site.services:
        words = (
            "No service is entered. That does not mean that there is none: ask for the records and have the ground "
            "traced before anybody digs."
        )
        return [Finding("earthworks.services_unknown", Severity.CHECK, "whole site", words, figure=near)]
    found = []
    for placed in site.services:
        line = LineString(placed.points) if len(placed.points) > 1 else Point(placed.points[0])
        met = [up for up in build_ups.areas if up.dig_shape.polygon.distance(line) < near.value]
        if met:
            found.append(_service(placed, line, met, ground, near.value, rules))
    return found


def _service(
    placed: PlacedService,
    line: LineString | Point,
    met: list[AreaBuildUp],
    ground: TriangulatedSurface | None,
    near_mm: float,
    rules: Rulebook,
) -> Finding:
    service = placed.service
    at = line.intersection(met[0].dig_shape.polygon.buffer(near_mm)).representative_point()
    place = float(at.x), float(at.y)
    names = ", ".join(up.area for up in met)
    words = f"{service.name} ({service.kind}) runs within {near_mm:.0f} mm of the dig of {names}."
    severity = Severity.CHECK
    depth = ground.level_beyond(place) - met[0].formation.level_at(place) if ground is not None else None
    if service.depth_mm is None:
        words += " Its depth is not known."
    elif depth is not None and service.depth_mm < depth + _DRAIN_COVER_MM:
        severity = Severity.STOP
        words += (
            f" It is said to lie {service.depth_mm:.0f} mm down and the dig goes {depth:.0f} mm down there: they meet."
        )
    else:
        words += f" It is said to lie {service.depth_mm:.0f} mm down; records of depth are often wrong."
    return Finding(
        "earthworks.service_in_dig",
        severity,
        f"service {service.name}",
        f"{words} Trace it, mark it and dig by hand beside it.",
        value=None if depth is None else depth,
        limit=service.depth_mm,
        unit="mm",
        figure=rules.figure("earthworks.hand_dig_mm"),
        ways_out=("Move the edge of the paving away from it.", "Have its owner lower, move or protect it."),
        at_mm=place,
    )


def root_findings(build_ups: BuildUps, site: SitePlan, rules: Rulebook) -> list[Finding]:
    """Return a finding for every tree into whose root area a dig goes."""
    times = rules.figure("earthworks.root_times_stem")
    found = []
    for placed in site.trees:
        reach = times.value * placed.tree.stem_diameter_mm
        near = [up for up in build_ups.areas if up.dig_shape.polygon.distance(Point(placed.at)) < reach]
        if not near:
            continue
        away = min(up.dig_shape.polygon.distance(Point(placed.at)) for up in near)
        law = {
            True: " It is protected: ask the council before any digging.",
            False: "",
            None: " Whether it is protected is not known: ask the council first.",
        }[placed.tree.protected]
        found.append(
            Finding(
                "earthworks.roots",
                Severity.CHECK,
                f"tree {placed.tree.name}",
                f"The dig comes to {units.metres_text(away)} of {placed.tree.name}; its roots reach about "
                f"{units.metres_text(reach)}.{law}",
                away,
                reach,
                "mm",
                times,
                ways_out=("Keep the paving away from it.", "Lay on a shallow base dug by hand, roots kept."),
                at_mm=placed.at,
            )
        )
    return found


def ground_findings(dig: AreaDig, topsoil_mm: float, rules: Rulebook) -> list[Finding]:
    """Return findings on fill, topsoil left, deep digs and ground run on."""
    place = f"area {dig.area}"
    shallow, deep = dig.volumes.shallowest_mm, dig.volumes.deepest_mm
    found = []
    share, most = (dig.beyond_m2 / dig.dig_m2 if dig.dig_m2 else 0.0), rules.figure("earthworks.run_on_share")
    if share > most.value:
        words = (
            f"{dig.beyond_m2:.1f} of {dig.dig_m2:.1f} m² of the dig of {dig.area} lie past the outermost spot levels: "
            f"there the ground is run on. Read the staff on its far corners."
        )
        found.append(Finding("earthworks.ground_run_on", Severity.CHECK, place, words, share, most.value, "-", most))
    if shallow < -_SAY_MM:
        words = (
            f"Formation of {dig.area} stands up to {-shallow:.0f} mm over the ground: {dig.volumes.fill_m3:.2f} m³ of "
            f"clean stone go under it, in layers. Spoil is not used."
        )
        found.append(Finding("earthworks.fill", Severity.CHECK, place, words, shallow, 0.0, "mm"))
    elif shallow < topsoil_mm:
        words = (
            f"In places the dig of {dig.area} is only {shallow:.0f} mm deep and topsoil {topsoil_mm:.0f}: dig all "
            f"topsoil out and make up with stone."
        )
        found.append(Finding("earthworks.topsoil_left", Severity.CHECK, place, words, shallow, topsoil_mm, "mm"))
    limit = rules.figure("earthworks.deep_dig_mm")
    if deep > limit.value:
        words = (
            f"The dig of {dig.area} is {deep:.0f} mm deep in places. Have the sides looked at before anybody goes in."
        )
        found.append(Finding("earthworks.deep_dig", Severity.STOP, place, words, deep, limit.value, "mm", limit))
    return found


def wall_findings(build_ups: BuildUps, site: SitePlan, ground: TriangulatedSurface, rules: Rulebook) -> list[Finding]:
    """Return a finding for every wall beside which the dig goes deeper than is wise without looking at its footing."""
    limit = rules.figure("earthworks.near_wall_mm")
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
            found.append(
                Finding(
                    "earthworks.near_wall",
                    Severity.CHECK,
                    f"wall {wall.name}",
                    f"Beside wall {wall.name} the dig goes {worst[0]:.0f} mm below the ground. Look at the footing in "
                    f"a trial hole first: never dig below or into it.",
                    worst[0],
                    limit.value,
                    "mm",
                    limit,
                    ways_out=("Dig and fill in short lengths.", "Leave a margin along the wall unpaved."),
                    at_mm=worst[1],
                )
            )
    return found
