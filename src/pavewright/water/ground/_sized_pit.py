"""Whether a rectangular pit holds its storms, and the smallest that does: the one engine of sums and jobs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.sums import SumRefusedError
from pavewright.water._types_parts import PitVerdict
from pavewright.water.ground._water_balance import Balance, balance

if TYPE_CHECKING:
    from collections.abc import Callable

_STEP_MM = 50.0
"""Sizes are proposed in these steps. [mm]"""
_SHORTEST_STORM_MIN, _LONGEST_STORM_MIN = 5.0, 2880.0
"""Durations over which the worst storm of a soakaway is sought. [min]"""
_APART = 2.5
"""Durations stand at most this many times apart beside the worst: nothing worse hides between. [-]"""


@dataclass(frozen=True, slots=True)
class Demand:
    """What a pit has to take.

    Attributes:
        area_m2: Area that drains to it. [m²]
        rate_m_per_s: Rate at which the ground takes water. [m/s]
        storms: Durations and depths of the storms. [min, mm]
        half_empty_h: Longest time to half empty. [h]
        soaks_meanwhile: Whether water that soaks away during the storm counts.
    """

    area_m2: float
    rate_m_per_s: float
    storms: tuple[tuple[float, float], ...]
    half_empty_h: float
    soaks_meanwhile: bool = True


@dataclass(frozen=True, slots=True)
class HeldPit:
    """A pit checked against its storms.

    Attributes:
        sides_m2: Sides to half the depth, through which water leaves; the base is not counted. [m²]
        available_m3: Storage. [m³]
        balance: Water that comes and goes.
        verdict: What is to be said of it.
    """

    sides_m2: float
    available_m3: float
    balance: Balance
    verdict: PitVerdict


def held(sizes_mm: tuple[float, float, float], void_percent: float, demand: Demand) -> HeldPit:
    """Return a pit of length, width and depth checked against its storms.

    Source: bre_digest_365; bucks_suds for the time to half empty
    """
    length, width, depth = sizes_mm
    available = units.mm3_to_m3(length * width * depth) * void_percent / 100.0
    return held_by(units.mm2_to_m2((length + width) * depth), available, demand)


def held_by(soaking_m2: float, available_m3: float, demand: Demand) -> HeldPit:
    """Return a storage of any shape checked against its storms.

    Args:
        soaking_m2: Sides to half the depth, through which water leaves. [m²]
        available_m3: What it holds. [m³]
        demand: What it has to take.

    Source: bre_digest_365; bucks_suds for the time to half empty

    >>> held_by(5.0, 2.0, Demand(100.0, 1e-5, ((60.0, 20.0), (120.0, 24.0)), 24.0)).verdict.value
    'too small'
    """
    durations = tuple(minutes for minutes, _ in demand.storms)
    found = balance(
        demand.area_m2,
        soaking_m2,
        demand.rate_m_per_s,
        durations,
        tuple(mm for _, mm in demand.storms),
        soaks_meanwhile=demand.soaks_meanwhile,
    )
    return HeldPit(soaking_m2, available_m3, found, verdict_on(found, durations, available_m3, demand.half_empty_h))


def storms_of(durations_min: tuple[float, ...], rain_mm: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    """Return durations with their depths of rain.

    Raises:
        SumRefusedError: the rows do not match.
    """
    if len(durations_min) != len(rain_mm) or not durations_min:
        message = "Give as many depths of rain as durations, and one or more."
        raise SumRefusedError(message)
    return tuple(zip(durations_min, rain_mm, strict=True))


def verdict_on(
    found: Balance, durations_min: tuple[float, ...], available_m3: float, half_empty_h: float | None
) -> PitVerdict:
    """Return what is to be said of a storage; no time to half empty where it is judged elsewhere."""
    if found.required_m3 > available_m3 * (1.0 + _EXACT):
        return PitVerdict.TOO_SMALL
    if half_empty_h is not None and found.half_empty_min > half_empty_h * units.MINUTES_PER_HOUR * (1.0 + _EXACT):
        return PitVerdict.TOO_SLOW
    return PitVerdict.ENOUGH if worst_is_found(durations_min, found.governing_min) else PitVerdict.FOR_THESE_STORMS


_EXACT = 1e-9
"""What is more by this part is equal. [-]"""


def worst_is_found(durations_min: tuple[float, ...], governing_min: float) -> bool:
    """Return whether storms are given close enough on both sides of the worst for it to be the worst.

    Storage over duration rises to one summit and falls: a worst storm between two near neighbours is that summit. At an
    end of the row it proves nothing, unless the row begins with the shortest or ends with the longest storm that is
    looked at.

    Source: definition, storage is concave in duration where rain is

    >>> worst_is_found((10.0,), 10.0), worst_is_found((15.0, 30.0, 60.0), 30.0), worst_is_found((5.0, 10.0), 5.0)
    (False, True, True)
    """
    before = [each for each in durations_min if each < governing_min]
    after = [each for each in durations_min if each > governing_min]
    short = governing_min <= _APART * max(before) if before else governing_min <= _SHORTEST_STORM_MIN
    long = min(after) <= _APART * governing_min if after else governing_min >= _LONGEST_STORM_MIN
    return short and long


def holds(sizes_mm: tuple[float, float, float], void_percent: float, demand: Demand) -> bool:
    """Return whether a pit holds the storms that are given and is half empty in time."""
    return held(sizes_mm, void_percent, demand).verdict in {PitVerdict.ENOUGH, PitVerdict.FOR_THESE_STORMS}


def smallest(fits: Callable[[float], bool], max_mm: float) -> float | None:
    """Return the smallest side, in whole steps, with which a pit holds; None where none up to the largest does.

    A longer side adds storage and soaking side alike, so that halving finds it.

    >>> smallest(lambda side: side > 730.0, 2000.0), smallest(lambda side: False, 2000.0)
    (750.0, None)
    """
    low, high = 0, math.floor(max_mm / _STEP_MM)
    if not fits(high * _STEP_MM):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if fits(middle * _STEP_MM) else (middle, high)
    return high * _STEP_MM
