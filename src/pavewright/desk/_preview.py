"""What follows a hand that drags a corner: areas, falls, levels and counts, in a few milliseconds.

The saw plan, the dig, the water and the price are left to the whole plan, which follows when the hand rests.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.buildup import depth_under
from pavewright.desk._plain import plain
from pavewright.laying import quick_counts
from pavewright.levels import finished_levels
from pavewright.survey import survey

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Rulebook


def preview(job: Job, rules: Rulebook) -> dict[str, Any]:
    """Return the areas of a job with their sizes, falls and corner levels.

    Raises:
        JobInvalid: readings that make no plan, or nothing that fixes an area's height.
    """
    measured = survey(job, rules)
    levels = finished_levels(job, measured, rules, depth_under(job, rules))
    areas = []
    for area in measured.site.areas:
        finished = levels.area(area.name)
        counts = quick_counts(job, area, measured, rules, levels)
        areas.append(
            {
                "area": area.name,
                "area_m2": area.shape.area_m2,
                "whole": None if counts is None else counts.whole,
                "cut": None if counts is None else counts.cut,
                "too_narrow": None if counts is None else counts.too_narrow,
                "falls": finished.falls_text,
                "corners": plain(finished.corners),
                "clearance_mm": min((each.min_mm for each in finished.clearances), default=None),
            }
        )
    return {"areas": areas, "stops": sum(finding.severity.value == "stop" for finding in levels.findings)}
