"""Cut, fill and what leaves the site."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._care import root_findings, roots_near, service_findings, services_near, wall_findings
from pavewright.earthworks._codes import Code
from pavewright.earthworks._figures import figures
from pavewright.earthworks._fill import compaction, compactor, fill_layers, fill_working
from pavewright.earthworks._ground_findings import ground_findings, plate_findings
from pavewright.earthworks._loads import barrows, loads, loose, mass, more_loads
from pavewright.earthworks._sides import STATION_MM, side_volume
from pavewright.earthworks._soils import gathered, soils_dug, used_again
from pavewright.earthworks._strip import stripped_volumes, topsoil_allowance
from pavewright.earthworks._types import AreaDig, Dug, Earthworks, ZoneDig
from pavewright.earthworks._words import no_ground
from pavewright.findings import Finding, Severity, in_order
from pavewright.geometry import bearing_of
from pavewright.job import Soil
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.earthworks._figures import EarthworkFigures, SoilFigures
    from pavewright.earthworks._types import FillLayers, SoilDig
    from pavewright.geometry import PrismVolumes, Shape, TriangulatedSurface
    from pavewright.job import Ground, Job
    from pavewright.laying import LayingPlan
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey


def dig(job: Job, survey: Survey, build_ups: BuildUps, rules: Rulebook, laying: LayingPlan | None = None) -> Earthworks:
    """Return the dig of every area against the ground as it lies, all topsoil off, and what leaves as ranges.

    Spoil is not used again under paving unless the job says so: then subsoil fills, and the rest of it is clean stone.
    With the laying plan it is reported by zone too.
    """
    site, ground, known = survey.site, survey.ground, figures(rules)
    near = services_near(build_ups, site, ground, known.care, job.site.ground.topsoil_mm or 0.0)
    roots = roots_near(build_ups, site, known.care)
    findings: list[Finding] = service_findings(near, site, known.care)
    findings += root_findings(roots, site, known.care)
    areas: tuple[AreaDig, ...] = ()
    if ground is None:
        findings.append(_no_ground())
    else:
        areas = tuple(
            _area_dig(up, ground, job, site.area(up.area).gross, _zones(laying, up.area), known)
            for up in build_ups.areas
        )
        findings += [each for one in areas for each in ground_findings(one, known.care)]
        findings += wall_findings(build_ups, site, ground, known.care)
    courses = compaction(build_ups, job.rates, known.fill)
    findings += plate_findings(courses)
    found = _with_what_leaves(job, areas, build_ups, ground, in_order(findings), known.soils)
    return replace(found, compaction=courses, services_near=near, roots_near=roots)


def _with_what_leaves(
    job: Job,
    areas: tuple[AreaDig, ...],
    build_ups: BuildUps,
    ground: TriangulatedSurface | None,
    findings: tuple[Finding, ...],
    figures_of: SoilFigures,
) -> Earthworks:
    """Return the digs of all areas with what fills, what stays and what leaves."""
    cut, fill = sum(one.volumes.cut_m3 for one in areas), sum(one.volumes.fill_m3 for one in areas)
    leaving = _leaving(job.site.ground, areas, build_ups, fill, figures_of)
    away_m3, used = leaving.away_m3, leaving.used
    loose_m3, loose_workings = loose(leaving.by_class, figures_of)
    tonnes, mass_workings = mass(leaving.by_class, figures_of)
    disposal = job.rates.disposal
    count, load_working = (None, None) if disposal is None else loads(loose_m3, tonnes, disposal)
    allowances = tuple(area.topsoil for area in areas if area.topsoil is not None)
    barrow_count, barrow_working = barrows(loose_m3, figures_of.barrow)
    again = _USED if used else "spoil is not used again under paving; fill is clean stone"
    workings = (
        *(Working(f"{each.soil.words} dug", each.cut_m3, "m³", (), _LAYERED) for each in leaving.soils),
        *used,
        Working("leaves = cut" if not used else f"leaves = {cut:.3f} with what is above", away_m3, "m³", (), again),
        *loose_workings,
        *mass_workings,
        *((load_working,) if load_working is not None else ()),
        barrow_working,
        *(each.working for each in allowances),
        *_slope(ground),
    )
    return Earthworks(
        areas=areas,
        cut_m3=cut,
        fill_m3=fill,
        away_m3=away_m3,
        loose_m3=loose_m3,
        tonnes=tonnes,
        loads=count,
        load_kind=disposal.kind if disposal is not None else "",
        barrows=barrow_count,
        workings=workings if areas else (),
        findings=findings,
        soils=leaving.soils,
        reused_m3=leaving.reused_m3,
        loads_working=load_working,
        provisional=allowances,
        provisional_loads=more_loads(loose_m3, tonnes, leaving.first, allowances, disposal, figures_of),
    )


@dataclass(frozen=True, slots=True)
class _Leaving:
    """What leaves the site, what is used again, and the sums.

    Attributes:
        soils: What is dug of each soil over all areas.
        away_m3: What leaves, in the ground. [m³]
        by_class: The same by the class by which it bulks. [m³]
        reused_m3: Fill made of what is dug, compacted. [m³]
        used: The sums.
        first: The soil that is dug first; roots and topsoil bulk as it does.
    """

    soils: tuple[SoilDig, ...]
    away_m3: float
    by_class: dict[Soil, float]
    reused_m3: float
    used: tuple[Working, ...]
    first: Soil


def _leaving(
    known: Ground, areas: tuple[AreaDig, ...], build_ups: BuildUps, fill_m3: float, figures_of: SoilFigures
) -> _Leaving:
    """Return what leaves of all that is dug, trenches of low walls and edges with it."""
    soils = gathered(part for one in areas for part in one.soils)
    away, reused, used = used_again(soils, known, fill_m3, figures_of)
    # roots and soil of one class bulk alike; with layers entered each bulks by its own class
    first = known.strata[0].soil if known.strata else known.soil
    walls = sum(edge.wall.trench_m3 for edge in build_ups.retained if edge.wall is not None)
    edges = sum(up.edge_trench_m3 for up in build_ups.areas)
    for words, trench in (("trenches of low walls", walls), ("trenches for the beds of edges", edges)):
        if areas and trench > 0.0:
            away[Dug(first)] = away.get(Dug(first), 0.0) + trench
            used = (*used, Working(words, trench, "m³", (), "leaves with the rest"))
    by_class: dict[Soil, float] = {}
    for dug, m3 in away.items():
        name = dug.soil or first
        by_class[name] = by_class.get(name, 0.0) + m3
    return _Leaving(soils, sum(away.values()), by_class or {known.soil: 0.0}, reused, used, first)


_USED = "fill of it and what stays taken off, trenches added"
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
    up: AreaBuildUp,
    ground: TriangulatedSurface,
    job: Job,
    paved: Shape,
    zones: list[tuple[str, Shape]],
    read: EarthworkFigures,
) -> AreaDig:
    known = job.site.ground
    topsoil = known.topsoil_mm or 0.0
    found, beyond_m2 = stripped_volumes(ground, up.formation, up.dig_shape, topsoil)
    depth = max(topsoil - found.shallowest_mm, 0.0) if found.fill_m3 >= _TRIMMED_M3 else 0.0
    plate, _ = compactor(job.rates, read.fill)
    layers = fill_layers(depth, plate, read.fill, cohesive=known.reuse_as_fill and known.soil in _COHESIVE)
    sides, beside = _sides(up, ground, job, paved)
    margin, spare = _margin(up, topsoil, known.side_room_mm)
    return AreaDig(
        area=up.area,
        volumes=found,
        dig_m2=found.area_m2,
        beyond_m2=beyond_m2,
        mean_depth_mm=units.m_to_mm(found.net_m3 / found.area_m2) if found.area_m2 else 0.0,
        workings=(*_workings(found, beyond_m2, topsoil, layers), *spare, *beside),
        soils=soils_dug(ground, up.formation, up.dig_shape, known, found.cut_m3),
        zones=_by_zone(up, ground, found, zones, topsoil),
        sides_m3=sides,
        margin_m3=margin,
        fill_depth_mm=depth,
        fill_layers=layers,
        topsoil=topsoil_allowance(up.area, ground, up.formation, up.dig_shape, read.topsoil)
        if known.topsoil_mm is None
        else None,
    )


_TRIMMED_M3 = 0.01
"""Less fill than this in an area is trimmed from what is dug, not filled. [m³]"""
_COHESIVE = frozenset({Soil.HEAVY_CLAY, Soil.SILTY_CLAY, Soil.SANDY_CLAY, Soil.SILT, Soil.UNKNOWN})
"""Soils that are compacted as clay is."""


def _workings(
    found: PrismVolumes, beyond_m2: float, topsoil_mm: float, layers: FillLayers | None
) -> tuple[Working, ...]:
    """Return the sums behind cut, fill and depth."""
    mean = units.m_to_mm(found.net_m3 / found.area_m2) if found.area_m2 else 0.0
    stripped = found.area_m2 * units.mm_to_m(topsoil_mm)
    words = f"topsoil off = {found.area_m2:.2f} × {topsoil_mm:g} mm"
    topsoil = (Working(words, stripped, "m³", (), "over all that is dug, however deep formation lies"),)
    return (
        *(topsoil if topsoil_mm > 0.0 else ()),
        Working(
            f"net = {found.cut_m3:.3f} cut − {found.fill_m3:.3f} fill",
            found.net_m3,
            "m³",
            (),
            f"exact over the triangles between spot levels; {beyond_m2:.1f} m² run on past them",
        ),
        Working(f"mean depth = {found.net_m3:.3f} / {found.area_m2:.2f}", mean, "mm", (), "net over the area dug"),
        *((fill_working(layers),) if layers is not None else ()),
    )


def _margin(up: AreaBuildUp, topsoil_mm: float, room_mm: float) -> tuple[float, tuple[Working, ...]]:
    """Return topsoil taken off beside the dig for room to work and put back; nothing where room is dug to formation."""
    wide = up.strip_shape.area_m2 - up.dig_shape.area_m2
    if room_mm > 0.0 or topsoil_mm <= 0.0 or wide <= 0.0:
        return 0.0, ()
    margin = wide * units.mm_to_m(topsoil_mm)
    words = f"room to work = {wide:.2f} m² × {topsoil_mm:g} mm of topsoil"
    return margin, (Working(words, margin, "m³", (), "beside the dig; put back afterwards"),)


def _sides(up: AreaBuildUp, ground: TriangulatedSurface, job: Job, paved: Shape) -> tuple[float, tuple[Working, ...]]:
    """Return what is dug beside free edges and filled again, where the job asks for room or slopes."""
    room, slope = job.site.ground.side_room_mm, job.site.ground.side_slope
    if room <= 0.0 and slope <= 0.0:
        return 0.0, ()
    topsoil = job.site.ground.topsoil_mm or 0.0
    sides, along = side_volume(ground, up.formation, up.dig_shape, paved, room, slope, topsoil)
    words = f"beside {along:.1f} m of free edge: room {room:g} mm, sides {slope:g} to 1"
    return sides, (Working(words, sides, "m³", (), f"end areas every {STATION_MM:g} mm; dug and filled again"),)


def _by_zone(
    up: AreaBuildUp,
    ground: TriangulatedSurface,
    whole: PrismVolumes,
    zones: list[tuple[str, Shape]],
    topsoil_mm: float,
) -> tuple[ZoneDig, ...]:
    """Return cut and fill by zone, the rest of the area last; nothing where there are none."""
    if not zones:
        return ()
    found = []
    for name, shape in zones:
        part, _ = stripped_volumes(ground, up.formation, shape, topsoil_mm)
        found.append(ZoneDig(name, part.cut_m3, part.fill_m3, part.area_m2))
    rest = (
        whole.cut_m3 - sum(each.cut_m3 for each in found),
        whole.fill_m3 - sum(each.fill_m3 for each in found),
        whole.area_m2 - sum(each.dig_m2 for each in found),
    )
    return (*found, ZoneDig("", *(max(each, 0.0) for each in rest)))


def _no_ground() -> Finding:
    return Finding(
        Code.NO_GROUND,
        Severity.CHECK,
        "ground",
        no_ground(),
    )
