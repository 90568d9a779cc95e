"""Flow in pipes, channels and gutters, and over paving, by closed forms."""

from __future__ import annotations

import math

G_M_PER_S2 = 9.81
"""Acceleration of gravity. [m/s²]"""


def full_bore_velocity(
    bore_m: float,
    gradient: float,
    roughness_m: float,
    viscosity_m2_per_s: float,
    gravity_m_per_s2: float = G_M_PER_S2,
) -> float:
    """Return the velocity in a pipe that runs full. [m/s].

    Args:
        bore_m: Inside diameter. [m]
        gradient: Fall as rise over run. [-]
        roughness_m: Roughness of the wall. [m]
        viscosity_m2_per_s: Kinematic viscosity of water. [m²/s]
        gravity_m_per_s2: Acceleration of gravity: tables differ in its third place. [m/s²]

    Valid for: turbulent flow.
    Source: colebrook_white, explicit form for a given gradient

    >>> round(full_bore_velocity(0.9, 1 / 150, 0.0006, 1e-6), 2)
    2.56
    """
    pull = math.sqrt(2.0 * gravity_m_per_s2 * bore_m * gradient)
    return -2.0 * pull * math.log10(roughness_m / (3.7 * bore_m) + 2.51 * viscosity_m2_per_s / (bore_m * pull))


def circular_section(bore_m: float, depth_m: float) -> tuple[float, float]:
    """Return wetted area and wetted perimeter of a circular pipe part full. [m², m].

    >>> area, perimeter = circular_section(2.0, 1.0)
    >>> round(area, 4), round(perimeter, 4)
    (1.5708, 3.1416)
    """
    angle = 2.0 * math.acos(1.0 - 2.0 * depth_m / bore_m)
    return bore_m * bore_m / 8.0 * (angle - math.sin(angle)), bore_m * angle / 2.0


def manning_velocity(hydraulic_radius_m: float, gradient: float, n: float) -> float:
    """Return the velocity in a channel by Manning. [m/s].

    Args:
        hydraulic_radius_m: Wetted area over wetted perimeter. [m]
        gradient: Fall of the channel. [rise over run]
        n: Manning's n. [s/m^(1/3)]

    Source: definition, V = R^(2/3)·√S / n
    """
    return math.pow(hydraulic_radius_m, 2.0 / 3.0) * math.sqrt(gradient) / n


def level_channel_flow_m3_per_s(width_m: float, depth_m: float) -> float:
    """Return what a level rectangular channel, fed evenly along its length and free at its outlet, carries away.

    Args:
        width_m: Inside width. [m]
        depth_m: Depth of water at its closed end. [m]

    Valid for: no friction, so the upper bound of a real channel of this size.
    Source: novak_hydraulic_structures, level channel with lateral inflow: upstream depth is √3 of the critical depth
    """
    return width_m * math.sqrt(G_M_PER_S2) * math.pow(depth_m / math.sqrt(3.0), 1.5)


def sheet_depth_m(n: float, rain_m_per_s: float, run_m: float, fall: float) -> float:
    """Return the depth of the film of water at the end of a run of paving in steady rain. [m].

    Args:
        n: Manning's n. [s/m^(1/3)]
        rain_m_per_s: Rain. [m/s]
        run_m: Length along the fall. [m]
        fall: Fall of the paving. [rise over run]

    Valid for: a plane, rain that lasts until the film is steady; Manning's n for a film is a band, not a figure.
    Source: kinematic_wave, h = (n·i·L / √S)^(3/5)
    """
    return math.pow(n * rain_m_per_s * run_m / math.sqrt(fall), 0.6)


def time_to_steady_s(n: float, rain_m_per_s: float, run_m: float, fall: float) -> float:
    """Return how long it takes until the film is steady. [s].

    Args:
        n: Manning's n. [s/m^(1/3)]
        rain_m_per_s: Rain. [m/s]
        run_m: Length along the fall. [m]
        fall: Fall of the paving. [rise over run]

    Source: kinematic_wave, t = h / i
    """
    return sheet_depth_m(n, rain_m_per_s, run_m, fall) / rain_m_per_s
