"""An instrument that is set up: the height of its sight, and what the staff shows where a level is wanted."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.setting_out.hanging._types import SightHeight

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job.on_site import InstrumentSetUp
    from pavewright.setting_out.errors import ToolErrors
    from pavewright.survey import Survey


def height_of_collimation_mm(level_mm: float, backsight_mm: float) -> float:
    """Return the height of the sight of an instrument. [mm].

    Args:
        level_mm: Level of the point on which the staff stands. [mm]
        backsight_mm: What is read on it. [mm]

    Source: definition, HC = RL + BS

    >>> height_of_collimation_mm(10_000.0, 1_250.0)
    11250.0
    """
    return level_mm + backsight_mm


def staff_reading_mm(collimation_mm: float, wanted_mm: float) -> float:
    """Return what the staff shows when its foot is at the level wanted. [mm].

    Args:
        collimation_mm: Height of the sight. [mm]
        wanted_mm: Level wanted. [mm]

    Source: definition, reading = HC − RL

    >>> staff_reading_mm(11_250.0, 9_850.0)
    1400.0
    """
    return collimation_mm - wanted_mm


def sight_heights(set_ups: Sequence[InstrumentSetUp], survey: Survey, tools: ToolErrors) -> tuple[SightHeight, ...]:
    """Return the height of the sight of each set-up; None where nobody knows the level of its point."""
    levels = {point.name: point.level_mm for point in survey.points}
    found = []
    for each in set_ups:
        level = levels.get(each.point)
        found.append(
            SightHeight(
                name=each.name,
                point=each.point,
                backsight_mm=each.backsight_mm,
                level_mm=None if level is None else height_of_collimation_mm(level, each.backsight_mm),
                sd_mm=math.sqrt(2.0) * tools.level_sd_mm,
            )
        )
    return tuple(found)
