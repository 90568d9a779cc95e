"""A test of a level in the field: one difference of height read many times."""

from __future__ import annotations

import math
import statistics
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_SIGHTS_TO_KM = 1000.0 / 120.0
"""A line of 60 m read there and back goes so often into a kilometre. [-]"""
_FAR_OFF = 2.5
"""Two means may differ by so many standard deviations. [-]"""


@dataclass(frozen=True, slots=True)
class LevelTest:
    """What a test of a level shows.

    Attributes:
        mean_mm: Mean of the differences read from the middle. [mm]
        sd_mm: Their standard deviation. [mm]
        limit_mm: By so much the two means may differ. [mm]
        per_km_mm: Standard deviation of a kilometre levelled there and back. [mm]
        apart_mm: By how much the means do differ; NaN where nothing was read from one end. [mm]
        passes: Whether they differ by no more than the limit; None where nothing was read from one end.
    """

    mean_mm: float
    sd_mm: float
    limit_mm: float
    per_km_mm: float
    apart_mm: float
    passes: bool | None


def level_test(middle_mm: Sequence[float], one_end_mm: Sequence[float] = ()) -> LevelTest:
    """Return what differences of height over a line of 60 m show, read from its middle and then from beside one end.

    Args:
        middle_mm: Differences with equal sights. [mm]
        one_end_mm: Differences with a short and a long sight. [mm]

    Valid for: three differences or more from the middle, sights of about 30 m.
    Source: iso_17123_2, simplified test
    """
    sd = statistics.stdev(middle_mm)
    mean = statistics.fmean(middle_mm)
    apart = abs(mean - statistics.fmean(one_end_mm)) if one_end_mm else math.nan
    return LevelTest(
        mean_mm=mean,
        sd_mm=sd,
        limit_mm=_FAR_OFF * sd,
        per_km_mm=math.sqrt(_SIGHTS_TO_KM) * sd,
        apart_mm=apart,
        passes=apart <= _FAR_OFF * sd if one_end_mm else None,
    )
