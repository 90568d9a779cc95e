"""How a surface departs from its trend, and how likeness falls off with distance."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray


class Likeness(StrEnum):
    """How likeness falls off with distance."""

    EXPONENTIAL = "exponential"
    MATERN = "matern"


@dataclass(frozen=True, slots=True)
class Roughness:
    """How a surface departs from its trend.

    Attributes:
        sd_mm: Standard deviation of the departures. [mm]
        reach_mm: How far one departure is like another; beyond two or three times as far they know nothing of each
            other. [mm]
        likeness: How likeness falls off.
    """

    sd_mm: float
    reach_mm: float
    likeness: Likeness = Likeness.MATERN

    def at(self, apart_mm: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the covariance of departures so far apart. [mm²]. float64, of the shape of its argument."""
        if self.likeness is Likeness.EXPONENTIAL:
            return self.sd_mm**2 * np.exp(-apart_mm / self.reach_mm)
        scaled = apart_mm * (math.sqrt(3.0) / self.reach_mm)
        return self.sd_mm**2 * (1.0 + scaled) * np.exp(-scaled)
