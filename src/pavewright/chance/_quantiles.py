"""Quantiles of draws, with how far they may be off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

_MIN_REPLICATES = 2


@dataclass(frozen=True, slots=True)
class Quantile:
    """A value that is not exceeded with a chance.

    Attributes:
        chance: The chance. [-]
        value: The value: mean of the replicates. [unit of the draws]
        error: Standard error of the value, from what the replicates differ by. [unit of the draws]
    """

    chance: float
    value: float
    error: float


def quantile_of(replicates: Sequence[NDArray[np.float64]], chance: float) -> Quantile:
    """Return a quantile as the mean over replicates, each scrambled anew, with its standard error.

    Args:
        replicates: Values of each replicate, each of shape (draws,), float64. [unit of the draws]
        chance: Chance that the quantile is not exceeded. [-]

    Valid for: two replicates or more; 0 < chance < 1.
    Source: scrambled_sobol, independent scramblings give an unbiased error

    >>> quantile_of([np.array([1.0, 2.0, 3.0]), np.array([1.0, 2.0, 3.0])], 0.5)
    Quantile(chance=0.5, value=2.0, error=0.0)
    """
    if len(replicates) < _MIN_REPLICATES or not 0.0 < chance < 1.0:
        message = "An error takes two replicates or more, and a chance lies between zero and one."
        raise ValueError(message)
    found = [float(np.quantile(values, chance)) for values in replicates]
    error = float(np.std(found, ddof=1)) / math.sqrt(len(found))
    return Quantile(chance, math.fsum(found) / len(found), error)


def chance_of(replicates: Sequence[NDArray[np.bool_]]) -> Quantile:
    """Return how often something holds, with its standard error; the chance and the value are the same.

    Args:
        replicates: Whether it holds, each of shape (draws,).
    """
    found = [float(np.mean(each)) for each in replicates]
    mean = math.fsum(found) / len(found)
    return Quantile(mean, mean, float(np.std(found, ddof=1)) / math.sqrt(len(found)))
