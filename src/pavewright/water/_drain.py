"""Where the water of every area runs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import MultiPolygon, Polygon

from pavewright import units
from pavewright.findings import Finding, Severity, in_order
from pavewright.geometry import joined, shape_from_polygon, without
from pavewright.sums import Working
from pavewright.water._before_after import before_and_after
from pavewright.water._capacity import check_drains
from pavewright.water._findings import catchment_findings, front_findings, outfall_findings
from pavewright.water._folded import folded_parts
from pavewright.water._parts import drain_parts, soakaway_parts
from pavewright.water._pit_size import size_of
from pavewright.water._receivers import Receiver, cut_points, receiver
from pavewright.water._soakaway_places import house_ground, soakaway_places
from pavewright.water._soakaways import check_soakaways
from pavewright.water._strips import Strip, direction_is_level, strips
from pavewright.water._trapped import trapped_findings
from pavewright.water._types import Catchment, Water

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY, Plane
    from pavewright.job import Job
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, SitePlan, Survey
    from pavewright.water._types_parts import SoakawayParts

_LIMITS = (
    "On an area of one plane water follows its steepest fall to the first edge; a folded area is reckoned on cells.",
    "Dishing round a gully is not reckoned.",
    "A gully in the middle of a plane takes only the strip that runs over its grating.",
    "A gully at the low end of a wall or kerb takes all that collects along it.",
    "Water passes over covers and round posts.",
    "What runs on to another area is told and not added to what that area drains.",
    "Pipes are not held against what they can carry; a channel is where its depth inside is given.",
    "Before the job the ground is taken as its spot levels tell, 200 mm apart.",
)


def drain(job: Job, survey: Survey, levels: Levels, rules: Rulebook) -> Water:
    """Return what drains to each edge, channel and gully, its peak flow and its outfall."""
    rain, runoff = rules.figure("water.rain_mm_per_h"), rules.figure("water.runoff")
    caught: list[Catchment] = []
    findings: list[Finding] = []
    for area in survey.site.areas:
        finished = levels.area(area.name)
        plane = finished.plane
        if not finished.surface.is_plane:
            caught.extend(_folded(area, finished, survey, rules))
            continue
        if direction_is_level(plane.fall):
            findings.append(_level(area))
            continue
        caught.extend(_catchments(area, plane, survey.site, rules))
    catchments = tuple(caught)
    findings += catchment_findings(catchments, survey, rules)
    findings += trapped_findings(catchments, survey, levels, rules)
    findings += outfall_findings(catchments, survey, rules)
    reaching = _reaching(catchments)
    soakaways, told = check_soakaways(job.site, reaching, rules)
    findings += told
    pits = _pits(job, survey, reaching, rules)
    findings += soakaway_places(job.site, [each.size for each in pits], survey, rules)
    findings += house_ground(survey, rules)
    findings += front_findings(survey.site.areas, catchments, survey, rules)
    drains, too_small = check_drains(job.site.channels, survey.site, catchments, rules)
    storm, more = before_and_after(survey, catchments, job.site.rain, rules)
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
    )


def _reaching(caught: tuple[Catchment, ...]) -> dict[str, float]:
    """Return the paving whose water reaches each outfall. [m²]."""
    found: dict[str, float] = {}
    for each in caught:
        if each.outfall is not None:
            found[each.outfall] = found.get(each.outfall, 0.0) + each.area_m2
    return found


def _pits(job: Job, survey: Survey, reaching: dict[str, float], rules: Rulebook) -> tuple[SoakawayParts, ...]:
    found = []
    for outfall in job.site.outfalls:
        size = size_of(outfall, reaching.get(outfall.name, 0.0), job.site.rain, rules)
        if size is not None:
            runs = tuple(each.run for each in drain_parts(job.site, survey) if each.run.outfall == outfall.name)
            found.append(soakaway_parts(size, runs, rules))
    return tuple(found)


def _catchments(area: PlanArea, plane: Plane, site: SitePlan, rules: Rulebook) -> list[Catchment]:
    grouped: dict[Receiver, list[Strip]] = {}
    for strip in strips(_domain(area, site), plane.downhill, cut_points(area, site)):
        grouped.setdefault(receiver(strip, area, site, plane, rules), []).append(strip)
    return [_catchment(area, taker, taken, rules) for taker, taken in grouped.items()]


def _folded(area: PlanArea, finished: FinishedArea, survey: Survey, rules: Rulebook) -> list[Catchment]:
    how = "area from the cells that drain there"
    return [
        replace(_caught(area, part.taker, part.shapes, part.area_m2, part.at, how, rules), ways=part.ways)
        for part in folded_parts(area, finished, survey, rules)
    ]


def _domain(area: PlanArea, site: SitePlan) -> Polygon:
    """Return the paving on which water runs: gratings are taken out of it, covers and posts are not."""
    gratings = [
        shapely.box(x - half, y - half, x + half, y + half)
        for (x, y), half in ((placed.at, placed.gully.size_mm / 2.0) for placed in site.gullies)
    ]
    left = without(area.gross.polygon, joined(gratings)) if gratings else area.gross.polygon
    if isinstance(left, MultiPolygon):
        return max(left.geoms, key=lambda part: part.area)
    return left if isinstance(left, Polygon) else area.gross.polygon


def _catchment(area: PlanArea, taker: Receiver, taken: list[Strip], rules: Rulebook) -> Catchment:
    merged = joined([strip.polygon for strip in taken])
    parts = [part for part in shapely.get_parts(merged) if isinstance(part, Polygon)]
    area_m2 = units.mm2_to_m2(sum(strip.polygon.area for strip in taken))
    widest = max(taken, key=lambda strip: strip.polygon.area)
    return _caught(area, taker, parts, area_m2, widest.foot, "area from the strips that reach it", rules)


def _caught(
    area: PlanArea, taker: Receiver, parts: Sequence[Polygon], area_m2: float, at: XY, how: str, rules: Rulebook
) -> Catchment:
    rain, runoff = rules.figure("water.rain_mm_per_h"), rules.figure("water.runoff")
    flow = flow_l_s(area_m2, rain.value, runoff.value)
    return Catchment(
        area=area.name,
        to=taker.to,
        kind=taker.kind,
        shapes=tuple(shape_from_polygon(part) for part in parts),
        area_m2=area_m2,
        flow_l_s=flow,
        outfall=taker.outfall,
        at=at,
        working=Working(
            f"flow = {area_m2:.2f} m² × {rain.value:g} mm/h × {runoff.value:g} / 3600",
            flow,
            "l/s",
            (rain, runoff),
            how,
        ),
    )


def flow_l_s(area_m2: float, rain_mm_per_h: float, runoff: float) -> float:
    """Return the peak flow off an area. [l/s].

    Args:
        area_m2: Area in plan. [m²]
        rain_mm_per_h: Intensity. [mm/h]
        runoff: Part that runs off. [-]

    Valid for: areas so small that the whole of them adds to the peak, a minute or two of fall.
    Source: definition, rational method

    >>> round(flow_l_s(22.68, 75.0, 1.0), 4)
    0.4725
    """
    return area_m2 * rain_mm_per_h * runoff / units.SECONDS_PER_HOUR


def _level(area: PlanArea) -> Finding:
    return Finding(
        "water.level_surface",
        Severity.STOP,
        f"area {area.name}",
        f"{area.name} is level: water stands on it.",
        ways_out=("Give it a fall.",),
        at_mm=area.gross.centre_mm,
    )
