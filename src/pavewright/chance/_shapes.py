"""Shapes of what is not certain: each turns even draws into values."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray


class Shape(Protocol):
    """How a value may fall."""

    @property
    def mean(self) -> float:
        """Its mean. [unit of the value]."""

    @property
    def variance(self) -> float:
        """Its variance. [unit of the value, squared]."""

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the values below which even draws lie, in the shape of the draws, float64.

        Args:
            draws: Even draws, any shape, float64. [-]
        """


@dataclass(frozen=True, slots=True)
class Fixed:
    """A value that is certain.

    Attributes:
        value: The value. [unit of the value]
    """

    value: float

    @property
    def mean(self) -> float:
        """The value."""
        return self.value

    @property
    def variance(self) -> float:
        """Zero."""
        return 0.0

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the value for each draw.

        Args:
            draws: Even draws, any shape, float64. [-]
        """
        return np.full_like(draws, self.value)


@dataclass(frozen=True, slots=True)
class Even:
    """A value that falls anywhere between two ends alike.

    Attributes:
        low: Lower end. [unit of the value]
        high: Upper end. [unit of the value]
    """

    low: float
    high: float

    @property
    def mean(self) -> float:
        """Half way."""
        return (self.low + self.high) / 2.0

    @property
    def variance(self) -> float:
        """A twelfth of the square of the width."""
        return (self.high - self.low) ** 2 / 12.0

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the values of draws.

        Args:
            draws: Even draws, any shape, float64. [-]
        """
        return self.low + draws * (self.high - self.low)


@dataclass(frozen=True, slots=True)
class Triangle:
    """A value between two ends, likeliest at a third.

    Attributes:
        low: Lower end. [unit of the value]
        likely: The likeliest. [unit of the value]
        high: Upper end. [unit of the value]

    Source: definition, mean (a + m + b) / 3, variance (a² + m² + b² − am − ab − mb) / 18
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        """Refuse ends on the wrong side.

        Raises:
            ValueError: the likeliest value does not lie between the ends.
        """
        if not self.low <= self.likely <= self.high:
            message = "The likeliest value lies between the lower and the upper end."
            raise ValueError(message)

    @property
    def mean(self) -> float:
        """A third of the sum."""
        return (self.low + self.likely + self.high) / 3.0

    @property
    def variance(self) -> float:
        """Its variance."""
        low, likely, high = self.low, self.likely, self.high
        return (low**2 + likely**2 + high**2 - low * likely - low * high - likely * high) / 18.0

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the values of draws.

        Args:
            draws: Even draws, any shape, float64. [-]
        """
        width = self.high - self.low
        if width <= 0.0:
            return np.full_like(draws, self.likely)
        rise, fall = self.likely - self.low, self.high - self.likely
        below = self.low + np.sqrt(draws * width * rise)
        above = self.high - np.sqrt((1.0 - draws) * width * fall)
        return np.where(draws < rise / width, below, above)


@dataclass(frozen=True, slots=True)
class Normal:
    """A value that scatters about its mean by many small causes.

    Attributes:
        mean: The mean. [unit of the value]
        sd: Standard deviation. [unit of the value]
    """

    mean: float
    sd: float

    @property
    def variance(self) -> float:
        """The square of its standard deviation."""
        return self.sd**2

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the values of draws.

        Args:
            draws: Even draws, any shape, float64. [-]
        """
        from scipy.special import ndtri  # noqa: PLC0415 - loaded when a chance is asked for

        return np.asarray(self.mean + self.sd * ndtri(draws), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class Breakages:
    """How many break before so many are laid sound, each by itself: whole numbers.

    Attributes:
        sound: How many are to be laid. [-]
        chance: Chance that one breaks. [-]

    Source: binomial_table, negative binomial: the term of k + 1 is that of k times p · (sound + k) / (k + 1)
    """

    sound: int
    chance: float

    @property
    def mean(self) -> float:
        """Mean number that break."""
        return self.sound * self.chance / (1.0 - self.chance)

    @property
    def variance(self) -> float:
        """Its variance."""
        return self.sound * self.chance / (1.0 - self.chance) ** 2

    def at(self, draws: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the smallest number for each draw that is exceeded with no more chance than what is left of one.

        Args:
            draws: Even draws, any shape, float64. [-]
        """
        if self.sound < 1 or self.chance <= 0.0:
            return np.zeros_like(draws)
        end = int(self.mean + 12.0 * math.sqrt(self.variance)) + 20
        steps = np.arange(end, dtype=np.float64)
        logs = np.concatenate(([0.0], np.cumsum(np.log(self.chance * (self.sound + steps) / (steps + 1.0)))))
        terms = np.exp(self.sound * math.log1p(-self.chance) + logs)
        return np.searchsorted(np.cumsum(terms), draws, side="left").clip(0, end).astype(np.float64)
