"""Steady flow in a rectangular channel fed evenly along its length, calculated from its outlet upstream."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pavewright.water.drains._hydraulics import G_M_PER_S2

_STEPS = 400
_HALVINGS = 60
_AT_MAX = 1e6


@dataclass(frozen=True, slots=True)
class ChannelProfile:
    """Depths of water along a channel, from its closed end to its outlet.

    Attributes:
        x_m: Distances from the closed end. [m]
        depth_m: Depths of water. [m]
        critical_m: Critical depth at the outlet. [m]
        control_m: Place of the section that sets the depths above it; the outlet, or further up in a steep channel.
            [m]
    """

    x_m: tuple[float, ...]
    depth_m: tuple[float, ...]
    critical_m: float
    control_m: float


def critical_depth_m(width_m: float, flow_m3_per_s: float) -> float:
    """Return the critical depth in a rectangular channel. [m].

    Source: definition, depth at which the Froude number is one

    >>> round(critical_depth_m(0.1, 0.00435), 4)
    0.0578
    """
    return math.pow((flow_m3_per_s / width_m) ** 2 / G_M_PER_S2, 1.0 / 3.0)


def friction_slope(width_m: float, depth_m: float, flow_m3_per_s: float, n: float) -> float:
    """Return the slope of the energy line by Manning, bottom and both sides wetted. [-].

    Args:
        width_m: Width of the channel. [m]
        depth_m: Depth of the water. [m]
        flow_m3_per_s: Flow. [m³/s]
        n: Manning's n. [s/m^(1/3)]

    Source: definition, S = n²·V² / R^(4/3)
    """
    area = width_m * depth_m
    radius = area / (width_m + 2.0 * depth_m)
    return (n * flow_m3_per_s / area) ** 2 / math.pow(radius, 4.0 / 3.0)


def normal_depth_m(width_m: float, flow_m3_per_s: float, n: float, slope: float) -> float:
    """Return the depth at which a falling rectangular channel carries a steady flow without further change. [m].

    Args:
        width_m: Width of the channel. [m]
        flow_m3_per_s: Flow. [m³/s]
        n: Manning's n. [s/m^(1/3)]
        slope: Fall of its bottom. [rise over run]

    Source: definition, Manning, solved by halving
    """
    low, high = 0.0, 1.0
    while friction_slope(width_m, high, flow_m3_per_s, n) > slope and high < _AT_MAX:
        high *= 2.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if friction_slope(width_m, middle, flow_m3_per_s, n) > slope:
            low = middle
        else:
            high = middle
    return high


def profile_upstream(
    width_m: float, length_m: float, slope: float, n: float, flow_m3_per_s: float, outlet_depth_m: float
) -> ChannelProfile:
    """Return the depths along a channel with even inflow, no momentum along the channel coming in with the water.

    Force and momentum are balanced over each short length from the outlet upwards. In that form nothing divides by one
    less the square of the Froude number, so critical depth at a free outlet is no special case. Where no depth above
    critical balances, the channel is steep: the critical depth stands there, the real one is less.

    Args:
        width_m: Inside width. [m]
        length_m: Length from closed end to outlet. [m]
        slope: Fall of the bottom towards the outlet, as rise over run. [-]
        n: Manning's n; nothing for no friction. [-]
        flow_m3_per_s: Flow at the outlet. [m³/s]
        outlet_depth_m: Depth that stands at the outlet; critical depth where it is less. [m]

    Valid for: falls up to about 1 in 10; water surface level across the channel; no pipe-like flow under the cover.
    Source: novak_hydraulic_structures, equation 4.25 as a balance of momentum:
        d/dx(Q²/gA + b·y²/2) = A·(S0 − Sf)

    >>> found = profile_upstream(0.1, 5.0, 0.0, 0.0, 0.00435, 0.0)
    >>> round(found.depth_m[0] / found.depth_m[-1], 4)
    1.7321
    """
    step = length_m / _STEPS
    critical = critical_depth_m(width_m, flow_m3_per_s)
    depth, control = max(critical, outlet_depth_m), length_m
    depths = [depth]
    for number in range(_STEPS - 1, -1, -1):
        flow = flow_m3_per_s * number / _STEPS
        below = flow_m3_per_s * (number + 1) / _STEPS
        pull = width_m * depth * (slope - friction_slope(width_m, depth, below, n))
        wanted = _thrust(width_m, depth, below) - step / 2.0 * pull
        least = critical_depth_m(width_m, flow)
        if _upper(width_m, least, flow, n, slope, step) >= wanted:
            depth = least
            control = number * step
        else:
            depth = _balanced(width_m, least, flow, n, slope, step, wanted)
        depths.append(depth)
    places = tuple(number * step for number in range(_STEPS + 1))
    return ChannelProfile(places, tuple(reversed(depths)), critical, control)


def _thrust(width_m: float, depth_m: float, flow_m3_per_s: float) -> float:
    """Return momentum and pressure of a section over the weight of water. [m³]."""
    moved = flow_m3_per_s * flow_m3_per_s / (G_M_PER_S2 * width_m * depth_m) if flow_m3_per_s > 0.0 else 0.0
    return moved + width_m * depth_m * depth_m / 2.0


def _upper(width_m: float, depth_m: float, flow_m3_per_s: float, n: float, slope: float, step_m: float) -> float:
    """Return what the upper section of a short length adds to its balance. [m³]."""
    if depth_m <= 0.0:
        return 0.0
    pull = width_m * depth_m * (slope - friction_slope(width_m, depth_m, flow_m3_per_s, n))
    return _thrust(width_m, depth_m, flow_m3_per_s) + step_m / 2.0 * pull


def _balanced(
    width_m: float, min_m: float, flow_m3_per_s: float, n: float, slope: float, step_m: float, wanted_m3: float
) -> float:
    """Return the depth above critical at which a short length is in balance. [m]."""
    low, high = min_m, max(2.0 * min_m, 1e-3)
    while _upper(width_m, high, flow_m3_per_s, n, slope, step_m) < wanted_m3 and high < _AT_MAX:
        high *= 2.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if _upper(width_m, middle, flow_m3_per_s, n, slope, step_m) < wanted_m3:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
