"""Cut, fill and what leaves the site."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._care import ground_findings, root_findings, service_findings, wall_findings
from pavewright.earthworks._loads import barrows, loads, loose, mass
from pavewright.earthworks._types import AreaDig, Earthworks
from pavewright.earthworks._volumes import volumes
from pavewright.findings import Finding, Severity, in_order
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.geometry import TriangulatedSurface
    from pavewright.job import Job
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey


def dig(job: Job, survey: Survey, build_ups: BuildUps, rules: Rulebook) -> Earthworks:
    """Return the dig of every area against the ground as it lies, and what leaves as ranges.

    Spoil is not used again under paving: all cut leaves, and fill is clean stone that is brought.
    """
    site, ground, soil = survey.site, survey.ground, job.site.ground.soil
    findings: list[Finding] = service_findings(build_ups, site, ground, rules)
    findings += root_findings(build_ups, site, rules)
    areas: tuple[AreaDig, ...] = ()
    if ground is None:
        findings.append(_no_ground())
    else:
        areas = tuple(_area_dig(up, ground) for up in build_ups.areas)
        findings += [told for one in areas for told in ground_findings(one, job.site.ground.topsoil_mm, rules)]
        findings += wall_findings(build_ups, site, ground, rules)
    cut = sum(one.volumes.cut_m3 for one in areas)
    fill = sum(one.volumes.fill_m3 for one in areas)
    loose_m3, loose_working = loose(cut, soil, rules)
    tonnes, mass_working = mass(cut, soil, rules)
    count, load_working = (None, None)
    if job.rates.disposal is not None:
        count, load_working = loads(loose_m3, tonnes, job.rates.disposal)
    barrow_count, barrow_working = barrows(loose_m3, rules)
    workings = [
        Working("leaves = cut", cut, "m³", (), "spoil is not used again under paving; fill is clean stone"),
        loose_working,
        mass_working,
        *((load_working,) if load_working is not None else ()),
        barrow_working,
    ]
    return Earthworks(
        areas=areas,
        cut_m3=cut,
        fill_m3=fill,
        away_m3=cut,
        loose_m3=loose_m3,
        tonnes=tonnes,
        loads=count,
        load_kind=job.rates.disposal.kind if job.rates.disposal is not None else "",
        barrows=barrow_count,
        workings=tuple(workings) if areas else (),
        findings=in_order(findings),
    )


def _area_dig(up: AreaBuildUp, ground: TriangulatedSurface) -> AreaDig:
    found, beyond_m2 = volumes(ground, up.formation, up.dig_shape)
    mean = units.m_to_mm(found.net_m3 / found.area_m2) if found.area_m2 else 0.0
    return AreaDig(
        area=up.area,
        volumes=found,
        dig_m2=found.area_m2,
        beyond_m2=beyond_m2,
        mean_depth_mm=mean,
        workings=(
            Working(
                f"net = {found.cut_m3:.3f} cut − {found.fill_m3:.3f} fill",
                found.net_m3,
                "m³",
                (),
                f"exact over the triangles between spot levels; {beyond_m2:.1f} m² run on past them",
            ),
            Working(f"mean depth = {found.net_m3:.3f} / {found.area_m2:.2f}", mean, "mm", (), "net over the area dug"),
        ),
    )


def _no_ground() -> Finding:
    return Finding(
        "earthworks.no_ground",
        Severity.CHECK,
        "ground",
        "There are no spot levels of the ground, so the dig is not known. Read the staff on the ground at every corner "
        "and every 3 m inside.",
    )
