"""How far a string hangs below the straight line between its ends, and how much too long a tape reads that sags."""

from __future__ import annotations

from pavewright import units

_HALF = 0.5
_EIGHT, _TWENTY_FOUR = 8.0, 24.0


def sag_mm(span_mm: float, mass_kg_per_km: float, pull_kg: float) -> float:
    """Return how far a string hangs below its ends at the middle. [mm].

    Args:
        span_mm: Between its ends. [mm]
        mass_kg_per_km: Its mass. [kg/km]
        pull_kg: Pull on it, as a mass hung on it. [kg]

    Valid for: a sag that is small against the span; ends at about one height.
    Source: string_sag, w·L² / 8T

    >>> round(sag_mm(10_000.0, 1.2, 20.0 / 9.80665), 3)
    7.355
    """
    span_m = units.mm_to_m(span_mm)
    return units.m_to_mm(units.mm_to_m(mass_kg_per_km) * span_m * span_m / (_EIGHT * pull_kg))


def sag_at_mm(middle_mm: float, part: float) -> float:
    """Return how far a string hangs below the straight line between its ends. [mm].

    Args:
        middle_mm: How far it hangs at its middle. [mm]
        part: How far along it is, zero at its start and one at its end. [-]

    Source: string_sag, a flat parabola

    >>> sag_at_mm(8.0, 0.25)
    6.0
    """
    return middle_mm * 4.0 * part * (1.0 - part)


def sag_shortening_mm(span_mm: float, mass_kg_per_km: float, pull_kg: float) -> float:
    """Return how much longer a tape reads between two supports because it sags. [mm].

    Args:
        span_mm: Between two supports. [mm]
        mass_kg_per_km: Mass of the tape. [kg/km]
        pull_kg: Pull on it, as a mass hung on it. [kg]

    Valid for: a sag that is small against the span.
    Source: tape_corrections, sag: w²·L³ / 24P²
    """
    span_m, kg_per_m = units.mm_to_m(span_mm), units.mm_to_m(mass_kg_per_km)
    return units.m_to_mm(kg_per_m**2 * span_m**3 / (_TWENTY_FOUR * pull_kg**2))


def slope_shortening_mm(slope_mm: float, rise_mm: float) -> float:
    """Return how much longer a tape along a slope reads than the level distance. [mm].

    Args:
        slope_mm: Length along the slope. [mm]
        rise_mm: From end to end. [mm]

    Valid for: a rise that is small against the length.
    Source: tape_corrections, slope: h²/2L + h⁴/8L³

    >>> round(slope_shortening_mm(10_000.0, 200.0), 2)
    2.0
    """
    return _HALF * rise_mm**2 / slope_mm + rise_mm**4 / (_EIGHT * slope_mm**3)
