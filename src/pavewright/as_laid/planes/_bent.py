"""How far a bay is twisted: two of its corners up, two down."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

_TERMS = 4


@dataclass(frozen=True, slots=True)
class BentPlane:
    """The twist of a bay.

    Attributes:
        twist_mm: By how much the corners of the box round its readings stand off a plane, up and down in turn. [mm]
        sd_mm: Its standard deviation. [mm]
    """

    twist_mm: float
    sd_mm: float


def bent_plane(array: NDArray[np.float64], sd_mm: float) -> BentPlane | None:
    """Return the twist of readings: the part of z = a + bx + cy + dxy that no plane has; None where they carry none.

    At the corners of a box it is (z1 - z2 + z3 - z4) / 4, corners in turn.

    Args:
        array: East, north, level, shape (n, 3), float64. [mm]
        sd_mm: Standard deviation of one reading. [mm]

    Valid for: four or more readings that spread over the box round them.
    Source: definition, least squares
    """
    if len(array) < _TERMS:
        return None
    low, high = array[:, :2].min(axis=0), array[:, :2].max(axis=0)
    half = (high - low) / 2.0
    if not half.all():
        return None
    place = (array[:, :2] - low - half) / half
    columns = np.column_stack([np.ones(len(array)), place, place[:, 0] * place[:, 1]])
    normal = columns.T @ columns
    if np.linalg.matrix_rank(normal, tol=_WEAK) < _TERMS:
        return None
    inverse = np.linalg.inv(normal)
    twist = float((inverse @ columns.T @ (array[:, 2] - array[:, 2].mean()))[3])
    return BentPlane(twist, sd_mm * math.sqrt(float(inverse[3, 3])))


_WEAK = 1e-6
