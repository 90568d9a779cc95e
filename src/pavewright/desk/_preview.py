"""What follows a hand that drags a corner: areas, falls, levels and counts, in a few milliseconds.

The saw plan, the dig, the water and the price are left to the whole plan, which follows when the hand rests.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.desk._plain import plain
from pavewright.laying import quick_counts
from pavewright.pipeline import Room, is_cut_to_levels, plan_rooms

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea


def preview(job: Job, rules: Rulebook) -> dict[str, Any]:
    """Return the areas of a job with their sizes, and falls, corner levels and counts as far as they are known."""
    made = plan_rooms(job, rules, (Room.LEVELS,))
    areas = [_area(area, made, rules) for area in made.survey.site.areas]
    findings = () if made.levels is None else made.levels.findings
    return {"areas": areas, "stops": sum(finding.severity.value == "stop" for finding in findings)}


def _area(area: PlanArea, made: PlanSoFar, rules: Rulebook) -> dict[str, Any]:
    finished = None if made.levels is None else made.levels.area(area.name)
    counts = quick_counts(made.job, area, made.survey, rules, made.levels) if _can_be_counted(area, made) else None
    clearances = () if finished is None else finished.clearances
    return {
        "area": area.name,
        "area_m2": area.shape.area_m2,
        "whole": None if counts is None else counts.whole,
        "cut": None if counts is None else counts.cut,
        "too_narrow": None if counts is None else counts.too_narrow,
        "falls": "" if finished is None else finished.falls_text,
        "corners": [] if finished is None else plain(finished.corners),
        "clearance_mm": min((each.min_mm for each in clearances), default=None),
    }


def _can_be_counted(area: PlanArea, made: PlanSoFar) -> bool:
    """Return whether a unit is chosen, and where steps may take part of the area it is known how much."""
    return area.area.laying.unit is not None and (made.levels is not None or not is_cut_to_levels(made.job))
