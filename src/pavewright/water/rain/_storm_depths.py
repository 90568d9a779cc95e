"""Depths of storms from the five-year hour and tables of factors: the one engine of the sum and of a job."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from pavewright import units


@dataclass(frozen=True, slots=True)
class StormFactors:
    """What two tables of factors say, as read for a ratio and for durations.

    Attributes:
        rows_r: Ratios of the rows below and above. [-]
        z1_low: Z1 of each duration in the row below. [-]
        z1_high: Z1 of each duration in the row above. [-]
        z2_m5_mm: Five-year depths at which Z2 is given, rising. [mm]
        z2: Z2 of the return period at each of them. [-]
    """

    rows_r: tuple[float, float]
    z1_low: tuple[float, ...]
    z1_high: tuple[float, ...]
    z2_m5_mm: tuple[float, ...]
    z2: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class StormDepths:
    """Storms of several durations.

    Attributes:
        m5_mm: Five-year depths. [mm]
        z2: Factor of the return period read for each. [-]
        depth_mm: Depths. [mm]
    """

    m5_mm: tuple[float, ...]
    z2: tuple[float, ...]
    depth_mm: tuple[float, ...]


def depths_of(m5_60_mm: float, r: float, factors: StormFactors, climate_percent: float) -> StormDepths:
    """Return the depths of storms of several durations.

    The first table is read by a straight line between the rows on either side of r, the second by straight lines
    between its five-year depths; past its ends the end values hold.

    Args:
        m5_60_mm: Five-year depth of an hour at the place. [mm]
        r: That depth over the five-year depth of two days. [-]
        factors: The factors of each duration.
        climate_percent: Added for a changing climate. [%]

    Valid for: r between the two rows.
    Source: flood_studies_report, depth = M5-60 · Z1 · Z2

    >>> depths_of(20.0, 0.4, StormFactors((0.39, 0.42), (1.0,), (1.0,), (20.0, 25.0), (1.24, 1.24)), 0.0).depth_mm
    (24.8,)
    """
    low_r, high_r = factors.rows_r
    share = 0.0 if low_r == high_r else (r - low_r) / (high_r - low_r)
    z1 = (low + share * (high - low) for low, high in zip(factors.z1_low, factors.z1_high, strict=True))
    m5 = tuple(m5_60_mm * each for each in z1)
    z2 = tuple(_between(factors.z2_m5_mm, factors.z2, each) for each in m5)
    more = 1.0 + climate_percent / units.ALL_PERCENT
    return StormDepths(m5, z2, tuple(each * factor * more for each, factor in zip(m5, z2, strict=True)))


def _between(knots: tuple[float, ...], values: tuple[float, ...], at: float) -> float:
    """Return a value between the knots of a table; past its ends the end values hold."""
    rows = tuple(zip(knots, values, strict=True))
    for (low, at_low), (high, at_high) in itertools.pairwise(rows):
        if low <= at <= high:
            return at_low + (at_high - at_low) * (at - low) / (high - low)
    return values[0] if at < knots[0] else values[-1]
