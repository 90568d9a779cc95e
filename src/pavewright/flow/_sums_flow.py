"""Sums of water running over a plane, by closed forms."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

G_M_PER_S2 = 9.81
"""Acceleration of gravity. [m/s²]"""
POWER = 5.0 / 3.0
"""Power of the depth in the flow of a film by Manning. [-]"""


def plane_depth_m(rate: float, run_m: float, rain_m_s: float, rain_s: float, at_s: float) -> float:
    """Return the depth at the end of a plane at a time after rain begins. [m].

    Every depth runs down the plane at 5/3 of the speed of its water. While it rains the edge fills up to its steady
    depth. After the rain the depth stays until what ran in from the top comes by, then falls.

    Args:
        rate: Root of the fall over Manning's n. [m^(1/3)/s]
        run_m: Length along the fall. [m]
        rain_m_s: Rain. [m/s]
        rain_s: How long it rains. [s]
        at_s: Time since it began. [s]

    Valid for: a wall at the top of the plane, a free end, kinematic number over 10.
    Source: eagleson_kinematic, rising and falling limb

    >>> round(plane_depth_m(10.0, 20.0, 2e-5, 600.0, 600.0), 6)
    0.002297
    """
    steady = math.pow(run_m * rain_m_s / rate, 1.0 / POWER)
    fullest = min(rain_m_s * min(at_s, rain_s), steady)
    if at_s <= rain_s or fullest <= 0.0:
        return fullest
    lower, upper = 0.0, fullest
    while True:
        depth = 0.5 * (lower + upper)
        if depth in (lower, upper):
            return upper
        came_from = rate * math.pow(depth, POWER - 1.0) * (depth / rain_m_s + POWER * (at_s - rain_s))
        lower, upper = (depth, upper) if came_from < run_m else (lower, depth)


def storm_on_plane(
    run_mm: float, one_in: float, rain_mm_per_h: float, n: float, rain_min: float, at_min: float
) -> dict[str, Value]:
    """Return film and flow at the end of a plane at a time in or after a storm.

    Source: eagleson_kinematic, rising and falling limb; woolhiser_liggett_1967, kinematic number
    """
    if min(run_mm, one_in, rain_mm_per_h, n, rain_min) <= 0.0 or at_min < 0.0:
        message = "Run, n of 1 in n, rain, Manning's n and duration are more than zero, and the time not less."
        raise SumRefusedError(message)
    rain, run, second = units.mm_to_m(rain_mm_per_h) / units.SECONDS_PER_HOUR, units.mm_to_m(run_mm), _SECONDS
    rate = math.sqrt(1.0 / one_in) / n
    steady = (run * rain / rate) ** (1.0 / POWER)
    depth = plane_depth_m(rate, run, rain, rain_min * second, at_min * second)
    peak = min(steady, rain * rain_min * second)
    froude2 = (rain * run / steady) ** 2 / (G_M_PER_S2 * steady)
    return {
        "depth_mm": units.m_to_mm(depth),
        "flow_l_s_per_m": rate * depth**POWER * units.LITRES_PER_M3,
        "peak_l_s_per_m": rate * peak**POWER * units.LITRES_PER_M3,
        "steady_after_s": steady / rain,
        "froude": math.sqrt(froude2),
        "kinematic_number": run / one_in / (steady * froude2),
    }


_SECONDS = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR

SUMS: tuple[Sum, ...] = (
    Sum(
        "storm-on-plane",
        "Find film and flow at the end of a plane at a time in or after a storm",
        (
            Quantity("run_mm", "mm", "run along the fall, from a wall or ridge to a free end"),
            Quantity("one_in", "", "n of 1 in n"),
            Quantity("rain_mm_per_h", "mm/h", "rain"),
            Quantity("n", "", "Manning's n of a film: 0.012 to 0.03", default=0.02),
            Quantity("rain_min", "min", "how long it rains", default=10.0),
            Quantity("at_min", "min", "time since it began", default=10.0),
        ),
        (
            Quantity("depth_mm", "mm", "film at the end of the run"),
            Quantity("flow_l_s_per_m", "l/s", "flow over each metre of edge"),
            Quantity("peak_l_s_per_m", "l/s", "greatest flow over each metre of edge"),
            Quantity("steady_after_s", "s", "time until it would be steady"),
            Quantity("froude", "", "speed of steady water over that of waves at the end"),
            Quantity("kinematic_number", "", "above 10 the sum holds"),
        ),
        "rising: h = i·t; steady: h = (n·i·L / √S)^(3/5); falling: L = q/i + 5/3·α·h^(2/3)·(t − t_rain)",
        "eagleson_kinematic; woolhiser_liggett_1967",
        storm_on_plane,
    ),
)
