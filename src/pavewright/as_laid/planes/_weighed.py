"""A plane through very many levels, each weighed by how far it lies off."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid.planes._robust import RobustPlane, centred_plane, median_plane, robust_plane

if TYPE_CHECKING:
    from numpy.typing import NDArray

_PASSES = 6
_REACH = 4.685
"""Standard deviations beyond which a level counts for nothing. [-]"""
_MAD = 1.4826
_FIRST, _TRIES = 150, 200
"""Levels among which the plane is sought that most agree with, and how many planes are tried."""
_SLOPES = 3
_EXACT = 1e-6


def weighed_plane(array: NDArray[np.float64]) -> RobustPlane:
    """Return the plane through many levels, each weighed by how far it lies off it.

    Six passes; the scale s comes from the median of what is left, without its sign, begun at the plane that most of
    some of them agree with.

    Args:
        array: East, north, level, shape (n, 3), float64. [mm]

    Valid for: levels not all on one line; up to nearly half of them may be wrong.
    Source: common practice, weights (1 - (r / 4.685 s)²)²

    Raises:
        ValueError: fewer than three levels, or all on one line.
    """
    if len(array) <= _FIRST // 2:
        return robust_plane(array)
    picked = array[np.linspace(0, len(array) - 1, min(_FIRST, len(array))).astype(np.intp)]
    plane = median_plane(picked, _TRIES).plane
    spread = np.zeros((_SLOPES, _SLOPES))
    scale, near = 0.0, np.zeros(len(array))
    for _ in range(_PASSES):
        off = array[:, 2] - plane.levels_at(array[:, 0], array[:, 1])
        scale = max(_MAD * float(np.median(np.abs(off))), _EXACT)
        near = np.clip(1.0 - (off / (_REACH * scale)) ** 2, 0.0, None) ** 2
        plane, spread = centred_plane(array, near)
    kept = near > 0.0
    off = (array[:, 2] - plane.levels_at(array[:, 0], array[:, 1]))[kept]
    free = max(int(kept.sum()) - _SLOPES, 1)
    return RobustPlane(
        plane=plane,
        kept=tuple(np.flatnonzero(kept).tolist()),
        out=tuple(np.flatnonzero(~kept).tolist()),
        sd_mm=math.sqrt(float((off * off).sum()) / free),
        spread=tuple((float(a), float(b), float(c)) for a, b, c in spread),
    )
