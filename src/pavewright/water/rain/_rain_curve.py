"""A curve through a table of durations and intensities of rain."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

_GRID = 241
_NARROWINGS = 3


@dataclass(frozen=True, slots=True)
class RainCurve:
    """Intensity by duration, i = a / (t + b)^c.

    Attributes:
        multiplier: a, for intensities in mm/h and durations in minutes. [mm/h·min^c]
        added_min: b, added to the duration. [min]
        power: c. [-]
    """

    multiplier: float
    added_min: float
    power: float

    def mm_per_h(self, duration_min: float) -> float:
        """Return the intensity of a duration. [mm/h].

        Source: chin_10_7, general form

        >>> round(RainCurve(1500.0, 8.96, 0.78).mm_per_h(5.0), 1)
        191.9
        """
        return self.multiplier / math.pow(duration_min + self.added_min, self.power)


def fit_rain_curve(durations_min: tuple[float, ...], mm_per_h: tuple[float, ...], max_b_min: float) -> RainCurve:
    """Return the curve with the least squares of the logarithms of its misfits.

    For a given b the other two are a straight line through logarithms. The best b is found on a grid that is narrowed
    about its best place a few times, then where the slope of the squares is zero; no start has to be guessed and the
    answer is the same on every machine to many digits.

    Args:
        durations_min: Durations, rising. [min]
        mm_per_h: Intensities. [mm/h]
        max_b_min: Largest b that is tried. [min]

    Source: definition, least squares in logarithms

    >>> curve = RainCurve(1500.0, 8.96, 0.78)
    >>> rows = (5.0, 10.0, 30.0, 60.0, 120.0)
    >>> found = fit_rain_curve(rows, tuple(curve.mm_per_h(t) for t in rows), 60.0)
    >>> round(found.multiplier), round(found.added_min, 2), round(found.power, 3)
    (1500, 8.96, 0.78)
    """
    from scipy.optimize import brentq  # noqa: PLC0415 - slow to load

    times, wanted = np.array(durations_min, dtype=np.float64), np.log(np.array(mm_per_h, dtype=np.float64))
    low, high = 0.0, max_b_min
    best = 0.0
    for _ in range(_NARROWINGS):
        tried = np.linspace(low, high, _GRID)
        misfits = [_line(times, wanted, float(b))[0] for b in tried]
        place = int(np.argmin(misfits))
        best = float(tried[place])
        low, high = float(tried[max(place - 2, 0)]), float(tried[min(place + 2, _GRID - 1)])
    if _steepness(low, times, wanted) < 0.0 < _steepness(high, times, wanted):
        best = float(brentq(_steepness, low, high, args=(times, wanted)))
    _, height, slope = _line(times, wanted, best)
    return RainCurve(math.exp(height), best, -slope)


def _steepness(b: float, times: np.ndarray, wanted: np.ndarray) -> float:
    """Return half of how much the squares grow for each minute more of b; the line through the rest follows b."""
    _, height, slope = _line(times, wanted, b)
    left = wanted - height - slope * np.log(times + b)
    return float(-slope * (left @ (1.0 / (times + b))))


def _line(times: np.ndarray, wanted: np.ndarray, b: float) -> tuple[float, float, float]:
    """Return squares, height and slope of the straight line through logarithms for a given b."""
    x = np.log(times + b)
    x_mean, y_mean = float(x.mean()), float(wanted.mean())
    across = x - x_mean
    slope = float(across @ (wanted - y_mean) / (across @ across))
    left = wanted - y_mean - slope * across
    return float(left @ left), y_mean - slope * x_mean, slope
