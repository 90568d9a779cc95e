"""Finished levels of all areas, in an order in which each can lean on those before it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.findings import Finding, in_order
from pavewright.job import Fault, JobInvalid
from pavewright.levels._bounds import Bound, bounds, meet
from pavewright.levels._checks import boundary_findings, fall_findings, setting_findings
from pavewright.levels._clashes import clashes
from pavewright.levels._contacts import shared_edges
from pavewright.levels._falls import choose_falls
from pavewright.levels._height import place
from pavewright.levels._spots import corner_levels, door_steps, spot_levels, wall_clearances
from pavewright.levels._steps import flight
from pavewright.levels._types import FinishedArea, Levels

if TYPE_CHECKING:
    from pavewright.geometry import Plane
    from pavewright.job import Job
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey

_SHARED_MM = 20.0
"""Areas whose edges run this close share an edge: a joint. [mm]"""


def finished_levels(job: Job, survey: Survey, rules: Rulebook) -> Levels:
    """Return the finished surface of every area: one plane each, as high as its limits allow.

    Areas that meet a house or another fixed thing come first; a neighbour without steps between is then laid to meet
    them, and an area that nothing fixes lies with the ground.

    Raises:
        JobInvalid: nothing tells an area's height or direction; all such faults at once.
    """
    planes: dict[str, Plane] = {}
    found: dict[str, FinishedArea] = {}
    findings: list[Finding] = []
    faults: list[Fault] = []
    own = {area.name: bounds(area, survey, rules) for area in survey.site.areas}
    for area in _in_turn(survey.site.areas, own, job):
        path = f"areas.{[each.name for each in job.areas].index(area.name)}.fall"
        limits = (*own[area.name], *_meeting(area, planes, survey, job, rules))
        levelled = _one_area(job, area, limits, survey, rules, path)
        if isinstance(levelled, Fault):
            faults.append(levelled)
            continue
        found[area.name], told = levelled
        planes[area.name] = found[area.name].plane
        findings.extend(told)
    if faults:
        raise JobInvalid(tuple(faults))
    flights = [flight(each, planes[each.upper_area], planes[each.lower_area], survey.site, rules) for each in job.steps]
    findings.extend(finding for _, told in flights for finding in told)
    return Levels(
        areas=tuple(found[area.name] for area in survey.site.areas),
        steps=tuple(steps for steps, _ in flights),
        findings=in_order(findings),
    )


def _one_area(
    job: Job, area: PlanArea, limits: tuple[Bound, ...], survey: Survey, rules: Rulebook, path: str
) -> tuple[FinishedArea, tuple[Finding, ...]] | Fault:
    falls = choose_falls(area, survey, rules, path)
    if isinstance(falls, Fault):
        return falls
    height = place(area, falls, limits, survey, path)
    if isinstance(height, Fault):
        return height
    plane = height.plane
    finished = FinishedArea(
        area=area.name,
        plane=plane,
        main_direction=falls.direction,
        main_fall=falls.main,
        cross_fall=falls.cross,
        corners=corner_levels(area, plane),
        spots=spot_levels(area, plane, survey),
        clearances=wall_clearances(area, plane, survey, rules),
        doors=door_steps(area, plane, survey, rules),
        fixed_by=height.fixed_by,
        workings=(*falls.workings, height.working),
    )
    told = (
        *clashes(area, falls, height, limits, rules),
        *falls.findings,
        *fall_findings(area, falls, job.unit(area.area.laying.unit), rules),
        *setting_findings(area, plane, survey),
        *boundary_findings(area, plane, survey, rules),
    )
    return finished, told


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
    return bool(shared_edges(first, second, _SHARED_MM))


def _meeting(area: PlanArea, planes: dict[str, Plane], survey: Survey, job: Job, rules: Rulebook) -> tuple[Bound, ...]:
    """Return how the area has to meet neighbours that have their levels."""
    figure = rules.figure("levels.step_between_areas_mm")
    found: list[Bound] = []
    for name, plane in planes.items():
        other = survey.site.area(name)
        if _flush(area, other, job):
            for edge in shared_edges(area, other, _SHARED_MM):
                found.extend(meet(name, at, plane.level_at(at), figure) for at in (edge.start, edge.end))
    return tuple(bound for bound in found if math.isfinite(bound.fixed_mm))
