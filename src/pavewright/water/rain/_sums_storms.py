"""Sums of storms: a curve through a table of rain, and storm depths from factors."""

from __future__ import annotations

import itertools

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.rain._rain_curve import RainCurve, fit_rain_curve
from pavewright.water.rain._storm_depths import StormFactors, depths_of
from pavewright.water.rain._storm_factors import Z1, Z2, factors_asked

_MIN_ROWS = 4
_MAX_B_MIN = 120.0
"""Larger additions to the duration do not occur in tables of short rain. [min]"""


def rain_curve(durations_min: tuple[float, ...], rain_mm_per_h: tuple[float, ...]) -> dict[str, Value]:
    """Return the curve i = a / (t + b)^c that passes best through a table, and how far it misses.

    Four rows are the least: with three the curve passes through all of them and the misfit says nothing.

    Source: chin_10_7, general form; definition, least squares in logarithms

    >>> found = rain_curve((5.0, 10.0, 30.0, 60.0), (191.9, 151.14, 86.18, 55.21))
    >>> round(found["b_min"], 1), round(found["c"], 2), found["worst_percent"] < 0.1
    (9.0, 0.78, True)
    """
    if len(durations_min) != len(rain_mm_per_h) or len(durations_min) < _MIN_ROWS:
        message = "Give as many intensities as durations, and four or more: three would fit any curve."
        raise SumRefusedError(message)
    if min(*durations_min, *rain_mm_per_h) <= 0.0:
        message = "Durations and intensities are more than zero."
        raise SumRefusedError(message)
    pairs = itertools.pairwise(zip(durations_min, rain_mm_per_h, strict=True))
    if any(later[0] <= sooner[0] or later[1] >= sooner[1] for sooner, later in pairs):
        message = "Durations rise and intensities fall from row to row: look at the table again."
        raise SumRefusedError(message)
    found = fit_rain_curve(durations_min, rain_mm_per_h, _MAX_B_MIN)
    fitted = tuple(found.mm_per_h(each) for each in durations_min)
    missed = tuple(100.0 * (ours / given - 1.0) for ours, given in zip(fitted, rain_mm_per_h, strict=True))
    worst = max(missed, key=abs)
    return {
        "a": found.multiplier,
        "b_min": found.added_min,
        "c": found.power,
        "fitted_mm_per_h": fitted,
        "misfit_percent": missed,
        "worst_percent": abs(worst),
        "worst_at_min": durations_min[missed.index(worst)],
    }


def rain_from_curve(a: float, b_min: float, c: float, duration_min: float) -> dict[str, Value]:
    """Return intensity and depth of a duration from the curve i = a / (t + b)^c.

    Source: chin_10_7, general form

    >>> round(rain_from_curve(1500.0, 8.96, 0.78, 5.0)["mm_per_h"], 1)
    191.9
    """
    if min(a, c, duration_min) <= 0.0 or b_min < 0.0:
        message = "a, c and the duration are more than zero, b is not less than zero."
        raise SumRefusedError(message)
    intensity = RainCurve(a, b_min, c).mm_per_h(duration_min)
    return {"mm_per_h": intensity, "depth_mm": intensity * duration_min / units.MINUTES_PER_HOUR}


def storm_depths(
    m5_60_mm: float,
    r: float,
    durations_min: tuple[float, ...],
    rows_r: tuple[float, ...],
    z1_low: tuple[float, ...],
    z1_high: tuple[float, ...],
    z2_m5_mm: tuple[float, ...],
    z2: tuple[float, ...],
    climate_percent: float,
) -> dict[str, Value]:
    """Return the depths of storms of several durations from the five-year hour and two tables of factors.

    The first table is read by a straight line between the rows on either side of r, the second by straight lines
    between its five-year depths; past its ends the end values hold.

    Source: flood_studies_report, depth = M5-60 · Z1 · Z2

    >>> storm_depths(20.0, 0.4, (60.0,), (0.39, 0.42), (1.0,), (1.0,), (20.0, 25.0), (1.24, 1.24), 0.0)["depth_mm"]
    (24.8,)
    """
    _refuse_uneven(durations_min, z1_low, z1_high, z2_m5_mm, z2)
    if min(m5_60_mm, r, *durations_min, *z1_low, *z1_high, *z2) <= 0.0 or climate_percent < 0.0:
        message = "Depth, r, durations and factors are more than zero; climate is not less than zero."
        raise SumRefusedError(message)
    if len(rows_r) != 2 or not rows_r[0] <= r <= rows_r[1]:  # noqa: PLR2004 - the row below and the row above
        message = "Give the r of the row below and of the row above; r lies between them."
        raise SumRefusedError(message)
    factors = StormFactors((rows_r[0], rows_r[1]), z1_low, z1_high, z2_m5_mm, z2)
    found = depths_of(m5_60_mm, r, factors, climate_percent)
    return {
        "m5_mm": found.m5_mm,
        "z2_read": found.z2,
        "depth_mm": found.depth_mm,
        "mm_per_h": tuple(
            depth * units.MINUTES_PER_HOUR / each for depth, each in zip(found.depth_mm, durations_min, strict=True)
        ),
    }


