"""Right angles with a tape."""

from __future__ import annotations

import math


def angle_from_sides_deg(side_a_mm: float, side_b_mm: float, across_mm: float) -> float:
    """Return the angle between two sides from the tape across them. [deg].

    Args:
        side_a_mm: One side from the corner. [mm]
        side_b_mm: The other side from the corner. [mm]
        across_mm: Between their far ends. [mm]

    Valid for: three tapes that make a triangle.
    Source: definition, cos C = (a² + b² − c²) / 2ab

    >>> angle_from_sides_deg(3000.0, 4000.0, 5000.0)
    90.0
    """
    cosine = (side_a_mm**2 + side_b_mm**2 - across_mm**2) / (2.0 * side_a_mm * side_b_mm)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def skew_from_diagonals_deg(side_a_mm: float, side_b_mm: float, longer_mm: float, shorter_mm: float) -> float:
    """Return how far a figure with equal opposite sides is out of square, from its diagonals. [deg].

    Args:
        side_a_mm: Length. [mm]
        side_b_mm: Width. [mm]
        longer_mm: One diagonal. [mm]
        shorter_mm: The other diagonal. [mm]

    Valid for: opposite sides equal.
    Source: definition, d1² − d2² = 4ab·sin ε

    >>> round(skew_from_diagonals_deg(6000.0, 4000.0, 7216.1, 7206.1), 4)
    0.0861
    """
    sine = (longer_mm - shorter_mm) * (longer_mm + shorter_mm) / (4.0 * side_a_mm * side_b_mm)
    return math.degrees(math.asin(sine))
