"""Depths of a storm at its times, packed small for a screen that plays them."""

from __future__ import annotations

import base64
import dataclasses
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from pavewright.water import AreaStorm

OUTSIDE = 65_535
"""Stands for a cell that is no paving."""
_TENTHS = 10.0


def frames(storm: AreaStorm) -> dict[str, Any]:
    """Return the depths of an area over time: two bytes a cell, the low one first, in tenths of a millimetre.

    Frame follows frame; in each, rows follow from the south and cells in a row from the west. Frame k shows
    (k + 1) · ``every_s`` after the rain began.
    """
    depths = np.round(np.nan_to_num(storm.depths_mm, nan=0.0) * _TENTHS).clip(0, OUTSIDE - 1)
    packed = np.where(np.isnan(storm.depths_mm), OUTSIDE, depths).astype("<u2")
    count, rows, columns = packed.shape
    return {
        "area": storm.area,
        "x0_mm": storm.grid.x0_mm,
        "y0_mm": storm.grid.y0_mm,
        "cell_mm": storm.grid.cell_mm,
        "rows": rows,
        "columns": columns,
        "count": count,
        "every_s": storm.every_s,
        "rain_min": storm.rain_min,
        "depths": base64.b64encode(packed.tobytes()).decode("ascii"),
    }


def storm_told(storm: AreaStorm) -> dict[str, Any]:
    """Return the figures of a storm, without those of single cells."""
    cells = {"grid", "depth_mm", "depths_mm"}
    return {field.name: getattr(storm, field.name) for field in dataclasses.fields(storm) if field.name not in cells}
