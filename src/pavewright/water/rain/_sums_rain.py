"""Sums of rain and puddles."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.rain._storm_depths import StormFactors, depths_of


def rain_depth(m5_60_mm: float, z1: float, z2: float, duration_min: float) -> dict[str, Value]:
    """Return the depth of a storm from the five-year hour and two factors.

    Source: flood_studies_report
    """
    if min(m5_60_mm, z1, z2, duration_min) <= 0.0:
        message = "Depth, both factors and the duration are more than zero."
        raise SumRefusedError(message)
    # tables of one row and one column
    found = depths_of(m5_60_mm, 0.0, StormFactors((0.0, 0.0), (z1,), (z1,), (0.0,), (z2,)), 0.0)
    return {
        "m5_mm": found.m5_mm[0],
        "depth_mm": found.depth_mm[0],
        "mm_per_h": found.depth_mm[0] * units.MINUTES_PER_HOUR / duration_min,
    }


def two_day_rain(m5_60_mm: float, r: float, z1_of_two_days: float) -> dict[str, Value]:
    """Return the five-year two-day depth, and a shorter one from it.

    Source: flood_studies_report
    """
    if min(m5_60_mm, z1_of_two_days) <= 0.0 or not 0.0 < r <= 1.0:
        message = "The depth and the factor are more than zero; r lies between zero and one."
        raise SumRefusedError(message)
    two_days = m5_60_mm / r
    return {"m5_2day_mm": two_days, "m5_mm": two_days * z1_of_two_days}


def partial_area(mm_per_h: float, duration_min: float, concentration_min: float) -> dict[str, Value]:
    """Return the intensity that counts when a storm is shorter than the time of concentration.

    Source: rational_assignment
    """
    if mm_per_h < 0.0 or min(duration_min, concentration_min) <= 0.0:
        message = "Rain is not less than zero; both times are more than zero."
        raise SumRefusedError(message)
    share = min(duration_min / concentration_min, 1.0)
    return {"share_of_area": share, "effective_mm_per_h": mm_per_h * share}


def puddle_in_dish(depth_mm: float, radius_mm: float, one_in: float) -> dict[str, Value]:
    """Return the puddle that a round dish in a falling surface holds, and the fall at which it drains by itself.

    Source: definition, paraboloid cut by a tilted plane
    """
    if min(depth_mm, radius_mm, one_in) <= 0.0:
        message = "Depth and radius of the dish and n of 1 in n are all more than zero."
        raise SumRefusedError(message)
    fall = 1.0 / one_in
    left = max(1.0 - fall * radius_mm / (2.0 * depth_mm), 0.0)
    volume = math.pi / 2.0 * radius_mm * radius_mm * depth_mm * left**4
    return {
        "puddle_mm": depth_mm * left * left,
        "litres": units.mm3_to_m3(volume) * units.LITRES_PER_M3,
        "drains_at_one_in": radius_mm / (2.0 * depth_mm),
    }


def water_behind_lip(lip_mm: float, one_in: float) -> dict[str, Value]:
    """Return the water that a raised lip across the fall holds back.

    Source: definition, wedge behind a step
    """
    if lip_mm < 0.0 or one_in <= 0.0:
        message = "The lip is not less than zero and n of 1 in n is more than zero."
        raise SumRefusedError(message)
    back = lip_mm * one_in
    per_m = units.mm2_to_m2(lip_mm * back / 2.0) * units.LITRES_PER_M3
    return {"backs_up_mm": back, "litres_per_m": per_m}


RAIN_SUMS: tuple[Sum, ...] = (
    Sum(
        "rain-depth",
        "Find the depth of a storm from the five-year hour and its factors",
        (
            Quantity("m5_60_mm", "mm", "five-year depth of an hour at the place"),
            Quantity("z1", "", "factor for the duration, of the hour", default=1.0),
            Quantity("z2", "", "factor for the return period", default=1.0),
            Quantity("duration_min", "min", "duration", default=60.0),
        ),
        (
            Quantity("m5_mm", "mm", "five-year depth of the duration"),
            Quantity("depth_mm", "mm", "depth of the storm"),
            Quantity("mm_per_h", "mm/h", "its mean intensity"),
        ),
        "depth = M5-60 · Z1 · Z2",
        "flood_studies_report",
        rain_depth,
    ),
    Sum(
        "two-day-rain",
        "Find the five-year two-day depth and a shorter one from it",
        (
            Quantity("m5_60_mm", "mm", "five-year depth of an hour"),
            Quantity("r", "", "hour over two days"),
            Quantity("z1_of_two_days", "", "factor for the duration, of two days", default=1.0),
        ),
        (Quantity("m5_2day_mm", "mm", "two-day depth"), Quantity("m5_mm", "mm", "depth of the duration")),
        "M5-2day = M5-60 / r",
        "flood_studies_report",
        two_day_rain,
    ),
    Sum(
        "partial-area",
        "Find the intensity that counts when a storm is shorter than the time of concentration",
        (
            Quantity("mm_per_h", "mm/h", "intensity"),
            Quantity("duration_min", "min", "duration of the storm"),
            Quantity("concentration_min", "min", "time of concentration"),
        ),
        (
            Quantity("share_of_area", "", "part of the area that adds to the peak"),
            Quantity("effective_mm_per_h", "mm/h", "intensity over the whole area to the same effect"),
        ),
        "i = intensity · duration / concentration",
        "rational_assignment",
        partial_area,
    ),
    Sum(
        "puddle-in-dish",
        "Find the puddle that a round dish in a falling surface holds",
        (
            Quantity("depth_mm", "mm", "depth of the dish"),
            Quantity("radius_mm", "mm", "its radius"),
            Quantity("one_in", "", "n of 1 in n of the surface"),
        ),
        (
            Quantity("puddle_mm", "mm", "depth of the puddle"),
            Quantity("litres", "l", "water in it"),
            Quantity("drains_at_one_in", "", "fall at which it drains by itself"),
        ),
        "puddle = d·(1 − S·a / 2d)²",
        "definition",
        puddle_in_dish,
    ),
    Sum(
        "water-behind-lip",
        "Find the water that a raised lip holds back",
        (Quantity("lip_mm", "mm", "height of the lip"), Quantity("one_in", "", "n of 1 in n of the surface")),
        (
            Quantity("backs_up_mm", "mm", "how far it backs up"),
            Quantity("litres_per_m", "l", "water for each metre of lip"),
        ),
        "water = lip² / 2S",
        "definition",
        water_behind_lip,
    ),
)
