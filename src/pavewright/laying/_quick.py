"""Whole and cut units of an area while a corner is dragged: clipped as they are laid, not numbered, not sawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import Pattern
from pavewright.laying._cells import MOST_CELLS
from pavewright.laying._frame import frame_of
from pavewright.laying._pieces import is_whole, sizes
from pavewright.laying._setting import covered, region_of, setting_of
from pavewright.laying.patterns import about_how_many

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey


@dataclass(frozen=True, slots=True)
class QuickCounts:
    """What the units of an area come to.

    Attributes:
        whole: Number of whole units.
        cut: Number of cut pieces.
    """

    whole: int
    cut: int


def quick_counts(job: Job, area: PlanArea, survey: Survey, rules: Rulebook) -> QuickCounts | None:
    """Return the counts of an area; None where only the whole laying tells: mixed sizes, rings, zones, split corners.

    Args:
        job: The job.
        area: One of its areas.
        survey: What was measured, adjusted.
        rules: The rulebook.
    """
    laying = area.area.laying
    if laying.pattern in {Pattern.MIXED, Pattern.RINGS} or area.area.zones or laying.split_corners:
        return None
    frame = frame_of(area, survey)
    region = region_of(area, frame)
    if region is None:
        return None
    setting = setting_of(job, area, frame, region)
    if not setting.field or about_how_many(region.bounds, setting.layout) > MOST_CELLS:
        return None
    limits = [sizes(unit.length_mm, unit.width_mm, rules) for unit in setting.units]
    kept = covered(setting, rules)
    whole = sum(is_whole(each, limits[each.size]) for each in kept)
    return QuickCounts(whole, len(kept) - whole)
