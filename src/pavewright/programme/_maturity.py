"""How quickly cement hardens in the cold: maturity, equivalent age, and the share of its strength."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Sequence

GAS_CONSTANT = 8.314
"""Molar gas constant. [J/(mol·K)]"""
_EN_ZERO = 273.0
"""What the form of EN 1992 adds to a temperature; rounded, as it is printed. [K]"""
_NAMED_AGE = 28.0
"""Age at which a strength is named. [days]"""


def maturity(temperatures_c: Sequence[float], hours: Sequence[float], datum_c: float) -> float:
    """Return the maturity of Nurse and Saul; a time below the datum counts nothing. [°C·h].

    Args:
        temperatures_c: Temperature of each time. [°C]
        hours: How long each lasts. [h]
        datum_c: Temperature below which nothing hardens. [°C]

    Valid for: as many temperatures as times.
    Source: nurse_saul

    >>> maturity([18.0, 8.0, 5.0], [24.0, 24.0, 24.0], 0.0)
    744.0
    """
    return math.fsum(max(0.0, each - datum_c) * lasts for each, lasts in zip(temperatures_c, hours, strict=True))


def speed_by_datum(temperature_c: float, reference_c: float, datum_c: float) -> float:
    """Return how quickly cement hardens against a reference, by Nurse and Saul. [-].

    Args:
        temperature_c: Its temperature. [°C]
        reference_c: Temperature at which the speed is one. [°C]
        datum_c: Temperature below which nothing hardens. [°C]

    Valid for: reference_c > datum_c.
    Source: nurse_saul

    >>> speed_by_datum(5.0, 20.0, -10.0)
    0.5
    """
    return max(0.0, temperature_c - datum_c) / (reference_c - datum_c)


def speed_by_energy(temperature_c: float, reference_c: float, energy_kj_per_mol: float) -> float:
    """Return how quickly cement hardens against a reference, by its activation energy. [-].

    Args:
        temperature_c: Its temperature. [°C]
        reference_c: Temperature at which the speed is one. [°C]
        energy_kj_per_mol: Apparent activation energy. [kJ/mol]

    Valid for: above freezing.
    Source: arrhenius_maturity

    >>> round(speed_by_energy(5.0, 20.0, 34.0), 3)
    0.471
    """
    kelvin, reference = units.celsius_to_kelvin(temperature_c), units.celsius_to_kelvin(reference_c)
    return math.exp(-units.kilo_to_one(energy_kj_per_mol) / GAS_CONSTANT * (1.0 / kelvin - 1.0 / reference))


def speed_by_en_form(temperature_c: float, slope_k: float, constant: float) -> float:
    """Return how quickly cement hardens against 20 °C, by the form of EN 1992. [-].

    Args:
        temperature_c: Its temperature. [°C]
        slope_k: Slope of the form. [K]
        constant: Constant of the form. [-]

    Valid for: 0 to 80 °C.
    Source: en_1992_from_memory

    >>> round(speed_by_en_form(5.0, 4000.0, 13.65), 3)
    0.478
    """
    return math.exp(-(slope_k / (_EN_ZERO + temperature_c) - constant))


def strength_share(age_days: float, s: float) -> float:
    """Return the part of its strength at 28 days that concrete has at an age at 20 °C. [-].

    Args:
        age_days: Age, at 20 °C or equivalent to it. [days]
        s: Coefficient of the cement. [-]

    Valid for: age_days > 0.
    Source: en_1992_from_memory

    >>> round(strength_share(7.0, 0.25), 3)
    0.779
    """
    return math.exp(s * (1.0 - math.sqrt(_NAMED_AGE / age_days)))
