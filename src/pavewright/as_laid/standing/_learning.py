"""How uneven the paving is: what is common, weighed by what the readings say."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid.standing._kriging import Kriging, kriging
from pavewright.as_laid.standing._roughness import Roughness
from pavewright.as_laid.standing._types import Span, Unevenness

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.as_laid.standing._dips import Dips
    from pavewright.rules import Figure

_SDS, _REACHES = 6, 4
"""Steps in which unevenness and its reach are looked at."""
_WITHIN = 1.645
"""Nine tenths of a normal spread lie within so many standard deviations. [-]"""


@dataclass(frozen=True, eq=False)
class Learnt:
    """Kinds of unevenness with how likely each is.

    Attributes:
        kinds: The readings, made ready for each kind.
        chances: How likely each is, shape (kinds,), float64. [-]
        told: What is said of them.
    """

    kinds: tuple[Kriging, ...]
    chances: NDArray[np.float64]
    told: Unevenness


def learnt(
    places: NDArray[np.float64],
    off_mm: NDArray[np.float64],
    trend: NDArray[np.float64],
    reading_sd_mm: float,
    sd: Figure,
    reach: Figure,
    dips: Dips,
) -> Learnt:
    """Return kinds of unevenness, each as likely as common practice and the readings together say.

    Args:
        places: Where was read, shape (readings, 2), float64. [mm]
        off_mm: Level found less planned, shape (readings,), float64. [mm]
        trend: Terms of the trend at the readings, shape (readings, terms), float64. [-]
        reading_sd_mm: Standard deviation of a reading. [mm]
        sd: Unevenness that is common; between its bounds lie nine tenths.
        reach: Reach that is common, with its bounds.
        dips: Dips and humps that may be there beside.

    Raises:
        ValueError: two readings at one place contradict each other, or too few for the trend.

    Source: rasmussen_williams_2006, section 5.2, parameters weighed by the restricted likelihood of the readings
    """
    sds, before_sd = _steps(sd, _SDS)
    reaches, before_reach = _steps(reach, _REACHES)
    kinds = [kriging(places, Roughness(each, far), trend, reading_sd_mm) for each in sds for far in reaches]
    before = np.outer(before_sd, before_reach).ravel()
    weights = np.log(before) + np.array(
        [kind.likelihood(off_mm) + dips.evidence(kind.projected, off_mm) for kind in kinds]
    )
    chances = np.exp(weights - weights.max())
    chances /= chances.sum()
    told = Unevenness(
        sd_mm=_span([kind.roughness.sd_mm for kind in kinds], chances),
        reach_mm=_span([kind.roughness.reach_mm for kind in kinds], chances),
        learnt=_told(before, chances),
    )
    return Learnt(tuple(kinds), chances, told)


def _steps(figure: Figure, count: int) -> tuple[list[float], NDArray[np.float64]]:
    """Return even steps in the logarithm, past both bounds, with how common each is."""
    low, high = figure.low or figure.value, figure.high or figure.value
    spread = max(math.log(high / low) / (2.0 * _WITHIN), _NARROW)
    middle = math.log(figure.value)
    steps = middle + spread * np.linspace(-_PAST, _PAST, count)
    common = np.exp(-0.5 * ((steps - middle) / spread) ** 2)
    return [math.exp(each) for each in steps], common / common.sum()


_PAST = 2.2
"""Steps run this many standard deviations to either side. [-]"""
_NARROW = 0.05
"""No figure is known better than this. [-]"""


def _span(values: list[float], chances: NDArray[np.float64]) -> Span:
    order = np.argsort(values, kind="stable")
    up = np.cumsum(chances[order])
    return Span(*(values[order[min(int(np.searchsorted(up, part)), len(values) - 1)]] for part in (0.05, 0.5, 0.95)))


def _told(before: NDArray[np.float64], after: NDArray[np.float64]) -> float:
    """Return how much narrower the readings made what was common: zero where nothing was told. [-]."""

    def disorder(chances: NDArray[np.float64]) -> float:
        some = chances[chances > 0.0]
        return -float((some * np.log(some)).sum())

    return min(max(1.0 - disorder(after) / disorder(before), 0.0), 1.0)