def _refuse_uneven(
    durations: tuple[float, ...],
    low: tuple[float, ...],
    high: tuple[float, ...],
    knots: tuple[float, ...],
    z2: tuple[float, ...],
) -> None:
    if not durations or len(low) != len(durations) or len(high) != len(durations):
        message = "Give one Z1 for each duration, in the row below and in the row above."
        raise SumRefusedError(message)
    if not knots or len(knots) != len(z2) or list(knots) != sorted(set(knots)):
        message = "Give one Z2 for each five-year depth, the depths rising."
        raise SumRefusedError(message)


_FACTORS = (
    Quantity("m5_60_mm", "mm", "five-year depth of an hour at the place"),
    Quantity("r", "", "that depth over the five-year depth of two days"),
    Quantity("durations_min", "min", "durations", kind="numbers"),
    Quantity("rows_r", "", "r of the table rows below and above", kind="numbers", table=Z1),
    Quantity("z1_low", "", "Z1 of each duration in the row below", kind="numbers", table=Z1),
    Quantity("z1_high", "", "Z1 of each duration in the row above", kind="numbers", table=Z1),
    Quantity("z2_m5_mm", "mm", "five-year depths at which Z2 is given, rising", kind="numbers", table=Z2),
    Quantity("z2", "", "Z2 of the return period at each of them", kind="numbers", table=Z2),
    Quantity("climate_percent", "%", "added for a changing climate", default=0.0),
)

STORM_SUMS: tuple[Sum, ...] = (
    Sum(
        "rain-curve",
        "Find the curve through a table of durations and intensities of rain",
        (
            Quantity("durations_min", "min", "durations, rising", kind="numbers"),
            Quantity("rain_mm_per_h", "mm/h", "intensity of each", kind="numbers"),
        ),
        (
            Quantity("a", "", "multiplier for mm/h and minutes"),
            Quantity("b_min", "min", "added to the duration"),
            Quantity("c", "", "power"),
            Quantity("fitted_mm_per_h", "mm/h", "the curve at each duration", kind="numbers"),
            Quantity("misfit_percent", "%", "curve over table", kind="numbers"),
            Quantity("worst_percent", "%", "worst misfit"),
            Quantity("worst_at_min", "min", "duration of the worst misfit"),
        ),
        "i = a / (t + b)^c, least squares of ln i",
        "chin_10_7; definition",
        rain_curve,
    ),
    Sum(
        "rain-from-curve",
        "Find intensity and depth of a duration from a curve of rain",
        (
            Quantity("a", "", "multiplier for mm/h and minutes"),
            Quantity("b_min", "min", "added to the duration", default=0.0),
            Quantity("c", "", "power"),
            Quantity("duration_min", "min", "duration"),
        ),
        (Quantity("mm_per_h", "mm/h", "intensity"), Quantity("depth_mm", "mm", "depth")),
        "i = a / (t + b)^c",
        "chin_10_7",
        rain_from_curve,
    ),
    Sum(
        "storm-depths",
        "Find the depths of storms of several durations from the five-year hour and tables of factors",
        _FACTORS,
        (
            Quantity("m5_mm", "mm", "five-year depths", kind="numbers"),
            Quantity("z2_read", "", "Z2 read for each", kind="numbers"),
            Quantity("depth_mm", "mm", "depths of the storms", kind="numbers"),
            Quantity("mm_per_h", "mm/h", "their mean intensities", kind="numbers"),
        ),
        "depth = M5-60 · Z1 · Z2",
        "flood_studies_report",
        storm_depths,
        factors_asked,
        (Quantity("years", "", "return period for which the rulebook's Z2 are taken"),),
    ),
)
