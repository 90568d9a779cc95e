"""One place read several times on each of two visits."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid.movement._chances import t_limit

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class TwoVisits:
    """How far a place moved between two visits, and whether that is more than scatter.

    Attributes:
        moved_mm: Mean of the second less that of the first. [mm]
        reading_sd_mm: Standard deviation of one reading, from both visits. [mm]
        moved_sd_mm: Standard deviation of the movement. [mm]
        t: Movement over its standard deviation. [-]
        t_limit: What chance alone exceeds once in twenty. [-]
        free: Readings to spare.
    """

    moved_mm: float
    reading_sd_mm: float
    moved_sd_mm: float
    t: float
    t_limit: float
    free: int

    @property
    def is_more_than_scatter(self) -> bool:
        """Whether the movement is significant."""
        return abs(self.t) > self.t_limit


def two_visits(first_mm: Sequence[float], second_mm: Sequence[float]) -> TwoVisits:
    """Return how far a place moved between two visits on each of which it was read several times.

    Args:
        first_mm: Readings of the first visit. [mm]
        second_mm: Readings of the second visit. [mm]

    Valid for: readings of like scatter on both visits.
    Source: definition, t of two means with one scatter

    Raises:
        ValueError: fewer than two readings in a visit, or none of them scatters.
    """
    one, two = np.asarray(first_mm, dtype=np.float64), np.asarray(second_mm, dtype=np.float64)
    if min(len(one), len(two)) < _ENOUGH:
        message = "Read a place twice or more on each visit: one reading does not show how far readings scatter."
        raise ValueError(message)
    free = len(one) + len(two) - 2
    squares = float(((one - one.mean()) ** 2).sum() + ((two - two.mean()) ** 2).sum())
    if squares <= 0.0:
        message = "These readings do not scatter at all: write down what was read, not what was meant."
        raise ValueError(message)
    reading = math.sqrt(squares / free)
    sd = reading * math.sqrt(1.0 / len(one) + 1.0 / len(two))
    moved = float(two.mean() - one.mean())
    return TwoVisits(moved, reading, sd, moved / sd, t_limit(free), free)


_ENOUGH = 2
