"""Corner readings of one unit: the plane in them, which can be tapped, and the twist, which cannot."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY

ENOUGH = 3
"""So many corners carry a plane. [-]"""


@dataclass(frozen=True, slots=True)
class PlanePart:
    """What corner readings of one unit say.

    Attributes:
        over_mm: The plane in them at every corner: over what is wanted, less than zero below it. [mm]
        sd_mm: Standard deviation of that at every corner. [mm]
        twist_mm: How far four readings stand off their plane, up at the first corner; None with three. [mm]
        twist_sd_mm: Its standard deviation; None with three. [mm]
    """

    over_mm: tuple[float, ...]
    sd_mm: tuple[float, ...]
    twist_mm: float | None
    twist_sd_mm: float | None


def plane_part(corners: Sequence[XY], over_mm: Sequence[float | None], sd_mm: float) -> PlanePart | None:
    """Return the plane in corner readings and their twist; None where fewer than three were read.

    Four readings are not a plane: of a rectangle (z1 − z2 + z3 − z4)/4 is left over, up and down in turn, and no tap
    takes it out.

    Args:
        corners: Corners in order round the unit. [mm]
        over_mm: Reading over what is wanted there; None where it was not read. [mm]
        sd_mm: Standard deviation of one reading. [mm]

    Valid for: readings of one standard deviation; corners not all on one line.
    Source: definition, normal equations of least squares

    >>> square = [(0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0)]
    >>> found = plane_part(square, [3.0, 1.0, 3.0, 1.0], 0.5)
    >>> found.over_mm, found.twist_mm, found.twist_sd_mm
    ((2.0, 2.0, 2.0, 2.0), 1.0, 0.25)
    """
    read = [number for number, each in enumerate(over_mm) if each is not None]
    if len(read) < ENOUGH:
        return None
    places = np.asarray(corners, dtype=np.float64)
    middle = places[read].mean(axis=0)
    size = float(np.abs(places - middle).max())
    rows = np.column_stack([np.ones(len(places)), (places - middle) / size])
    taken = rows[read]
    values = np.array([float(each) for each in over_mm if each is not None])
    normal = np.linalg.inv(taken.T @ taken)
    fitted = rows @ (normal @ (taken.T @ values))
    sd = sd_mm * np.sqrt(np.einsum("ij,jk,ik->i", rows, normal, rows))
    twist, twist_sd = None, None
    if len(read) > ENOUGH:
        first = read[0]
        twist = values[0] - fitted[first]
        spare = 1.0 - rows[first] @ normal @ rows[first]
        twist_sd = sd_mm * math.sqrt(max(float(spare), 0.0))
    clean = [round(float(each), 9) + 0.0 for each in fitted]
    return PlanePart(
        tuple(clean),
        tuple(round(float(each), 9) for each in sd),
        None if twist is None else round(float(twist), 9) + 0.0,
        None if twist_sd is None else round(twist_sd, 9),
    )


def by_percent(length_mm: float, percent: float) -> float:
    """Return how far the far end of a line lies below its near end, by the percent that a digital level shows.

    Args:
        length_mm: Length of the line. [mm]
        percent: Fall from the near end to the far end, less than zero where it rises. [%]

    Valid for: a level laid along the line, its sign as the fall is named.
    Source: definition

    >>> by_percent(600.0, 1.5)
    9.0
    """
    return length_mm * percent / units.ALL_PERCENT
