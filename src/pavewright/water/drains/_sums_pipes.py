"""Sums of pipes, channels and gutters."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.drains._hydraulics import (
    circular_section,
    full_bore_velocity,
    level_channel_flow_m3_per_s,
    manning_velocity,
)


def pipe_full_bore(
    bore_mm: float, one_in: float, roughness_mm: float, viscosity_m2_per_s: float, gravity_m_per_s2: float
) -> dict[str, Value]:
    """Return velocity and flow of a pipe that runs full.

    Source: colebrook_white
    """
    if min(bore_mm, one_in, viscosity_m2_per_s, gravity_m_per_s2) <= 0.0 or roughness_mm < 0.0:
        message = "Bore, n of 1 in n, viscosity and gravity are more than zero; roughness is not less than zero."
        raise SumRefusedError(message)
    bore = units.mm_to_m(bore_mm)
    velocity = full_bore_velocity(bore, 1.0 / one_in, units.mm_to_m(roughness_mm), viscosity_m2_per_s, gravity_m_per_s2)
    return {
        "velocity_m_per_s": velocity,
        "flow_l_s": velocity * math.pi * bore * bore / 4.0 * units.LITRES_PER_M3,
    }


def pipe_part_full(bore_mm: float, depth_mm: float, one_in: float, n: float) -> dict[str, Value]:
    """Return velocity and flow of a circular pipe part full, by Manning.

    Source: definition
    """
    if min(bore_mm, one_in, n) <= 0.0 or not 0.0 < depth_mm <= bore_mm:
        message = "Bore, n of 1 in n and Manning's n are more than zero; the depth lies between zero and the bore."
        raise SumRefusedError(message)
    area, perimeter = circular_section(units.mm_to_m(bore_mm), units.mm_to_m(depth_mm))
    velocity = manning_velocity(area / perimeter, 1.0 / one_in, n)
    return {
        "area_m2": area,
        "wetted_perimeter_mm": units.m_to_mm(perimeter),
        "hydraulic_radius_mm": units.m_to_mm(area / perimeter),
        "velocity_m_per_s": velocity,
        "flow_l_s": velocity * area * units.LITRES_PER_M3,
    }


def level_channel(width_mm: float, depth_mm: float) -> dict[str, Value]:
    """Return the most that a level channel with a free outlet carries, friction left out.

    Source: novak_hydraulic_structures
    """
    if min(width_mm, depth_mm) <= 0.0:
        message = "Width and depth are more than zero: measure the channel inside."
        raise SumRefusedError(message)
    flow = level_channel_flow_m3_per_s(units.mm_to_m(width_mm), units.mm_to_m(depth_mm))
    return {"flow_l_s": flow * units.LITRES_PER_M3, "outlet_depth_mm": depth_mm / math.sqrt(3.0)}


def half_round_gutter(bore_mm: float, rain_l_s_per_m2: float, factor: float) -> dict[str, Value]:
    """Return what a level half-round gutter carries and the roof that it drains.

    Source: bs_en_12056_gutters
    """
    if min(bore_mm, rain_l_s_per_m2, factor) <= 0.0:
        message = "Bore, rain and factor are more than zero."
        raise SumRefusedError(message)
    area_mm2 = math.pi * bore_mm * bore_mm / 8.0
    flow = factor * 2.78e-5 * area_mm2**1.25
    return {"flow_l_s": flow, "roof_m2": flow / rain_l_s_per_m2}


_VISCOSITY = Quantity("viscosity_m2_per_s", "m²/s", "kinematic viscosity of water", default=1.31e-6)
_GRAVITY = Quantity(
    "gravity_m_per_s2",
    "m/s²",
    "acceleration of gravity",
    figure="water.gravity_m_per_s2",
)

PIPE_SUMS: tuple[Sum, ...] = (
    Sum(
        "pipe-full-bore",
        "Find velocity and flow of a pipe that runs full",
        (
            Quantity("bore_mm", "mm", "inside diameter"),
            Quantity("one_in", "", "n of 1 in n"),
            Quantity("roughness_mm", "mm", "roughness of the wall", default=0.6),
            _VISCOSITY,
            _GRAVITY,
        ),
        (Quantity("velocity_m_per_s", "m/s", "velocity"), Quantity("flow_l_s", "l/s", "flow")),
        "V = −2·√(2gDS)·log(k / 3.7D + 2.51ν / (D·√(2gDS)))",
        "colebrook_white",
        pipe_full_bore,
    ),
    Sum(
        "pipe-part-full",
        "Find velocity and flow of a circular pipe part full",
        (
            Quantity("bore_mm", "mm", "inside diameter"),
            Quantity("depth_mm", "mm", "depth of water"),
            Quantity("one_in", "", "n of 1 in n"),
            Quantity("n", "", "Manning's n", default=0.012),
        ),
        (
            Quantity("area_m2", "m2", "wetted area"),
            Quantity("wetted_perimeter_mm", "mm", "wetted perimeter"),
            Quantity("hydraulic_radius_mm", "mm", "area over perimeter"),
            Quantity("velocity_m_per_s", "m/s", "velocity"),
            Quantity("flow_l_s", "l/s", "flow"),
        ),
        "V = R^(2/3)·√S / n",
        "definition",
        pipe_part_full,
    ),
    Sum(
        "level-channel",
        "Find the most that a level channel with a free outlet carries",
        (Quantity("width_mm", "mm", "inside width"), Quantity("depth_mm", "mm", "depth of water at its closed end")),
        (
            Quantity("flow_l_s", "l/s", "flow at its outlet, friction left out"),
            Quantity("outlet_depth_mm", "mm", "depth at its outlet"),
        ),
        "Q = b·√g·(y / √3)^1.5",
        "novak_hydraulic_structures",
        level_channel,
    ),
    Sum(
        "half-round-gutter",
        "Find what a level half-round gutter carries",
        (
            Quantity("bore_mm", "mm", "width across its top"),
            Quantity("rain_l_s_per_m2", "l/s", "rain on a square metre", default=0.021),
            Quantity("factor", "", "part of the capacity that is relied on", default=0.9),
        ),
        (Quantity("flow_l_s", "l/s", "flow"), Quantity("roof_m2", "m2", "roof that it drains")),
        "Q = 2.78·10⁻⁵·A^1.25",
        "bs_en_12056_gutters",
        half_round_gutter,
    ),
)
