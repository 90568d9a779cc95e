"""Cut, fill and what leaves the site."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._care import root_findings, roots_near, service_findings, services_near, wall_findings
from pavewright.earthworks._codes import Code
from pavewright.earthworks._figures import figures
from pavewright.earthworks._fill import compaction, compactor, fill_layers, fill_working
from pavewright.earthworks._found import found_digs, found_findings
from pavewright.earthworks._ground_findings import ground_findings, plate_findings
from pavewright.earthworks._leaving import with_what_leaves
from pavewright.earthworks._sides import STATION_MM, side_volume
from pavewright.earthworks._soils import soils_dug
from pavewright.earthworks._strip import stripped_volumes, topsoil_allowance
from pavewright.earthworks._types import AreaDig, Earthworks, ZoneDig
from pavewright.earthworks._words import no_ground
from pavewright.findings import Finding, Severity, in_order
from pavewright.job import Soil
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.earthworks._figures import EarthworkFigures
    from pavewright.earthworks._types import FillLayers
    from pavewright.geometry import PrismVolumes, Shape, TriangulatedSurface
    from pavewright.job import Job
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
    extra = found_digs(job, build_ups, known) if areas else ()
    findings += found_findings(job, extra, build_ups)
    found = with_what_leaves(job, areas, build_ups, ground, in_order(findings), known.soils, extra)
    return replace(found, compaction=courses, services_near=near, roots_near=roots)


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
