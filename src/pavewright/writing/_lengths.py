"""Feet and inches as they are read off a tape."""

from __future__ import annotations

import math

from pavewright import units

_FINE_MM = 50.0
_FINE, _COARSE = 16, 8
_TAPE_INCHES = 12


def feet(length_mm: float) -> str:
    """Return a length in feet, inches and the fraction of a tape: eighths, of small ones sixteenths.

    >>> feet(600.0), feet(10.0), feet(3048.0), feet(-25.4), feet(0.0)
    ('1 ft 11 5/8 in', '3/8 in', '10 ft', '−1 in', '0 in')
    """
    parts = _FINE if abs(length_mm) < _FINE_MM else _COARSE
    count = round(abs(length_mm) / units.MM_PER_INCH * parts)
    if count == 0 and abs(length_mm) > 0.0:
        return f"{length_mm / units.MM_PER_INCH:.2f} in".replace("-", "−")
    whole, rest = divmod(count, parts)
    whole_feet, inches = divmod(whole, _TAPE_INCHES)
    found = [f"{whole_feet} ft"] if whole_feet else []
    if rest:
        shared = math.gcd(rest, parts)
        lead = f"{inches} " if inches else ""
        found.append(f"{lead}{rest // shared}/{parts // shared} in")
    elif inches or not found:
        found.append(f"{inches} in")
    return f"{'−' if length_mm < 0.0 and count else ''}{' '.join(found)}"


def feet_decimal(level_mm: float) -> str:
    """Return a level in feet and hundredths, as it is read off a staff.

    >>> feet_decimal(10_000.0)
    '32.81'
    """
    return f"{level_mm / (units.MM_PER_INCH * units.INCHES_PER_FOOT):.2f}"
