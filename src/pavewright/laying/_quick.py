"""Whole and cut units of an area while a corner is dragged: clipped as they are laid, not numbered, not sawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.job import Pattern
from pavewright.laying._figures import figures
from pavewright.laying.edges import clear_of_steps
from pavewright.laying.patterns import about_how_many
from pavewright.laying.pieces import MAX_CELLS, clipped, frame_of, is_crumb, is_whole, narrow, sizes, sorted_units
from pavewright.laying.setting import cut_parts, kept_parts, narrow_parts, region_of, setting_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Job
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.patterns import Placing
    from pavewright.laying.pieces import Sizes
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey

_POLYGON = 3
"""Type number of a polygon."""
_NOTHING_MM2 = 1e-3
"""What is smaller lies outside. [mm²]"""


@dataclass(frozen=True, slots=True)
class QuickCounts:
    """What the units of an area come to.

    Attributes:
        whole: Number of whole units.
        cut: Number of cut pieces.
        too_narrow: Number of those that are too narrow somewhere to be cut and laid.
    """

    whole: int
    cut: int
    too_narrow: int


def quick_counts(
    job: Job, area: PlanArea, survey: Survey, rules: Rulebook, levels: Levels | None = None
) -> QuickCounts | None:
    """Return the counts of an area by the figures of an edition; see ``counts_in``."""
    return counts_in(job, area, survey, figures(rules), levels)


def counts_in(
    job: Job, area: PlanArea, survey: Survey, known: LayingFigures, levels: Levels | None = None
) -> QuickCounts | None:
    """Return the counts of an area; None where only the whole laying tells them.

    That is so of mixed sizes, rings and zones. Split corners and fills are split as they are laid, which is slower.

    Args:
        job: The job.
        area: One of its areas.
        survey: What was measured, adjusted.
        known: Figures of this room.
        levels: Finished levels: what lies under steps is not laid then.
    """
    area, _ = clear_of_steps(area, levels)
    laying = area.area.laying
    if laying.pattern in {Pattern.MIXED, Pattern.RINGS} or area.area.zones:
        return None
    frame = frame_of(area, survey)
    region = region_of(area, frame)
    if region is None:
        return None
    setting = setting_of(job, area, frame, region)
    if not setting.field or about_how_many(region.bounds, setting.layout) > MAX_CELLS:
        return None
    limits = [sizes(unit, known) for unit in setting.units]
    if laying.split_corners or laying.fill_narrow:
        kept, _ = kept_parts(setting, laying, known)
        parted = cut_parts(kept, limits)
        return QuickCounts(len(kept) - len(parted), len(parted), len(narrow_parts(parted, limits)))
    whole = cut = too_narrow = 0
    for part, placing in (*setting.strips, *((part, setting.layout.over(part.bounds)) for part in setting.field)):
        more = _counted(part, placing, limits)
        whole, cut, too_narrow = whole + more[0], cut + more[1], too_narrow + more[2]
    return QuickCounts(whole, cut, too_narrow)


def _counted(region: Polygon, placing: Placing, limits: Sequence[Sizes]) -> tuple[int, int, int]:
    """Return whole, cut and too narrow units: areas tell at once of most, the rest are looked at as they are laid."""
    touching, inside = sorted_units(region, placing)
    edge = touching[~inside[touching]]
    left = shapely.intersection(placing.of(edge).outlines(), region)
    absorbed = np.array([each.absorbed_mm for each in limits])[placing.size[edge]]
    kept = shapely.area(left)
    missing = placing.along_mm[edge] * placing.across_mm[edge] - kept
    around = 2.0 * (placing.along_mm[edge] + placing.across_mm[edge])
    one = shapely.get_type_id(left) == _POLYGON
    plainly_cut = one & (missing > absorbed * around) & (kept > absorbed * shapely.length(left))
    plainly_out = kept <= _NOTHING_MM2
    whole = int(inside.sum())
    shapes, kinds = list(left[plainly_cut]), placing.size[edge][plainly_cut].tolist()
    open_yet = ~plainly_cut & ~plainly_out
    for index, shape in zip(edge[open_yet].tolist(), left[open_yet], strict=True):
        for part in shapely.get_parts(shape):
            if not isinstance(part, Polygon) or part.area <= _NOTHING_MM2:
                continue
            each = clipped(placing, index, part, border=False, untouched=False)
            if is_crumb(each, limits[each.size]):
                continue
            if is_whole(each, limits[each.size]):
                whole += 1
            else:
                shapes.append(part)
                kinds.append(each.size)
    least = np.array([limits[kind].min_width_mm for kind in kinds])
    thin = narrow(np.array(shapes, dtype=object), least, limits[0].absorbed_mm)
    return whole, len(shapes), int(thin.sum())
