"""What is laid of every unit: clipped, split at inner corners and trimmed of what is too narrow, as the job asks."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.geometry import joined, without
from pavewright.laying.pieces import is_whole, narrow, sizes, split_at_corners, widened
from pavewright.laying.setting._setting import covered

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shapely.geometry import Polygon

    from pavewright.job import Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.pieces import Clipped, Sizes
    from pavewright.laying.setting._setting import Setting

_LITTLE_MM = 0.5
"""Room thinner than this is what rounding leaves. [mm]"""


def kept_parts(
    setting: Setting, laying: Laying, known: LayingFigures, *, whole_too: bool = True
) -> tuple[list[Clipped], tuple[Polygon, ...]]:
    """Return what is laid of every unit, and the room that mortar fills instead of what is too narrow.

    Args:
        setting: How the area is laid.
        laying: What the job asks for.
        known: Figures of this room.
        whole_too: Whether units inside, that nothing cuts, are wanted too.
    """
    kept = covered(setting, known, whole_too=whole_too)
    limits = [sizes(unit, known) for unit in setting.units]
    if laying.split_corners:
        kept = split_at_corners(kept, setting.layout.bond.joint_mm, limits)
    return _filled(kept, limits) if laying.fill_narrow else (kept, ())


def cut_parts(kept: Sequence[Clipped], limits: Sequence[Sizes]) -> list[Clipped]:
    """Return the parts of units that are cut."""
    return [each for each in kept if not is_whole(each, limits[each.size])]


def narrow_parts(cut: Sequence[Clipped], limits: Sequence[Sizes]) -> list[Clipped]:
    """Return those of cut parts of units that are too narrow somewhere to be cut and laid."""
    if not cut:
        return []
    shapes = np.array([each.part for each in cut], dtype=object)
    least = np.array([limits[each.size].min_width_mm for each in cut])
    return [
        each for each, found in zip(cut, narrow(shapes, least, limits[0].absorbed_mm).tolist(), strict=True) if found
    ]


def _filled(kept: Sequence[Clipped], limits: Sequence[Sizes]) -> tuple[list[Clipped], tuple[Polygon, ...]]:
    """Return parts of units without what is too narrow of them, and the room of that."""
    wrong = {id(each) for each in narrow_parts(cut_parts(kept, limits), limits)}
    found: list[Clipped] = []
    fills: list[Polygon] = []
    for each in kept:
        if id(each) not in wrong:
            found.append(each)
            continue
        one = limits[each.size]
        parts = widened(each.part, one.min_width_mm, one.absorbed_mm)
        found += [replace(each, part=part) for part in parts]
        left = without(each.part, joined(list(parts))) if parts else each.part
        fills += [part for part in shapely.get_parts(left) if part.area > _LITTLE_MM * part.length]
    return found, tuple(fills)
