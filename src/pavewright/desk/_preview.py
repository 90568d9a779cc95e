"""What follows a hand that drags a corner: areas, falls, levels and counts, in a few milliseconds.

The saw plan, the dig, the water and the price are left to the whole plan, which follows when the hand rests. So is
the search of folds: the folding found for a job stays while its points are moved, and its heights are fitted anew.
"""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from typing import TYPE_CHECKING, Any

from pavewright.desk._plain import plain
from pavewright.job import Folding
from pavewright.laying import quick_counts
from pavewright.pipeline import Room, is_cut_to_levels, plan_rooms

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.laying import QuickCounts
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea


def preview(job: Job, rules: Rulebook) -> dict[str, Any]:
    """Return the areas of a job with their sizes, and falls, corner levels and counts as far as they are known."""
    made = _with_levels(job, rules)
    areas = [_area(area, made, rules) for area in made.survey.site.areas]
    findings = () if made.levels is None else made.levels.findings
    return {"areas": areas, "stops": sum(finding.severity.value == "stop" for finding in findings)}


_JOBS_KEPT = 20
_folded: OrderedDict[str, dict[str, Folding]] = OrderedDict()
"""How the areas of a job are folded, by all of the job but its measurements."""


def _with_levels(job: Job, rules: Rulebook) -> PlanSoFar:
    """Return a job with its levels: areas that are folded as is cheapest keep the folding that was found for them."""
    if all(area.fall.folding is not Folding.CHEAPEST for area in job.areas):
        return plan_rooms(job, rules, (Room.LEVELS,))
    key = hashlib.sha256(job.model_dump_json(exclude={"measurements"}).encode()).hexdigest()
    if key in _folded:
        _folded.move_to_end(key)
        made = plan_rooms(_folded_as(job, _folded[key]), rules, (Room.LEVELS,))
        if made.levels is not None:
            return made
    made = plan_rooms(job, rules, (Room.LEVELS,))
    if made.levels is not None:
        _folded[key] = {each.area: each.options[each.chosen].kind for each in made.levels.studies}
    while len(_folded) > _JOBS_KEPT:
        _folded.popitem(last=False)
    return made


def _folded_as(job: Job, folding: dict[str, Folding]) -> Job:
    """Return a job whose areas are folded as said, where they may be folded in any way."""
    areas = tuple(
        area.model_copy(update={"fall": area.fall.model_copy(update={"folding": folding[area.name]})})
        if area.fall.folding is Folding.CHEAPEST and area.name in folding
        else area
        for area in job.areas
    )
    return job.model_copy(update={"areas": areas})


def _area(area: PlanArea, made: PlanSoFar, rules: Rulebook) -> dict[str, Any]:
    finished = None if made.levels is None else made.levels.area(area.name)
    counts = _counts(area, made, rules) if _can_be_counted(area, made) else None
    clearances = () if finished is None else finished.clearances
    return {
        "area": area.name,
        "area_m2": area.laid_m2,
        "whole": None if counts is None else counts.whole,
        "cut": None if counts is None else counts.cut,
        "too_narrow": None if counts is None else counts.too_narrow,
        "falls": "" if finished is None else finished.falls_text,
        "corners": [] if finished is None else plain(finished.corners),
        "clearance_mm": min((each.min_mm for each in clearances), default=None),
    }


_COUNTS_KEPT = 500
_counted: OrderedDict[object, QuickCounts | None] = OrderedDict()
"""Counts by all that they follow from: of 40 areas a hand changes one."""


def _counts(area: PlanArea, made: PlanSoFar, rules: Rulebook) -> QuickCounts | None:
    """Return the counts of an area; those of one that has not changed are known."""
    if made.job.steps:  # what lies under steps follows from the levels
        return quick_counts(made.job, area, made.survey, rules, made.levels)
    laying = area.area.laying
    names = (*(laying.along or ()), *([laying.origin] if laying.origin else ()))
    places = tuple(made.survey.point(name).xy for name in names)
    units = tuple(unit.model_dump_json() for unit in made.job.units)
    key = rules.edition, area.area.model_dump_json(), area.shape, area.channels, area.ring.corners[0].xy, places, units
    if key not in _counted:
        _counted[key] = quick_counts(made.job, area, made.survey, rules, made.levels)
    _counted.move_to_end(key)
    while len(_counted) > _COUNTS_KEPT:
        _counted.popitem(last=False)
    return _counted[key]


def _can_be_counted(area: PlanArea, made: PlanSoFar) -> bool:
    """Return whether a unit is chosen, and where steps may take part of the area it is known how much."""
    return area.area.laying.unit is not None and (made.levels is not None or not is_cut_to_levels(made.job))
