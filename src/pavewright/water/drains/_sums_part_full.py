"""Sums of pipes part full by Colebrook-White, and of the speed that keeps them clean."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.drains._hydraulics import G_M_PER_S2, circular_section, full_bore_velocity

_RISING = 0.9
"""Up to this part of the bore more depth means more flow, and the flow there is more than that of the full bore. [-]"""
_HALVINGS = 60


def part_full_velocity(
    bore_m: float,
    depth_m: float,
    gradient: float,
    roughness_m: float,
    viscosity_m2_per_s: float,
    gravity_m_per_s2: float = G_M_PER_S2,
) -> float:
    """Return the velocity in a pipe part full: that of a full pipe with the same hydraulic radius. [m/s].

    Source: colebrook_white, bore put as four times the hydraulic radius

    >>> full = full_bore_velocity(0.1, 0.01, 0.0006, 1.31e-6)
    >>> round(part_full_velocity(0.1, 0.05, 0.01, 0.0006, 1.31e-6) / full, 6)
    1.0
    """
    area, perimeter = circular_section(bore_m, depth_m)
    return full_bore_velocity(4.0 * area / perimeter, gradient, roughness_m, viscosity_m2_per_s, gravity_m_per_s2)


def pipe_part_full_rough(
    bore_mm: float,
    depth_mm: float,
    one_in: float,
    roughness_mm: float,
    viscosity_m2_per_s: float,
    gravity_m_per_s2: float = G_M_PER_S2,
) -> dict[str, Value]:
    """Return velocity and flow of a circular pipe part full, by Colebrook-White.

    Source: colebrook_white, by hydraulic radius

    >>> round(pipe_part_full_rough(100.0, 50.0, 100.0, 0.6, 1.31e-6)["flow_l_s"], 2)
    3.0
    """
    _refuse_pipe(bore_mm, one_in, roughness_mm, viscosity_m2_per_s, gravity_m_per_s2)
    if not 0.0 < depth_mm <= bore_mm:
        message = "The depth lies between zero and the bore."
        raise SumRefusedError(message)
    bore, depth = units.mm_to_m(bore_mm), units.mm_to_m(depth_mm)
    area, perimeter = circular_section(bore, depth)
    rough = units.mm_to_m(roughness_mm)
    velocity = part_full_velocity(bore, depth, 1.0 / one_in, rough, viscosity_m2_per_s, gravity_m_per_s2)
    return {
        "area_m2": area,
        "hydraulic_radius_mm": units.m_to_mm(area / perimeter),
        "velocity_m_per_s": velocity,
        "flow_l_s": velocity * area * units.LITRES_PER_M3,
    }


def pipe_self_cleansing(
    bore_mm: float,
    one_in: float,
    flow_l_s: float,
    roughness_mm: float,
    viscosity_m2_per_s: float,
    wanted_m_per_s: float,
    gravity_m_per_s2: float = G_M_PER_S2,
) -> dict[str, Value]:
    """Return depth and velocity of a flow in a pipe, and whether it is fast enough to carry silt along.

    Source: colebrook_white, by hydraulic radius, solved for the depth by halving; bs_en_752 for the velocity wanted

    >>> found = pipe_self_cleansing(100.0, 100.0, 3.0046, 0.6, 1.31e-6, 0.7)
    >>> round(found["depth_mm"]), found["verdict"]
    (50, 'keeps clean')
    """
    _refuse_pipe(bore_mm, one_in, roughness_mm, viscosity_m2_per_s, gravity_m_per_s2)
    if min(flow_l_s, wanted_m_per_s) <= 0.0:
        message = "Flow and velocity wanted are more than zero."
        raise SumRefusedError(message)
    bore, fall, rough = units.mm_to_m(bore_mm), 1.0 / one_in, units.mm_to_m(roughness_mm)
    section = math.pi * bore * bore / 4.0
    most = full_bore_velocity(bore, fall, rough, viscosity_m2_per_s, gravity_m_per_s2) * section * units.LITRES_PER_M3
    if flow_l_s > most:
        message = f"The pipe carries {most:.2f} l/s and no more: take a larger bore or a steeper fall."
        raise SumRefusedError(message)
    low, high = 1e-6 * bore, _RISING * bore
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        speed = part_full_velocity(bore, middle, fall, rough, viscosity_m2_per_s, gravity_m_per_s2)
        if speed * circular_section(bore, middle)[0] * units.LITRES_PER_M3 < flow_l_s:
            low = middle
        else:
            high = middle
    velocity = flow_l_s / units.LITRES_PER_M3 / circular_section(bore, high)[0]
    return {
        "depth_mm": units.m_to_mm(high),
        "depth_percent": 100.0 * high / bore,
        "velocity_m_per_s": velocity,
        "full_bore_l_s": most,
        "verdict": "keeps clean" if velocity >= wanted_m_per_s else "may silt up",
    }


def _refuse_pipe(
    bore_mm: float, one_in: float, roughness_mm: float, viscosity_m2_per_s: float, gravity_m_per_s2: float
) -> None:
    if min(bore_mm, one_in, viscosity_m2_per_s, gravity_m_per_s2) <= 0.0 or roughness_mm < 0.0:
        message = "Bore, n of 1 in n, viscosity and gravity are more than zero; roughness is not less than zero."
        raise SumRefusedError(message)


_BORE = Quantity("bore_mm", "mm", "inside diameter")
_ONE_IN = Quantity("one_in", "", "n of 1 in n")
_ROUGHNESS = Quantity("roughness_mm", "mm", "roughness of the wall", default=0.6)
_VISCOSITY = Quantity("viscosity_m2_per_s", "m²/s", "kinematic viscosity of water", default=1.31e-6)
_GRAVITY = Quantity(
    "gravity_m_per_s2",
    "m/s²",
    "acceleration of gravity",
    figure="water.gravity_m_per_s2",
)

PART_FULL_SUMS: tuple[Sum, ...] = (
    Sum(
        "pipe-part-full-rough",
        "Find velocity and flow of a circular pipe part full, by the roughness of its wall",
        (_BORE, Quantity("depth_mm", "mm", "depth of water"), _ONE_IN, _ROUGHNESS, _VISCOSITY, _GRAVITY),
        (
            Quantity("area_m2", "m2", "wetted area"),
            Quantity("hydraulic_radius_mm", "mm", "area over perimeter"),
            Quantity("velocity_m_per_s", "m/s", "velocity"),
            Quantity("flow_l_s", "l/s", "flow"),
        ),
        "V of a full pipe whose bore is four hydraulic radii",
        "colebrook_white",
        pipe_part_full_rough,
    ),
    Sum(
        "pipe-self-cleansing",
        "Find how deep and fast a flow runs in a pipe, and whether it keeps the pipe clean",
        (
            _BORE,
            _ONE_IN,
            Quantity("flow_l_s", "l/s", "flow that comes often, once a day or so"),
            _ROUGHNESS,
            _VISCOSITY,
            Quantity(
                "wanted_m_per_s",
                "m/s",
                "velocity that carries silt; 0.7 is from memory",
                default=0.7,
                figure="water.self_cleansing_m_per_s",
            ),
            _GRAVITY,
        ),
        (
            Quantity("depth_mm", "mm", "depth of water"),
            Quantity("depth_percent", "%", "depth over bore"),
            Quantity("velocity_m_per_s", "m/s", "velocity"),
            Quantity("full_bore_l_s", "l/s", "flow of the full bore"),
            Quantity("verdict", "", "keeps clean or may silt up", kind="word"),
        ),
        "A(y)·V(y) = Q, V by Colebrook-White",
        "colebrook_white; bs_en_752",
        pipe_self_cleansing,
    ),
)
