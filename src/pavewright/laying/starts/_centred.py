"""Courses that lie even at both edges: a unit or a joint in the middle, each way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.job import Taken, Through

if TYPE_CHECKING:
    from pavewright.job import Laying
    from pavewright.laying.setting import Setting
    from pavewright.survey import PlanArea


def centred(area: PlanArea, setting: Setting) -> list[Laying]:
    """Return layings with straight courses that lie even at both edges: a unit or a joint in the middle, each way."""
    laying = area.area.laying
    traits = laying.pattern.traits
    if traits.through is Through.NONE or traits.taken is not Taken.ONE:
        return []
    x1, y1, x2, y2 = shapely.total_bounds(np.array(setting.field)).tolist()
    layout, unit, joint = setting.layout, setting.units[0], laying.joint_mm
    right, far = (-1.0 if layout.from_right else 1.0), (-1.0 if layout.from_far else 1.0)
    ways = []
    for along in (unit.length_mm, -joint):
        for across in (unit.width_mm, -joint):
            dx = ((x1 + x2) / 2.0 - layout.start[0]) * right - along / 2.0
            dy = ((y1 + y2) / 2.0 - layout.start[1]) * far - across / 2.0
            x = (laying.shift_along_mm + dx) % (unit.length_mm + joint)
            y = (laying.shift_across_mm + dy) % (unit.width_mm + joint)
            ways.append(laying.model_copy(update={"shift_along_mm": round(x, 2), "shift_across_mm": round(y, 2)}))
    return ways
