"""Flat arcs from their chord."""

from __future__ import annotations

import math


def radius_from_rise_mm(chord_mm: float, rise_mm: float) -> float:
    """Return the radius of an arc. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        rise_mm: Rise over the middle of the chord. [mm]

    Valid for: rise more than nothing.
    Source: definition, R = (c² + V²) / 2V with half chord c

    >>> radius_from_rise_mm(80_000.0, 5_000.0)
    162500.0
    """
    half = chord_mm / 2.0
    return (half * half + rise_mm * rise_mm) / (2.0 * rise_mm)


def rise_from_radius_mm(chord_mm: float, radius_mm: float) -> float:
    """Return the rise of an arc over the middle of its chord, the flatter of the two arcs. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        radius_mm: Radius, half the chord or more. [mm]

    Source: definition, V = R − √(R² − c²), written so that a flat arc loses no digits

    >>> round(rise_from_radius_mm(80_000.0, 200_000.0), 3)
    4040.821
    """
    half = chord_mm / 2.0
    return half * half / (radius_mm + math.sqrt((radius_mm - half) * (radius_mm + half)))


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


def offset_from_chord_mm(radius_mm: float, rise_mm: float, from_middle_mm: float) -> float:
    """Return how far an arc stands off its chord. [mm].

    Args:
        radius_mm: Radius. [mm]
        rise_mm: Rise over the middle of the chord. [mm]
        from_middle_mm: Distance along the chord from its middle, either way. [mm]

    Valid for: from the middle to the ends of the chord, arcs up to a half circle.
    Source: definition, y = √(R² − x²) − (R − V), written so that a flat arc loses no digits

    >>> round(offset_from_chord_mm(162_500.0, 5_000.0, 20_000.0), 0)
    3765.0
    """
    root = math.sqrt(max(0.0, (radius_mm - from_middle_mm) * (radius_mm + from_middle_mm)))
    return rise_mm - from_middle_mm * from_middle_mm / (radius_mm + root)
