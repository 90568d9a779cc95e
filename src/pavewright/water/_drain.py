"""Where the water of every area runs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity, in_order
from pavewright.water import _words_runs as words
from pavewright.water._before_after import before_and_after
from pavewright.water._codes import Code
from pavewright.water._figures import water_figures
from pavewright.water._findings import catchment_findings, front_findings, outfall_findings
from pavewright.water._idle import idle_findings, inlet_shares
from pavewright.water._types import Catchment, Water
from pavewright.water.drains import check_drains, drain_parts, drain_runs, soakaway_parts
from pavewright.water.ground import (
    check_soakaways,
    house_ground,
    letting_through,
    permeable_findings,
    size_of,
    soakaway_places,
)
from pavewright.water.runoff import (
    Caught,
    caught_on_folds,
    caught_on_plane,
    direction_is_level,
    routes,
    trapped_findings,
)

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types_parts import SoakawayParts

_LIMITS = (
    "On an area of one plane water follows its steepest fall to the first edge; a folded area is calculated on cells.",
    "Dishing round a gully is left out.",
    "A gully in the middle of a plane takes only the strip that runs over its grating.",
    "A gully or channel at the low end of a wall or kerb takes all that collects along it.",
    "Water passes over covers and round posts.",
    "Water that runs on to another area is followed to where it ends; how fast it comes is not.",
    "Where water goes from existing paving, or past a boundary inside the plot, of the owner's own is not looked at.",
    "Pipes are not checked against what they can carry; a channel is where its depth inside is given.",
    "Before the job the ground is taken as its spot levels show, 200 mm apart.",
)


def drain(job: Job, survey: Survey, levels: Levels, rules: Rulebook) -> Water:
    """Return what drains to each edge, channel and gully, its peak flow and its outfall."""
    figures = water_figures(rules)
    rain, runoff = figures.rain_mm_per_h, figures.runoff
    caught, findings = _caught(survey, levels, figures, rules)
    ways = routes(caught, survey, levels, figures)
    catchments = ways.catchments
    findings += ways.findings
    findings += catchment_findings(catchments, job, survey, levels, figures)
    findings += trapped_findings(catchments, survey, levels, figures)
    reaching = _reaching(catchments)
    findings += outfall_findings(catchments, reaching, survey, figures)
    shares = inlet_shares(catchments, survey, figures)
    findings += idle_findings(shares, catchments, job, survey, levels, figures)
    soakaways, noticed = check_soakaways(job.site, reaching, figures)
    findings += noticed
    pits = _pits(job, survey, reaching, figures)
    findings += soakaway_places(job.site, [each.size for each in pits], survey, figures)
    findings += house_ground(survey, figures)
    findings += front_findings(ways, survey, figures, letting_through(job, rules))
    drains, too_small = check_drains(job.site.channels, survey.site, catchments, figures)
    findings += permeable_findings(job, survey, levels, catchments, rules)
    storm, more = before_and_after(survey, catchments, job.site.rain, figures, rules)
    findings += [*too_small, *more]
    return Water(
        rain=rain,
        runoff=runoff,
        catchments=catchments,
        total_l_s=sum(each.flow_l_s for each in catchments),
        findings=in_order(findings),
        limits=_LIMITS,
        soakaways=soakaways,
        drains=drains,
        storm=storm,
        pits=pits,
        inlets=drain_parts(job.site, survey),
        shares=shares,
        runs=drain_runs(job, survey, levels, figures),
    )


def _caught(
    survey: Survey, levels: Levels, figures: WaterFigures, rules: Rulebook
) -> tuple[list[Caught], list[Finding]]:
    """Return what drains where on every area, and the areas that are level."""
    caught: list[Caught] = []
    findings: list[Finding] = []
    for area in survey.site.areas:
        finished = levels.area(area.name)
        plane = finished.plane
        if not finished.surface.is_plane:
            caught.extend(caught_on_folds(area, finished, survey, figures, rules))
            continue
        if direction_is_level(plane.fall):
            findings.append(_level(area))
            continue
        caught.extend(caught_on_plane(area, plane, survey.site, figures))
    return caught, findings


def _reaching(caught: tuple[Catchment, ...]) -> dict[str, float]:
    """Return the paving whose water reaches each outfall. [m²]."""
    found: dict[str, float] = {}
    for each in caught:
        if each.outfall is not None:
            found[each.outfall] = found.get(each.outfall, 0.0) + each.whole_m2
    return found


def _pits(job: Job, survey: Survey, reaching: dict[str, float], figures: WaterFigures) -> tuple[SoakawayParts, ...]:
    found = []
    for outfall in job.site.outfalls:
        size = size_of(outfall, reaching.get(outfall.name, 0.0), job.site.rain, figures)
        if size is not None:
            runs = tuple(each.run for each in drain_parts(job.site, survey) if each.run.outfall == outfall.name)
            found.append(soakaway_parts(size, runs, figures))
    return tuple(found)


def _level(area: PlanArea) -> Finding:
    said, options = words.level_surface(area.name)
    place, at = f"area {area.name}", area.gross.centre_mm
    return Finding(Code.LEVEL_SURFACE, Severity.STOP, place, said, options=options, at_mm=at)
