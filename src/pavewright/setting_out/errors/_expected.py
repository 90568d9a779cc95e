"""Expected errors of places, and the angle at which two tapes cross."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.geometry import distance, unit_vector
from pavewright.setting_out.errors._types import ExpectedError

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.setting_out.errors._spread import Spread


@dataclass(frozen=True)
class Stationed:
    """A place that is fixed, with its name."""

    name: str
    spread: Spread


def crossing_rad(one: XY, other: XY, at: XY) -> float:
    """Return the angle at a place between two others, zero where it is one of them. [rad]."""
    if min(distance(one, at), distance(other, at)) == 0.0:
        return 0.0
    ax, ay = unit_vector(at, one)
    bx, by = unit_vector(at, other)
    return math.acos(max(-1.0, min(1.0, ax * bx + ay * by)))


def in_share(percent: float) -> float:
    """Return within how many standard deviations a share of errors lies, either way. [-].

    Args:
        percent: The share. [%]

    Valid for: errors that are spread normally.
    Source: definition

    >>> round(in_share(95.0), 3)
    1.96
    """
    return NormalDist().inv_cdf(0.5 + 0.5 * percent / units.ALL_PERCENT)


def check_limit_mm(sd_mm: float, percent: float) -> float:
    """Return what a check is off by no more than, unless something is wrong. [mm].

    Args:
        sd_mm: Standard deviation of the check, with all that stands behind both of its ends. [mm]
        percent: Share of checks without a slip that lie within. [%]

    Source: definition

    >>> round(check_limit_mm(2.0, 95.0), 2)
    3.92
    """
    return in_share(percent) * sd_mm


def expected_error(spread: Spread, start: XY, end: XY, percent: float) -> ExpectedError:
    """Return how far off a place is expected to come out, along a base line and square to it.

    Args:
        spread: The place with what it hangs on.
        start: Start of the base line. [mm]
        end: End of the base line. [mm]
        percent: Share of outcomes that lie within. [%]

    Source: definition, along the larger axis of the ellipse and, at a right angle, the smaller
    """
    ux, uy = unit_vector(start, end)
    turned = np.array([[ux, uy], [-uy, ux]])
    along_mm2, off_mm2 = np.diag(turned @ spread.covariance_mm2 @ turned.T)
    larger = float(np.linalg.eigvalsh(spread.covariance_mm2)[-1])
    both = math.sqrt(-2.0 * math.log(1.0 - percent / units.ALL_PERCENT))
    return ExpectedError(
        along_mm=math.sqrt(max(0.0, float(along_mm2))),
        off_mm=math.sqrt(max(0.0, float(off_mm2))),
        radial_mm=spread.radial_mm,
        within_mm=both * math.sqrt(max(0.0, larger)),
    )
