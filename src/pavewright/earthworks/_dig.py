"""Cut, fill and what leaves the site."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._care import ground_findings, root_findings, service_findings, wall_findings
from pavewright.earthworks._loads import barrows, loads, loose, mass
from pavewright.earthworks._sides import STATION_MM, side_volume
from pavewright.earthworks._soils import TOPSOIL, gathered, soils_dug, used_again
from pavewright.earthworks._types import AreaDig, Earthworks, ZoneDig
from pavewright.earthworks._volumes import volumes
from pavewright.findings import Finding, Severity, in_order
from pavewright.geometry import bearing_of
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.geometry import PrismVolumes, Shape, TriangulatedSurface
    from pavewright.job import Ground, Job
    from pavewright.laying import LayingPlan
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey


def dig(job: Job, survey: Survey, build_ups: BuildUps, rules: Rulebook, laying: LayingPlan | None = None) -> Earthworks:
    """Return the dig of every area against the ground as it lies, and what leaves as ranges.

    Spoil is not used again under paving unless the job says so: then subsoil fills, and the rest of it is clean stone.
    With the laying plan it is told by zone too.
    """
    site, ground = survey.site, survey.ground
    findings: list[Finding] = service_findings(build_ups, site, ground, rules)
    findings += root_findings(build_ups, site, rules)
    areas: tuple[AreaDig, ...] = ()
    if ground is None:
        findings.append(_no_ground())
    else:
        areas = tuple(
            _area_dig(up, ground, job.site.ground, site.area(up.area).gross, _zones(laying, up.area))
            for up in build_ups.areas
        )
        findings += [told for one in areas for told in ground_findings(one, job.site.ground.topsoil_mm, rules)]
        findings += wall_findings(build_ups, site, ground, rules)
    cut = sum(one.volumes.cut_m3 for one in areas)
    fill = sum(one.volumes.fill_m3 for one in areas)
    soils = gathered(part for one in areas for part in one.soils)
    away, reused, used = used_again(soils, job.site.ground, fill, rules)
    away_m3 = sum(away.values())
    own = job.site.ground.soil.value
    # roots and soil of one class bulk alike; with layers told each bulks by its own class
    first = job.site.ground.strata[0].soil.value if job.site.ground.strata else own
    by_class: dict[str, float] = {}
    for soil, m3 in away.items():
        name = first if soil == TOPSOIL else soil
        by_class[name] = by_class.get(name, 0.0) + m3
    loose_m3, loose_workings = loose(by_class or {own: 0.0}, rules)
    tonnes, mass_workings = mass(by_class or {own: 0.0}, rules)
    count, load_working = (None, None)
    if job.rates.disposal is not None:
        count, load_working = loads(loose_m3, tonnes, job.rates.disposal)
    barrow_count, barrow_working = barrows(loose_m3, rules)
    again = (
        "fill of it, and what stays, taken off" if used else "spoil is not used again under paving; fill is clean stone"
    )
    workings = [
        *(Working(f"{each.soil.replace('_', ' ')} dug", each.cut_m3, "m³", (), _LAYERED) for each in soils),
        *used,
        Working("leaves = cut" if not used else f"leaves = {cut:.3f} less what is used", away_m3, "m³", (), again),
        *loose_workings,
        *mass_workings,
        *((load_working,) if load_working is not None else ()),
        barrow_working,
        *_slope(ground),
    ]
    return Earthworks(
        areas=areas,
        cut_m3=cut,
        fill_m3=fill,
        away_m3=away_m3,
        loose_m3=loose_m3,
        tonnes=tonnes,
        loads=count,
        load_kind=job.rates.disposal.kind if job.rates.disposal is not None else "",
        barrows=barrow_count,
        workings=tuple(workings) if areas else (),
        findings=in_order(findings),
        soils=soils,
        reused_m3=reused,
        loads_working=load_working,
    )


_LAYERED = "cut under the ground as it lies less the cut under the next layer"


def _slope(ground: TriangulatedSurface | None) -> list[Working]:
    """Return how the ground slopes in general; nothing for ground that is not known or level."""
    if ground is None:
        return []
    plane = ground.general_slope
    fall = math.hypot(plane.slope_x, plane.slope_y)
    if fall < _LEVEL:
        return []
    bearing = bearing_of((-plane.slope_x / fall, -plane.slope_y / fall))
    words = f"ground falls in general towards {bearing:.0f}°, one in"
    return [Working(words, units.fall_to_one_in_n(fall), "", (), "plane that fits all spot levels best")]


_LEVEL = 1e-4


def _zones(laying: LayingPlan | None, area: str) -> list[tuple[str, Shape]]:
    """Return the zones of an area with their shapes."""
    return [] if laying is None else [(zone.name, zone.shape) for zone in laying.area(area).zones]


def _area_dig(
    up: AreaBuildUp, ground: TriangulatedSurface, known: Ground, paved: Shape, zones: list[tuple[str, Shape]]
) -> AreaDig:
    found, beyond_m2 = volumes(ground, up.formation, up.dig_shape)
    mean = units.m_to_mm(found.net_m3 / found.area_m2) if found.area_m2 else 0.0
    workings = [
        Working(
            f"net = {found.cut_m3:.3f} cut − {found.fill_m3:.3f} fill",
            found.net_m3,
            "m³",
            (),
            f"exact over the triangles between spot levels; {beyond_m2:.1f} m² run on past them",
        ),
        Working(f"mean depth = {found.net_m3:.3f} / {found.area_m2:.2f}", mean, "mm", (), "net over the area dug"),
    ]
    sides = 0.0
    if known.side_room_mm > 0.0 or known.side_slope > 0.0:
        room, slope = known.side_room_mm, known.side_slope
        sides, along = side_volume(ground, up.formation, up.dig_shape, paved, room, slope)
        words = f"beside {along:.1f} m of free edge: room {room:g} mm, sides {slope:g} to 1"
        workings.append(Working(words, sides, "m³", (), f"end areas every {STATION_MM:g} mm; dug and filled again"))
    return AreaDig(
        area=up.area,
        volumes=found,
        dig_m2=found.area_m2,
        beyond_m2=beyond_m2,
        mean_depth_mm=mean,
        workings=tuple(workings),
        soils=soils_dug(ground, up.formation, up.dig_shape, known, found.cut_m3),
        zones=_by_zone(up, ground, found, zones),
        sides_m3=sides,
    )


def _by_zone(
    up: AreaBuildUp, ground: TriangulatedSurface, whole: PrismVolumes, zones: list[tuple[str, Shape]]
) -> tuple[ZoneDig, ...]:
    """Return cut and fill by zone, the rest of the area last; nothing where there are none."""
    if not zones:
        return ()
    found = []
    for name, shape in zones:
        part, _ = volumes(ground, up.formation, shape)
        found.append(ZoneDig(name, part.cut_m3, part.fill_m3, part.area_m2))
    rest = (
        whole.cut_m3 - sum(each.cut_m3 for each in found),
        whole.fill_m3 - sum(each.fill_m3 for each in found),
        whole.area_m2 - sum(each.dig_m2 for each in found),
    )
    return (*found, ZoneDig("", *(max(each, 0.0) for each in rest)))


def _no_ground() -> Finding:
    return Finding(
        "earthworks.no_ground",
        Severity.CHECK,
        "ground",
        "There are no spot levels of the ground, so the dig is not known. Read the staff on the ground at every corner "
        "and every 3 m inside.",
    )
