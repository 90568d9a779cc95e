"""A flat arc from its chord and its rise."""

from __future__ import annotations

import math


def radius_from_rise_mm(chord_mm: float, rise_mm: float) -> float:
    """Return the radius of an arc. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        rise_mm: Rise over the middle of the chord. [mm]

    Valid for: rise more than zero.
    Source: definition, R = (c² + V²) / 2V with half chord c

    >>> radius_from_rise_mm(80_000.0, 5_000.0)
    162500.0
    """
    half = chord_mm / 2.0
    return (half * half + rise_mm * rise_mm) / (2.0 * rise_mm)


def arc_length_mm(chord_mm: float, rise_mm: float) -> float:
    """Return the length along an arc. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        rise_mm: Rise over the middle of the chord. [mm]

    Source: definition, R·Δ with Δ = 4·arctan(2V / chord)

    >>> round(arc_length_mm(2_000.0, 1_000.0), 3)
    3141.593
    """
    return radius_from_rise_mm(chord_mm, rise_mm) * 4.0 * math.atan2(2.0 * rise_mm, chord_mm)
