"""The survey of a job, from readings to a site in plan."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.findings import in_order
from pavewright.job import JobInvalid
from pavewright.survey._assumed import assumed_facts, places_by_eye
from pavewright.survey._assumptions import assumptions
from pavewright.survey._figures import survey_figures
from pavewright.survey._not_read import dpc_not_read, levels_not_read, tell_not_read
from pavewright.survey._points import place_points, surveyed_points
from pavewright.survey._remarks import Remarks
from pavewright.survey._types import SitePlan, Survey
from pavewright.survey._types_known import SurveyFaults
from pavewright.survey.agreement import disagreements, too_small_to_be_one
from pavewright.survey.edges import Places, place_areas, place_features, tell_curves
from pavewright.survey.ground import ground_surface
from pavewright.survey.levelling import reduce_level_books
from pavewright.survey.sketch import Drawn

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Rulebook
    from pavewright.survey._types import PlanArea
    from pavewright.survey.edges import Features


def survey(job: Job, rules: Rulebook) -> Survey:
    """Return the points, levels, ground and site plan that the readings of a job make.

    Raises:
        JobInvalid: readings that make no plan, all faults at once.
    """
    found, faults = survey_so_far(job, rules)
    if faults.heights or faults.places:
        raise JobInvalid((*faults.heights, *faults.places))
    return found


def survey_so_far(job: Job, rules: Rulebook) -> tuple[Survey, SurveyFaults]:
    """Return what the readings of a job make, and those that make nothing; what hangs on these is left out."""
    figures, remarks = survey_figures(rules), Remarks()
    heights = Remarks(remarks.findings)
    measured = job.measurements
    levelled = reduce_level_books(measured, figures, heights)
    placed = place_points(measured, _drawn(job), figures, remarks)
    where = Places(placed.places, frozenset(placed.found_by), remarks, levelled.levels, heights, measured.curves)
    features = place_features(job.site, where, figures)
    areas = place_areas(job, features, where)
    tell_curves(where, figures)
    tell_not_read(features, areas, figures, remarks)
    where.find("measurements.ground_points", "The list of ground points", measured.ground_points)
    points = surveyed_points(placed, levelled.levels)
    ground = ground_surface(measured, {point.name: point for point in points}, heights)
    if remarks.faults or heights.faults:
        too_small_to_be_one(areas, figures, remarks)
    assumed = (*assumed_facts(job), *places_by_eye(job, points, areas))
    surveyed = Survey(
        points=points,
        level_books=levelled.books,
        tapes=placed.tapes,
        ground=ground,
        site=_site_plan(job, areas, features),
        assumptions=assumptions(job.site, assumed),
        findings=tuple(remarks.findings),
        levels_together=levelled.together,
        shape=placed.shape,
        dpc_not_read=dpc_not_read(features.walls, areas, figures),
        assumed=assumed,
        not_read=levels_not_read(job.site, features, areas, figures),
    )
    found = in_order((*surveyed.findings, *disagreements(job, surveyed, figures)))
    return replace(surveyed, findings=found), SurveyFaults(tuple(remarks.faults), tuple(heights.faults))


def _drawn(job: Job) -> Drawn:
    """Return the lines that are drawn between points: walls, and outlines of areas."""
    return Drawn(
        tuple((wall.start, wall.end) for wall in job.site.walls),
        tuple(tuple(corner.point for corner in area.outline) for area in job.areas),
    )


def _site_plan(job: Job, areas: tuple[PlanArea, ...], features: Features) -> SitePlan:
    return SitePlan(
        areas=areas,
        walls=features.walls,
        outfalls=job.site.outfalls,
        gullies=features.gullies,
        channels=features.channels,
        covers=features.covers,
        obstacles=features.obstacles,
        trees=features.trees,
        boundaries=features.boundaries,
        tie_ins=features.tie_ins,
        services=features.services,
        north_bearing_deg=job.site.north_bearing_deg,
    )
