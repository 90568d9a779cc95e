"""Stack and running bond: equal courses, each shifted against the one before."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._placing import Placing

if TYPE_CHECKING:
    from pavewright.laying.patterns._bond import Bond, Box


def courses(bond: Bond, box: Box) -> Placing:
    """Return units in straight courses of one width that cover a box; the corner of one lies in the origin."""
    x1, y1, x2, y2 = box
    pitch_x, pitch_y = bond.pitch_along_mm, bond.pitch_across_mm
    rows = np.arange(math.floor(y1 / pitch_y) - 1, math.ceil(y2 / pitch_y) + 1)
    columns = np.arange(math.floor(x1 / pitch_x) - 2, math.ceil(x2 / pitch_x) + 2)
    shift = ((rows * bond.stagger) % 1.0) * pitch_x
    x = (columns[None, :] * pitch_x + shift[:, None]).ravel()
    shape = len(rows), len(columns)
    count = len(x)
    return Placing(
        x_mm=x,
        y_mm=np.broadcast_to((rows * pitch_y)[:, None], shape).ravel(),
        turn_deg=np.zeros(count),
        along_mm=np.full(count, bond.sizes[0].along_mm),
        across_mm=np.full(count, bond.sizes[0].across_mm),
        course=np.broadcast_to(rows[:, None], shape).ravel(),
        order=x,
        size=np.zeros(count, dtype=np.int64),
    )


def period(bond: Bond) -> tuple[float, float]:
    """Return the shifts along and across that give every possible start once. [mm]."""
    return bond.pitch_along_mm, bond.pitch_across_mm
