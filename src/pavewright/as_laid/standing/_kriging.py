"""Kriging: levels between readings as weighted readings, with their error and with nothing made smooth by hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.linalg import LinAlgError, cho_factor, cho_solve
from scipy.spatial.distance import cdist

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from pavewright.as_laid.standing._roughness import Roughness
    from pavewright.geometry import XY


@dataclass(frozen=True, eq=False)
class Kriging:
    """Readings made ready to foretell levels elsewhere.

    Attributes:
        places: Where was read, shape (readings, 2), float64. [mm]
        roughness: How the surface departs from its trend.
        trend: Terms of the trend at the readings, shape (readings, terms), float64. [-]
        factored: The covariance of the readings, factored: lower triangle, shape (readings, readings), float64. [mm]
        solved: Covariance solved for the trend, shape (readings, terms), float64. [1/mm²]
        normal: What is left of the trend, factored, shape (terms, terms), float64. [1/mm]
    """

    places: NDArray[np.float64]
    roughness: Roughness
    trend: NDArray[np.float64]
    factored: tuple[NDArray[np.float64], bool]
    solved: NDArray[np.float64]
    normal: tuple[NDArray[np.float64], bool]

    def weights(
        self, wanted: NDArray[np.float64], trend: NDArray[np.float64]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the weight of each reading at each wanted place, shape (places, readings), and the variance. [mm²].

        Args:
            wanted: Places, shape (places, 2), float64. [mm]
            trend: Terms of the trend there, shape (places, terms), float64. [-]

        Source: isaaks_srivastava, ordinary kriging system; with more terms the universal one
        """
        near = self.roughness.at(cdist(wanted, self.places))
        kept = cho_solve(self.factored, near.T).T
        lack = trend - near @ self.solved
        share = cho_solve(self.normal, lack.T).T
        weights = kept + share @ self.solved.T
        variance = self.roughness.sd_mm**2 - (kept * near).sum(axis=1) + (lack * share).sum(axis=1)
        return weights, np.maximum(variance, 0.0)

    @property
    def projected(self) -> NDArray[np.float64]:
        """Inverse covariance with the trend taken out, shape (readings, readings), float64. [1/mm²]."""
        inverse = cho_solve(self.factored, np.eye(len(self.places)))
        return np.asarray(inverse - self.solved @ cho_solve(self.normal, self.solved.T), dtype=np.float64)

    def likelihood(self, found: NDArray[np.float64]) -> float:
        """Return the restricted logarithmic likelihood of what was read. [-].

        Args:
            found: What was read, shape (readings,), float64. [mm]

        Source: rasmussen_williams_2006, section 2.7.1, equation 2.45: trend with no prior
        """
        apart = cho_solve(self.factored, found)
        share = cho_solve(self.normal, self.solved.T @ found)
        square = float(found @ apart - (self.solved.T @ found) @ share)
        sizes = np.log(np.diag(self.factored[0])).sum() + np.log(np.diag(self.normal[0])).sum()
        return -0.5 * square - float(sizes)


def kriging(
    places: NDArray[np.float64], roughness: Roughness, trend: NDArray[np.float64], reading_sd_mm: float = 0.0
) -> Kriging:
    """Return readings made ready to foretell levels elsewhere.

    Args:
        places: Where was read, shape (readings, 2), float64. [mm]
        roughness: How the surface departs from its trend.
        trend: Terms of the trend there, shape (readings, terms), float64; a column of ones for an even level. [-]
        reading_sd_mm: Standard deviation of a reading; with zero the surface passes through every reading. [mm]

    Raises:
        ValueError: two readings at one place contradict each other, or too few for the trend.
    """
    covariance = roughness.at(cdist(places, places))
    covariance[np.diag_indices_from(covariance)] += reading_sd_mm**2
    try:
        factored = cho_factor(covariance, lower=True)
        solved = cho_solve(factored, trend)
        normal = cho_factor(trend.T @ solved, lower=True)
    except LinAlgError as problem:
        message = "two readings are at one place, or they are too few or all in one line"
        raise ValueError(message) from problem
    return Kriging(places, roughness, trend, factored, solved, normal)


def sloping(places: NDArray[np.float64], about: XY, scale_mm: float) -> NDArray[np.float64]:
    """Return the terms of a trend that may slope: one, east and north, shape (places, 3), float64. [-].

    Args:
        places: Plan places, shape (places, 2), float64. [mm]
        about: Middle of the readings. [mm]
        scale_mm: Length that keeps the terms near to one. [mm]
    """
    return np.column_stack([np.ones(len(places)), (places - np.asarray(about)) / scale_mm])


def even(places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the terms of a trend that is level: a column of ones, shape (places, 1), float64. [-].

    Args:
        places: Plan places, shape (places, 2), float64. [mm]
    """
    return np.ones((len(places), 1))


def estimate(
    places: Sequence[XY], found: Sequence[float], wanted: XY, roughness: Roughness, reading_sd_mm: float = 0.0
) -> tuple[float, float, tuple[float, ...]]:
    """Return the estimate at one place, its variance and the weights of the readings, by ordinary kriging.

    Args:
        places: Where was read. [mm]
        found: What was read. [mm]
        wanted: Where it is wanted. [mm]
        roughness: How the surface departs from its mean.
        reading_sd_mm: Standard deviation of a reading. [mm]

    Source: isaaks_srivastava, ordinary kriging system
    """
    data = np.array(places, dtype=np.float64)
    place = np.array([wanted], dtype=np.float64)
    weights, variance = kriging(data, roughness, even(data), reading_sd_mm).weights(place, even(place))
    return float(weights[0] @ np.array(found)), float(variance[0]), tuple(float(each) for each in weights[0])
