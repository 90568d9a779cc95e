"""Finished levels of all areas, in an order in which each can lean on those before it."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from pavewright.findings import Finding, OptionKind, in_order
from pavewright.geometry import along_and_offset, one_plane, point_along
from pavewright.job import Fault, Folding, JobInvalid
from pavewright.levels._access import access_findings
from pavewright.levels._checks import boundary_findings, fall_findings, setting_findings
from pavewright.levels._figures import figures
from pavewright.levels._folded_area import folded_area
from pavewright.levels._spots import corner_levels, door_steps, spot_levels, wall_clearances
from pavewright.levels._steps import flight
from pavewright.levels._types import FinishedArea, Levels
from pavewright.levels.cars import car_findings, join_findings
from pavewright.levels.clashes import CLASHES, clashes, other_ways
from pavewright.levels.design import Bound, bounds, choose_falls, meet, place
from pavewright.levels.edges import SHARED_MM, shared_edges
from pavewright.levels.folds import study

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.findings import Option
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels._types import FoldStudy, Steps
    from pavewright.levels.edges import Contact
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey


def finished_levels(job: Job, survey: Survey, rules: Rulebook, under_mm: Mapping[str, float] | None = None) -> Levels:
    """Return the finished surface of every area: one plane each, as high as its limits allow.

    Areas that meet a house or another fixed thing come first; a neighbour without steps between is then laid to meet
    them, and an area that nothing fixes lies with the ground. An area that is to be folded is designed at least cost of
    cut and fill.

    Args:
        job: The job.
        survey: What was measured.
        rules: The rulebook.
        under_mm: Build-up under the finished level of each area, for the cost of cut and fill; folded areas lie as high
            as they may where it is not known. [mm]

    Raises:
        JobInvalid: nothing gives an area's height or direction; all such faults at once.
    """
    read = figures(rules)
    surfaces: dict[str, FoldedSurface] = {}
    found: dict[str, FinishedArea] = {}
    findings: list[Finding] = []
    studies: list[FoldStudy] = []
    faults: list[Fault] = []
    own = {area.name: bounds(area, survey, read) for area in survey.site.areas}
    for area in _in_turn(survey.site.areas, own, job):
        path, under = f"{area.path}.fall", (under_mm or {}).get(area.name)
        meeting = partial(_meeting, area, surfaces, survey, job, read)
        if area.area.fall.folding is not Folding.ONE_PLANE:
            folded = folded_area(job, area, survey, read, under, meeting, path)
            if isinstance(folded, Fault):
                faults.append(folded)
                continue
            found[area.name], reported, compared = folded
            surfaces[area.name] = found[area.name].surface
            studies.append(compared)
            findings.extend(reported)
            continue
        limits = (*own[area.name], *meeting())
        levelled = _one_area(job, area, limits, survey, read, path)
        if isinstance(levelled, Fault):
            faults.append(levelled)
            continue
        found[area.name], reported = levelled
        reported = _with_folds(reported, found[area.name], job, area, survey, read, under, surfaces)
        surfaces[area.name] = found[area.name].surface
        findings.extend(reported)
    if faults:
        raise JobInvalid(tuple(faults))
    flights = _flights(job, surfaces, survey, read)
    findings.extend(finding for _, reported in flights for finding in reported)
    findings.extend(join_findings(survey.site.areas, surfaces, read, SHARED_MM))
    return Levels(
        areas=tuple(found[area.name] for area in survey.site.areas),
        steps=tuple(steps for steps, _ in flights),
        findings=in_order(findings),
        studies=tuple(studies),
    )


def _flights(
    job: Job, surfaces: Mapping[str, FoldedSurface], survey: Survey, read: LevelFigures
) -> list[tuple[Steps, tuple[Finding, ...]]]:
    """Return the flights of steps with what is noticed on each."""
    return [
        flight(each, f"steps.{number}", surfaces[each.upper_area], surfaces[each.lower_area], survey.site, read)
        for number, each in enumerate(job.steps)
    ]


def _with_folds(
    reported: tuple[Finding, ...],
    finished: FinishedArea,
    job: Job,
    area: PlanArea,
    survey: Survey,
    read: LevelFigures,
    under_mm: float | None,
    surfaces: dict[str, FoldedSurface],
) -> tuple[Finding, ...]:
    """Return what is noticed on one plane; where it clashes, ways to fold the area that do not clash come first."""
    if not any(finding.code in CLASHES for finding in reported):
        return reported
    meeting = partial(_meeting, area, surfaces, survey, job, read)
    compared = study(job, area, finished.main_direction, survey, read, under_mm, meeting, every=True)
    ways = other_ways(area, compared, job, survey, read, but=Folding.ONE_PLANE)
    return tuple(
        finding.with_options(_after_free(finding.options, ways)) if finding.code in CLASHES else finding
        for finding in reported
    )


def _after_free(known: tuple[Option, ...], folds: tuple[Option, ...]) -> tuple[Option, ...]:
    """Return options with folds behind another fall within the rules, which costs nothing, and before the rest."""
    free = [way for way in known if way.changes and way.facts.kind is OptionKind.DESIGN]
    return (*free, *folds, *(way for way in known if way not in free))


def _one_area(
    job: Job, area: PlanArea, limits: tuple[Bound, ...], survey: Survey, read: LevelFigures, path: str
) -> tuple[FinishedArea, tuple[Finding, ...]] | Fault:
    falls = choose_falls(area, survey, read, path)
    if isinstance(falls, Fault):
        return falls
    height = place(area, falls, limits, survey, path)
    if isinstance(height, Fault):
        return height
    surface, unit = one_plane(area.gross, height.plane), area.area.laying.unit
    finished = FinishedArea(
        area=area.name,
        surface=surface,
        folding="one plane",
        main_direction=falls.direction,
        main_fall=falls.main,
        cross_fall=falls.cross,
        corners=corner_levels(area, surface),
        spots=spot_levels(area, surface, survey),
        clearances=wall_clearances(area, surface, survey, read),
        doors=door_steps(area, surface, survey, read),
        fixed_by=height.fixed_by,
        workings=(*falls.workings, height.working),
    )
    reported = (
        *clashes(area, falls, height, limits, survey, job, read),
        *falls.findings,
        *fall_findings(area, falls, None if unit is None else job.unit(unit), read),
        *setting_findings(area, surface, survey),
        *boundary_findings(area, surface, survey, read),
        *access_findings(area, surface, finished.doors, read),
        *car_findings(area, surface, survey.site, read),
    )
    return finished, reported


def _in_turn(areas: tuple[PlanArea, ...], own: dict[str, tuple[Bound, ...]], job: Job) -> list[PlanArea]:
    """Return areas in the order of levelling: those held by the site, then neighbours outward, then the rest."""
    order = [area for area in areas if own[area.name] or job.area(area.name).fall.level_mm is not None]
    waiting = [area for area in areas if area not in order]
    while waiting:
        beside = [area for area in waiting if any(_flush(area, done, job) for done in order)] or waiting[:1]
        order.extend(beside)
        waiting = [area for area in waiting if area not in beside]
    return order


def _flush(first: PlanArea, second: PlanArea, job: Job) -> bool:
    """Return whether two areas meet without steps between them."""
    pair = {first.name, second.name}
    if any({each.upper_area, each.lower_area} == pair for each in job.steps):
        return False
    return bool(shared_edges(first, second, SHARED_MM))


def _meeting(
    area: PlanArea,
    surfaces: dict[str, FoldedSurface],
    survey: Survey,
    job: Job,
    read: LevelFigures,
    also: tuple[XY, ...] = (),
) -> tuple[Bound, ...]:
    """Return how the area has to meet neighbours that have their levels."""
    figure = read.step_between_areas
    found: list[Bound] = []
    for name, surface in surfaces.items():
        other = survey.site.area(name)
        if _flush(area, other, job):
            for edge in shared_edges(area, other, SHARED_MM):
                found.extend(meet(other, at, surface.level_at(at), figure) for at in _places(edge, surface, also))
    return tuple(bound for bound in found if math.isfinite(bound.fixed_mm))


def _places(edge: Contact, surface: FoldedSurface, also: tuple[XY, ...]) -> list[XY]:
    """Return the ends of a shared edge and the places on it where either surface is folded."""
    places = [edge.start, edge.end]
    folded = () if surface.is_plane else tuple(corner for facet in surface.facets for corner in facet.outline)
    for corner in (*folded, *also):
        along, offset = along_and_offset(edge.start, edge.end, corner)
        if abs(offset) <= SHARED_MM and 1.0 < along < edge.length_mm - 1.0:
            places.append(point_along(edge.start, edge.end, along))
    return places
