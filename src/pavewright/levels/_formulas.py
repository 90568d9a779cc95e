"""Formulas of levels that the plan and the sums run alike."""

from __future__ import annotations

import math


def steepest_of(main: float, cross: float) -> float:
    """Return the steepest fall of a plane that falls two ways at right angles, rise over run.

    Args:
        main: Main fall. [rise over run]
        cross: Fall at right angles to it. [rise over run]

    Source: definition, √(main² + cross²)

    >>> round(1.0 / steepest_of(1.0 / 80.0, 1.0 / 80.0), 2)
    56.57
    """
    return math.hypot(main, cross)


def highest_beside_wall_mm(dpc_mm: float, below_mm: float) -> float:
    """Return the highest finished level beside a wall. [mm].

    Args:
        dpc_mm: Level of the damp-proof course. [mm]
        below_mm: How far below it paving stays. [mm]

    Source: surveyor_2011
    """
    return dpc_mm - below_mm


def clearance_mm(dpc_mm: float, level_mm: float) -> float:
    """Return how far paving lies below a damp-proof course; less than zero where it lies above. [mm].

    Args:
        dpc_mm: Level of the damp-proof course. [mm]
        level_mm: Level of the paving, planned or as found. [mm]

    Source: definition
    """
    return dpc_mm - level_mm


def pace_mm(riser_mm: float, going_mm: float) -> float:
    """Return two risers and a going: the pace over a flight. [mm].

    Source: building_code_australia, twice the rise plus the going
    """
    return 2.0 * riser_mm + going_mm


def flight_mm(risers: int, going_mm: float) -> float:
    """Return the length of a flight in plan: a going for each tread, one fewer than risers. [mm].

    Source: definition
    """
    return (risers - 1) * going_mm
