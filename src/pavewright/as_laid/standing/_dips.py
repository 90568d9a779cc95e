"""Single dips and humps: a sunk slab or a soft place, which no even unevenness tells of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.spatial.distance import cdist
from scipy.special import logsumexp

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.rules import Figure

_RADII = 5
_MOST_PLACES = 500
"""Dips are looked for at so many places at most."""
_AT_ONCE = 3
"""So many dips and humps at most lie on one area in one simulation."""


@dataclass(frozen=True, eq=False)
class Dips:
    """Dips and humps that may be there: each a round dish of some place and radius, its depth open.

    Attributes:
        places: Their middles, shape (dips, 2), float64. [mm]
        radii: Their radii, shape (dips,), float64. [mm]
        at_readings: Their shape at the readings, shape (readings, dips), float64; one in the middle. [-]
        depth_sd_mm: Standard deviation of their depths, dips and humps alike. [mm]
        expected: How many are expected on the area before it is read. [-]
    """

    places: NDArray[np.float64]
    radii: NDArray[np.float64]
    at_readings: NDArray[np.float64]
    depth_sd_mm: float
    expected: float

    @property
    def none_chance(self) -> float:
        """Chance that a stage of the drawing adds none. [-]."""
        return float(np.exp(-self.expected / _AT_ONCE))

    def at(self, wanted: NDArray[np.float64], dip: int) -> NDArray[np.float64]:
        """Return the shape of one at places, shape (places,), float64; one in its middle. [-].

        Args:
            wanted: Places, shape (places, 2), float64. [mm]
            dip: Which of them.
        """
        away = np.hypot(*(wanted - self.places[dip]).T) / self.radii[dip]
        return np.asarray(np.maximum(1.0 - away**2, 0.0), dtype=np.float64)

    def evidence(self, projected: NDArray[np.float64], off_mm: NDArray[np.float64]) -> float:
        """Return by how much dips make the readings likelier, as a logarithm. [-].

        Args:
            projected: Inverse covariance of the readings with the trend taken out, shape (readings, readings), float64.
                [1/mm²]
            off_mm: Level found less planned, shape (readings,), float64. [mm]
        """
        fit, share = self._fit(projected, off_mm)
        with_one = logsumexp(self._factors(fit, share)) - np.log(len(self.radii))
        none = np.exp(-self.expected)
        return float(np.logaddexp(np.log(none), np.log1p(-none) + with_one))

    def _fit(
        self, projected: NDArray[np.float64], off_mm: NDArray[np.float64]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        led = projected @ self.at_readings
        return led.T @ off_mm, (led * self.at_readings).sum(axis=0)

    def _factors(self, fit: NDArray[np.float64], share: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return how much likelier each makes the readings, its depth being open: logarithms."""
        before = self.depth_sd_mm**-2.0
        return np.asarray(0.5 * fit**2 / (before + share) - 0.5 * np.log1p(share / before), dtype=np.float64)

    def drawn(
        self, projected: NDArray[np.float64], off_mm: NDArray[np.float64], count: int, chance: np.random.Generator
    ) -> list[list[tuple[int, float]]]:
        """Return for so many simulations which dips lie there and how deep, as likely as the readings leave them.

        One after another is drawn, or none, each against what those before it leave of the readings.

        Args:
            projected: Inverse covariance of the readings with the trend taken out, shape (readings, readings), float64.
                [1/mm²]
            off_mm: Level found less planned, shape (readings,), float64. [mm]
            count: How many simulations.
            chance: Gives the draws.

        Source: definition, each depth being normal its chance given the readings is known in closed form
        """
        led = projected @ self.at_readings
        share = (led * self.at_readings).sum(axis=0)
        precise = self.depth_sd_mm**-2.0 + share
        first = led.T @ off_mm
        fits = np.repeat(first[None, :], count, axis=0)
        found: list[list[tuple[int, float]]] = [[] for _ in range(count)]
        none = self.none_chance
        rate = np.log1p(-none) - np.log(len(self.radii))
        for _ in range(_AT_ONCE):
            odds = self._factors(fits, share) + rate
            best = np.maximum(odds.max(axis=1, keepdims=True), 0.0)
            up = np.cumsum(np.exp(odds - best), axis=1)
            nothing = np.exp(np.log(none) - best[:, 0])
            marks = chance.uniform(size=count) * (up[:, -1] + nothing)
            deep = chance.standard_normal(count)
            for run in np.flatnonzero(marks < up[:, -1]):
                dip = int(np.searchsorted(up[run], marks[run]))
                depth = fits[run, dip] / precise[dip] + deep[run] / np.sqrt(precise[dip])
                found[run].append((dip, float(depth)))
                fits[run] -= depth * (self.at_readings.T @ led[:, dip])
        return found


def dips_on(
    inside: NDArray[np.float64],
    readings: NDArray[np.float64],
    area_m2: float,
    per_m2: Figure,
    depth: Figure,
    radius: Figure,
) -> Dips:
    """Return the dips and humps that may lie on an area.

    Args:
        inside: Middles of its cells, shape (cells, 2), float64. [mm]
        readings: Where was read, shape (readings, 2), float64. [mm]
        area_m2: Its area. [m²]
        per_m2: How many to a square metre.
        depth: Standard deviation of their depths.
        radius: Their radius, with its bounds.
    """
    every = max(len(inside) // _MOST_PLACES, 1)
    middles = inside[_scattered(len(inside))[: len(inside) // every]] if every > 1 else inside
    low, high = radius.low or radius.value, radius.high or radius.value
    radii = np.geomspace(low, high, _RADII)
    places = np.repeat(middles, _RADII, axis=0)
    wide = np.tile(radii, len(middles))
    away = cdist(readings, places) / wide[None, :]
    shapes = np.maximum(1.0 - away**2, 0.0)
    return Dips(places, wide, shapes, depth.value, per_m2.value * area_m2)


def _scattered(count: int) -> NDArray[np.intp]:
    """Return an order of cells that is even over them from its beginning: by the golden section."""
    return np.asarray(np.argsort((np.arange(count) * _GOLDEN) % 1.0, kind="stable"), dtype=np.intp)


_GOLDEN = 0.6180339887498949
