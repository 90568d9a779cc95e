"""In which other unit a number may have been written."""

from __future__ import annotations

from pavewright.units import INCHES_PER_FOOT, MM_PER_INCH, MM_PER_M

_FACTORS = (
    ("centimetres", 10.0),
    ("metres", MM_PER_M),
    ("inches", MM_PER_INCH),
    ("feet", MM_PER_INCH * INCHES_PER_FOOT),
)


def units_that_fit(value: float, low_mm: float, high_mm: float) -> tuple[tuple[str, float], ...]:
    """Return the units in which a number lies within a band, each with the millimetres that it makes.

    Args:
        value: The number as written. [unknown unit of length]
        low_mm: Lower end of the band. [mm]
        high_mm: Upper end. [mm]

    >>> units_that_fit(60.0, 150.0, 1200.0)
    (('centimetres', 600.0),)
    """
    found = [(unit, value * factor) for unit, factor in _FACTORS if low_mm <= value * factor <= high_mm]
    return tuple(found[:1])


def looks_like(value: float, low_mm: float, high_mm: float) -> str:
    """Return a sentence on the unit in which a number makes sense; empty where there is none.

    Args:
        value: The number as written. [unknown unit of length]
        low_mm: Lower end of the band in which it makes sense. [mm]
        high_mm: Upper end. [mm]

    >>> looks_like(60.0, 150.0, 1200.0)
    ' It looks like centimetres: write millimetres, 600.'
    """
    fits = units_that_fit(value, low_mm, high_mm)
    return f" It looks like {fits[0][0]}: write millimetres, {fits[0][1]:g}." if fits else ""
