"""What comes, what soaks away and what has to be stored, storm by storm."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright import units
from pavewright.sums import SumRefusedError

SECONDS_PER_MINUTE = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR
"""Seconds in a minute. [s]"""
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class Balance:
    """Water of storms of several durations.

    Attributes:
        inflow_m3: Water that comes, by duration. [m³]
        outflow_m3: Water that soaks away meanwhile, by duration. [m³]
        storage_m3: Difference of the two, by duration; less than zero where all soaks away. [m³]
        required_m3: Storage that the worst storm needs, never less than zero. [m³]
        governing_min: Duration of the worst storm. [min]
        half_empty_min: Time until half of that is gone. [min]
    """

    inflow_m3: tuple[float, ...]
    outflow_m3: tuple[float, ...]
    storage_m3: tuple[float, ...]
    required_m3: float
    governing_min: float
    half_empty_min: float


def balance(
    area_m2: float,
    soaking_m2: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    *,
    soaks_meanwhile: bool = True,
) -> Balance:
    """Return the balance of storms that fall on an area and soak away through another.

    Args:
        area_m2: Area from which all rain comes. [m²]
        soaking_m2: Area through which water soaks away. [m²]
        infiltration_m_per_s: Rate at which it does. [m/s]
        durations_min: Durations of the storms. [min]
        rain_mm: Depth of rain of each. [mm]
        soaks_meanwhile: Whether water that soaks away during the storm counts; it counts for the emptying always.

    Source: bre_digest_365, I − O = S

    Raises:
        SumRefusedError: rows do not match, or a number makes no balance.

    >>> found = balance(100.0, 5.0, 1e-5, (60.0, 120.0), (20.0, 24.0))
    >>> found.storage_m3, found.governing_min
    ((1.82, 2.04), 120.0)
    """
    if len(durations_min) != len(rain_mm) or not durations_min:
        message = "Give as many depths of rain as durations, and one or more."
        raise SumRefusedError(message)
    if min(area_m2, soaking_m2, infiltration_m_per_s, *durations_min) <= 0.0 or min(rain_mm) < 0.0:
        message = "Sizes, area, infiltration and durations are more than zero: measure the pit and its test again."
        raise SumRefusedError(message)
    rate = soaking_m2 * infiltration_m_per_s
    inflow = tuple(area_m2 * units.mm_to_m(depth) for depth in rain_mm)
    outflow = tuple(rate * minutes * SECONDS_PER_MINUTE * float(soaks_meanwhile) for minutes in durations_min)
    storage = tuple(came - went for came, went in zip(inflow, outflow, strict=True))
    worst = max(storage)
    required = max(worst, 0.0)
    return Balance(
        inflow_m3=inflow,
        outflow_m3=outflow,
        storage_m3=storage,
        required_m3=required,
        governing_min=durations_min[storage.index(worst)],
        half_empty_min=_HALF * required / rate / SECONDS_PER_MINUTE,
    )
