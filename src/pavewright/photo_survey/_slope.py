"""A slope read twice, the tool turned end for end, so that its own error cancels; and what such a slope can judge."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_ROUNDS = 200
_HIGHEST = 1e4
_WHOLE = 100.0
_PER_METRE = 1000.0


class Judged(StrEnum):
    """What a slope says to a question: pass, fail, too near to tell, or the tool is too coarse for it."""

    PASSES = "pass"
    FAILS = "fail"
    UNSURE = "unsure"
    TOO_COARSE = "too_coarse"


@dataclass(frozen=True, slots=True)
class TurnedSlope:
    """A slope by a tool that was turned end for end.

    Attributes:
        slope_deg: The slope, more than zero where the far end is higher. [deg]
        error_deg: What the tool itself shows too much. [deg]
        scatter_deg: Standard deviation of one pair, from how the pairs differ; None for one pair. [deg]
        band_deg: The slope is trusted to this, either way. [deg]
        pairs: How many pairs of readings.
    """

    slope_deg: float
    error_deg: float
    scatter_deg: float | None
    band_deg: float
    pairs: int


def turned_slope(
    first_deg: Sequence[float],
    turned_deg: Sequence[float],
    tool_sd_deg: float,
    trusted_sds: float,
    confidence_percent: float,
) -> TurnedSlope:
    """Return a slope from pairs of readings, the tool turned end for end between the two of each.

    The slope of a pair is half the difference, the tool's own error half the sum. Of several pairs the mean counts; how
    they scatter widens the band by Student's t, and it is never better than what the tool is trusted to at best.

    Args:
        first_deg: As first read, more than zero where the far end is higher. [deg]
        turned_deg: After turning, in the tool's own frame. [deg]
        tool_sd_deg: What one slope is trusted to at best, one standard deviation. [deg]
        trusted_sds: Standard deviations to which that is trusted. [-]
        confidence_percent: How sure the band is for the scatter. [%]

    Valid for: at least one pair, as many turned as first readings.
    Source: reversal_method, half the difference and half the sum

    >>> found = turned_slope((1.30,), (-1.10,), 0.05, 2.0, 95.0)
    >>> round(found.slope_deg, 6), round(found.error_deg, 6), found.band_deg
    (1.2, 0.1, 0.1)
    """
    slopes = [(first - turned) / 2.0 for first, turned in zip(first_deg, turned_deg, strict=True)]
    errors = [(first + turned) / 2.0 for first, turned in zip(first_deg, turned_deg, strict=True)]
    count = len(slopes)
    mean = sum(slopes) / count
    scatter = math.sqrt(sum((each - mean) ** 2 for each in slopes) / (count - 1)) if count > 1 else None
    of_scatter = 0.0
    if scatter is not None:
        of_scatter = student_quantile(confidence_percent, count - 1) * scatter / math.sqrt(count)
    return TurnedSlope(mean, sum(errors) / count, scatter, math.hypot(trusted_sds * tool_sd_deg, of_scatter), count)


def student_quantile(confidence_percent: float, freedom: int) -> float:
    """Return within how many standard deviations of a mean its truth lies, with so many readings to spare.

    Args:
        confidence_percent: How sure that is, either way together. [%]
        freedom: Readings to spare, at least one.

    Source: definition, Student's t for a whole number of spare readings

    >>> [round(student_quantile(95.0, freedom), 3) for freedom in (1, 2, 4, 8)]
    [12.706, 4.303, 2.776, 2.306]
    """
    low, high = 0.0, _HIGHEST
    for _ in range(_ROUNDS):
        middle = (low + high) / 2.0
        if _within_t(middle, freedom) * _WHOLE < confidence_percent:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _within_t(limit: float, freedom: int) -> float:
    """Return the chance that Student's t stays within a limit either way."""
    angle = math.atan(limit / math.sqrt(freedom))
    square = math.cos(angle) ** 2
    odd = freedom % 2
    term = total = math.cos(angle) if odd else 1.0
    for number in range(1, (freedom - 1) // 2 if odd else freedom // 2):
        step = 2 * number
        term *= square * (step / (step + 1) if odd else (step - 1) / step)
        total += term
    if not odd:
        return math.sin(angle) * total
    part = math.sin(angle) * total if freedom > 1 else 0.0
    return 2.0 / math.pi * (angle + part)


def slope_mm_per_m(slope_deg: float) -> float:
    """Return a slope as its rise over a metre.

    Args:
        slope_deg: The slope. [deg]

    Source: definition

    >>> round(slope_mm_per_m(1.2), 2)
    20.95
    """
    return _PER_METRE * math.tan(math.radians(slope_deg))


def judged(
    slope: TurnedSlope, wanted_mm_per_m: float, within_mm: float, over_mm: float, judge_share: float
) -> tuple[Judged, float, float]:
    """Return whether a slope is the one that is wanted, how far it is off over a length, and how far that is trusted.

    A tool that is trusted to no better than a share of what is asked judges nothing.

    Args:
        slope: What was read.
        wanted_mm_per_m: The slope that is wanted. [mm/m]
        within_mm: How far it may be off over the length. [mm]
        over_mm: The length. [mm]
        judge_share: Largest band over what is asked with which it is judged. [-]

    Source: common practice

    >>> judged(TurnedSlope(1.2, 0.1, None, 0.1, 1), 20.0, 1.0, 1000.0, 0.5)[0].value
    'too_coarse'
    """
    metres = over_mm / _PER_METRE
    off = (slope_mm_per_m(slope.slope_deg) - wanted_mm_per_m) * metres
    band = (slope_mm_per_m(slope.slope_deg + slope.band_deg) - slope_mm_per_m(slope.slope_deg - slope.band_deg)) / 2.0
    band *= metres
    if band > judge_share * within_mm:
        return Judged.TOO_COARSE, off, band
    if abs(off) + band <= within_mm:
        return Judged.PASSES, off, band
    return (Judged.FAILS if abs(off) - band > within_mm else Judged.UNSURE), off, band
