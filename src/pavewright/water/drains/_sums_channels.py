"""Sums of channels: fed along their length, at a steady fall, dished, or against a kerb."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.drains._hydraulics import circular_section, manning_velocity
from pavewright.water.drains._lateral_inflow import normal_depth_m, profile_upstream

_SHOWN = 40
"""Every so many steps of the profile is shown: eleven depths. [-]"""
_STEEPEST = 0.1
"""Above this fall the depth square to the bottom is no longer the depth. [-]"""


def collector_channel(
    width_mm: float,
    depth_mm: float,
    length_mm: float,
    fall_percent: float,
    n: float,
    flow_l_s: float,
    outlet_water_mm: float,
    outlet_side_mm: float,
) -> dict[str, Value]:
    """Return the depths of water along a channel that takes water evenly along its length, and its freeboard.

    The flow at the outlet falls over an edge, or meets water that stands there. The sides are as high at the outlet as
    at the closed end unless another height is given there, and change evenly.

    Source: novak_hydraulic_structures, equation 4.25 as a balance of momentum, friction by Manning

    >>> found = collector_channel(100.0, 110.0, 5000.0, 0.0, 0.0, 4.35, 0.0, 0.0)
    >>> round(found["upstream_mm"]), round(found["critical_mm"], 1), found["verdict"]
    (100, 57.8, 'enough')
    """
    fall = fall_percent / 100.0
    if min(width_mm, depth_mm, length_mm, flow_l_s) <= 0.0 or min(n, outlet_water_mm, outlet_side_mm) < 0.0:
        message = "Width, depth, length and flow are more than zero: measure the channel inside."
        raise SumRefusedError(message)
    if not 0.0 <= fall <= _STEEPEST:
        message = "The fall lies between 0 and 10 %: the channel falls to its outlet."
        raise SumRefusedError(message)
    width, flow = units.mm_to_m(width_mm), flow_l_s / units.LITRES_PER_M3
    found = profile_upstream(width, units.mm_to_m(length_mm), fall, n, flow, units.mm_to_m(outlet_water_mm))
    along = [units.m_to_mm(place) for place in found.x_m]
    water = [units.m_to_mm(depth) for depth in found.depth_m]
    end_side = outlet_side_mm or depth_mm
    spare = [
        depth_mm + (end_side - depth_mm) * place / length_mm - depth for place, depth in zip(along, water, strict=True)
    ]
    least = min(spare)
    deepest = max(water)
    steady = normal_depth_m(width, flow, n, fall) if fall > 0.0 and n > 0.0 else 0.0
    return {
        "critical_mm": units.m_to_mm(found.critical_m),
        "outlet_mm": water[-1],
        "upstream_mm": water[0],
        "deepest_mm": deepest,
        "deepest_at_mm": along[water.index(deepest)],
        "control_at_mm": units.m_to_mm(found.control_m),
        "steady_mm": units.m_to_mm(steady),
        "along_mm": tuple(along[::_SHOWN]),
        "water_mm": tuple(water[::_SHOWN]),
        "freeboard_mm": least,
        "verdict": "enough" if least >= 0.0 else "overflows",
    }


def open_channel(width_mm: float, water_mm: float, one_in: float, n: float) -> dict[str, Value]:
    """Return velocity and flow of a rectangular channel at a steady fall.

    Source: definition, V = R^(2/3)·√S / n

    >>> round(open_channel(100.0, 100.0, 100.0, 0.012)["flow_l_s"], 2)
    8.63
    """
    if min(width_mm, water_mm, one_in, n) <= 0.0:
        message = "Width, depth of water, n of 1 in n and Manning's n are more than zero."
        raise SumRefusedError(message)
    area = units.mm2_to_m2(width_mm * water_mm)
    return _steady(area, units.mm_to_m(width_mm + 2.0 * water_mm), width_mm, one_in, n)


def dished_channel(width_mm: float, dish_mm: float, water_mm: float, one_in: float, n: float) -> dict[str, Value]:
    """Return velocity and flow of a dished channel, its section part of a circle, full or part full.

    Source: definition, V = R^(2/3)·√S / n over the segment of a circle

    >>> round(dished_channel(300.0, 30.0, 30.0, 80.0, 0.013)["flow_l_s"], 2)
    3.79
    """
    if min(width_mm, dish_mm, one_in, n) <= 0.0 or not 0.0 < water_mm <= dish_mm:
        message = (
            "Width, dish, n of 1 in n and Manning's n are more than zero; the water stands between the bottom of "
            "the dish and its rim."
        )
        raise SumRefusedError(message)
    if dish_mm > width_mm / 2.0:
        message = "The dish is deeper than half its width: take the sum of a rectangular channel or a pipe."
        raise SumRefusedError(message)
    radius_mm = (width_mm * width_mm / 4.0 + dish_mm * dish_mm) / (2.0 * dish_mm)
    area, perimeter = circular_section(units.mm_to_m(2.0 * radius_mm), units.mm_to_m(water_mm))
    wide_mm = 2.0 * math.sqrt(water_mm * (2.0 * radius_mm - water_mm))
    return _steady(area, perimeter, wide_mm, one_in, n)


def kerb_channel(spread_mm: float, cross_percent: float, one_in: float, n: float) -> dict[str, Value]:
    """Return what runs along a kerb or wall towards which the paving falls, by how wide the water spreads.

    Source: hec_22, triangular gutter, Q = 0.376/n · Sx^1.67 · SL^0.5 · T^2.67

    >>> found = kerb_channel(1000.0, 2.5, 100.0, 0.016)
    >>> round(found["flow_l_s"], 2), found["kerb_water_mm"]
    (4.96, 25.0)
    """
    if min(spread_mm, cross_percent, one_in, n) <= 0.0:
        message = "Spread, crossfall, n of 1 in n and Manning's n are more than zero."
        raise SumRefusedError(message)
    cross, spread = cross_percent / 100.0, units.mm_to_m(spread_mm)
    flow = 0.376 / n * math.pow(cross, 1.67) * math.sqrt(1.0 / one_in) * math.pow(spread, 2.67)
    area = cross * spread * spread / 2.0
    return {
        "kerb_water_mm": spread_mm * cross,
        "velocity_m_per_s": flow / area,
        "flow_l_s": flow * units.LITRES_PER_M3,
    }


def _steady(area_m2: float, perimeter_m: float, surface_mm: float, one_in: float, n: float) -> dict[str, Value]:
    velocity = manning_velocity(area_m2 / perimeter_m, 1.0 / one_in, n)
    return {
        "area_m2": area_m2,
        "surface_mm": surface_mm,
        "velocity_m_per_s": velocity,
        "flow_l_s": velocity * area_m2 * units.LITRES_PER_M3,
    }


_ONE_IN = Quantity("one_in", "", "n of 1 in n along the channel")
_N = Quantity("n", "", "Manning's n", default=0.012)
_STEADY = (
    Quantity("area_m2", "m2", "section of the water"),
    Quantity("surface_mm", "mm", "width of its surface"),
    Quantity("velocity_m_per_s", "m/s", "velocity"),
    Quantity("flow_l_s", "l/s", "flow"),
)

CHANNEL_SUMS: tuple[Sum, ...] = (
    Sum(
        "collector-channel",
        "Find how deep water stands in a channel that is fed along its length",
        (
            Quantity("width_mm", "mm", "inside width"),
            Quantity("depth_mm", "mm", "inside height of its sides at the closed end"),
            Quantity("length_mm", "mm", "length from closed end to outlet"),
            Quantity("fall_percent", "%", "fall of its bottom towards the outlet", default=0.0),
            _N,
            Quantity("flow_l_s", "l/s", "flow at the outlet"),
            Quantity("outlet_water_mm", "mm", "water that stands at the outlet; 0 for a free fall", default=0.0),
            Quantity("outlet_side_mm", "mm", "height of its sides at the outlet; 0 for the same", default=0.0),
        ),
        (
            Quantity("critical_mm", "mm", "critical depth at the outlet"),
            Quantity("outlet_mm", "mm", "depth at the outlet"),
            Quantity("upstream_mm", "mm", "depth at the closed end"),
            Quantity("deepest_mm", "mm", "greatest depth"),
            Quantity("deepest_at_mm", "mm", "where, from the closed end"),
            Quantity(
                "control_at_mm", "mm", "section that sets the depths above it; below it a steep channel runs fast"
            ),
            Quantity("steady_mm", "mm", "depth by Manning at the full flow; 0 on the level, where there is none"),
            Quantity("along_mm", "mm", "places shown, from the closed end", kind="numbers"),
            Quantity("water_mm", "mm", "depths there", kind="numbers"),
            Quantity("freeboard_mm", "mm", "smallest height of side over water"),
            Quantity("verdict", "", "enough or overflows", kind="word"),
        ),
        "d/dx(Q² / gA + b·y² / 2) = A·(S0 − Sf), from the outlet upwards",
        "novak_hydraulic_structures",
        collector_channel,
    ),
    Sum(
        "open-channel",
        "Find velocity and flow of a rectangular channel at a steady fall",
        (
            Quantity("width_mm", "mm", "inside width"),
            Quantity("water_mm", "mm", "depth of water"),
            _ONE_IN,
            _N,
        ),
        _STEADY,
        "V = R^(2/3)·√S / n",
        "definition",
        open_channel,
    ),
    Sum(
        "dished-channel",
        "Find velocity and flow of a dished channel, full or part full",
        (
            Quantity("width_mm", "mm", "width over its rims"),
            Quantity("dish_mm", "mm", "depth of the dish below its rims"),
            Quantity("water_mm", "mm", "depth of water"),
            _ONE_IN,
            Quantity("n", "", "Manning's n", default=0.013),
        ),
        _STEADY,
        "V = R^(2/3)·√S / n over a segment of a circle",
        "definition",
        dished_channel,
    ),
    Sum(
        "kerb-channel",
        "Find what runs along a kerb by how wide the water spreads",
        (
            Quantity("spread_mm", "mm", "width of the water from the kerb"),
            Quantity("cross_percent", "%", "fall of the paving towards the kerb"),
            Quantity("one_in", "", "n of 1 in n along the kerb"),
            Quantity("n", "", "Manning's n", default=0.016),
        ),
        (
            Quantity("kerb_water_mm", "mm", "depth of water at the kerb"),
            Quantity("velocity_m_per_s", "m/s", "mean velocity"),
            Quantity("flow_l_s", "l/s", "flow"),
        ),
        "Q = 0.376/n · Sx^1.67 · SL^0.5 · T^2.67",
        "hec_22",
        kerb_channel,
    ),
)
