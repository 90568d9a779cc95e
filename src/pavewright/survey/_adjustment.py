"""Least squares of taped distances."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY

Array = npt.NDArray[np.float64]

_SETTLED_MM = 1e-7
_MOST_ROUNDS = 60
_LOOSE = 1e-7
"""A direction in which a point may move with next to no change in any tape, against the firmest direction."""


class LooseNetworkError(ValueError):
    """The tapes leave a point free to move; names the points."""

    def __init__(self, points: tuple[str, ...]) -> None:
        """Keep the names of the points that may move."""
        super().__init__(f"nothing holds {', '.join(points)}")
        self.points = points


class UnsettledNetworkError(ValueError):
    """The tapes are so far from agreeing that no plan is found."""


@dataclass(frozen=True, slots=True)
class Distance:
    """A measured distance and how far it is trusted. [mm]."""

    start: str
    end: str
    length_mm: float
    sd_mm: float


@dataclass(frozen=True, slots=True)
class Adjustment:
    """A settled network.

    Attributes:
        places: Every point after adjustment. [mm]
        adjusted_mm: Distances after adjustment. [mm]
        residuals_mm: Adjusted less measured. [mm]
        redundancy: How far other distances check each one, 0 to 1. [-]
        spare: Degrees of freedom.
        weighted_squares: Sum of squared residuals, each over its standard deviation. [-]
        spreads: For each point that may move, its 2 × 2 covariance for a ratio of one. [mm²]
    """

    places: dict[str, XY]
    adjusted_mm: tuple[float, ...]
    residuals_mm: tuple[float, ...]
    redundancy: tuple[float, ...]
    spare: int
    weighted_squares: float
    spreads: dict[str, Array]

    @property
    def ratio(self) -> float | None:
        """Standard deviation after over before; None with no spare distance."""
        return float(np.sqrt(self.weighted_squares / self.spare)) if self.spare > 0 else None


@dataclass(frozen=True)
class _Network:
    """Distances as arrays: which coordinates each one joins, and which way each unknown moves them."""

    names: tuple[str, ...]
    starts: npt.NDArray[np.intp]
    ends: npt.NDArray[np.intp]
    lengths: Array
    weights: Array
    moves: Array

    def distances(self, places: Array) -> Array:
        """Return the distances between places of shape (n, 2)."""
        gaps = places[self.ends] - places[self.starts]
        lengths: Array = np.hypot(gaps[:, 0], gaps[:, 1])
        return lengths

    def misfits(self, places: Array) -> Array:
        """Return measured less computed distances, each over its standard deviation."""
        return (self.lengths - self.distances(places)) * self.weights

    def slopes(self, places: Array) -> Array:
        """Return the change of each weighted distance with each unknown, shape (distances, unknowns)."""
        gaps = places[self.ends] - places[self.starts]
        directions = gaps / np.hypot(gaps[:, 0], gaps[:, 1])[:, np.newaxis]
        joint = np.einsum("ik,ijk->ij", directions, self.moves[self.ends] - self.moves[self.starts])
        weighted: Array = joint * self.weights[:, np.newaxis]
        return weighted


def adjust_distances(
    places: Mapping[str, XY], freedom: Mapping[str, Sequence[XY]], distances: Sequence[Distance]
) -> Adjustment:
    """Return the places that fit all distances best, every squared misfit weighed by its standard deviation.

    Distances are made linear about the places of the last round and solved again until nothing moves; a step that
    makes the fit worse is halved. A local origin is taken off first.

    Args:
        places: First places of all points. [mm]
        freedom: For each point that may move, the directions (of length one) in which it may.
        distances: What was measured.

    Valid for: first places near enough that the figure is not mirrored.
    Source: mahun_least_squares, chapter F

    Raises:
        LooseNetworkError: some point may move without any distance changing.
        UnsettledNetworkError: the rounds do not come to rest.
    """
    names = tuple(places)
    origin = np.mean(np.asarray([places[name] for name in names], dtype=np.float64), axis=0)
    network = _network(names, freedom, distances)
    settled = _settle(network, np.asarray([places[name] for name in names], dtype=np.float64) - origin)
    slopes = network.slopes(settled)
    cofactors = np.linalg.inv(slopes.T @ slopes) if slopes.shape[1] else np.zeros((0, 0))
    lengths = network.distances(settled)
    index = {name: number for number, name in enumerate(names)}
    return Adjustment(
        places={name: (float(x), float(y)) for name, (x, y) in zip(names, settled + origin, strict=True)},
        adjusted_mm=tuple(float(length) for length in lengths),
        residuals_mm=tuple(float(out) for out in lengths - network.lengths),
        redundancy=tuple(float(part) for part in 1.0 - np.einsum("ij,jk,ik->i", slopes, cofactors, slopes)),
        spare=slopes.shape[0] - slopes.shape[1],
        weighted_squares=float(np.sum(network.misfits(settled) ** 2)),
        spreads={
            name: network.moves[index[name]].T @ cofactors @ network.moves[index[name]]
            for name in names
            if freedom.get(name)
        },
    )


def _network(names: tuple[str, ...], freedom: Mapping[str, Sequence[XY]], distances: Sequence[Distance]) -> _Network:
    index = {name: number for number, name in enumerate(names)}
    unknowns = [(index[name], direction) for name in names for direction in freedom.get(name, ())]
    moves = np.zeros((len(names), len(unknowns), 2))
    for number, (point, direction) in enumerate(unknowns):
        moves[point, number] = direction
    return _Network(
        names=names,
        starts=np.asarray([index[line.start] for line in distances], dtype=np.intp),
        ends=np.asarray([index[line.end] for line in distances], dtype=np.intp),
        lengths=np.asarray([line.length_mm for line in distances], dtype=np.float64),
        weights=np.asarray([1.0 / line.sd_mm for line in distances], dtype=np.float64),
        moves=moves,
    )


def _settle(network: _Network, places: Array) -> Array:
    """Return the places at rest."""
    _refuse_if_loose(network, network.slopes(places))
    misfit = float(np.sum(network.misfits(places) ** 2))
    for _ in range(_MOST_ROUNDS):
        step = np.linalg.lstsq(network.slopes(places), network.misfits(places), rcond=None)[0]
        shift = np.einsum("ijk,j->ik", network.moves, step)
        length = float(np.max(np.abs(shift), initial=0.0))
        if length < _SETTLED_MM:
            _refuse_if_loose(network, network.slopes(places))
            return places
        for _halving in range(30):
            trial = places + shift
            found = float(np.sum(network.misfits(trial) ** 2))
            if found <= misfit * (1.0 + 1e-12) + 1e-18 or length < _SETTLED_MM:
                break
            shift, length = shift / 2.0, length / 2.0
        places, misfit = trial, found
    message = "the tapes do not settle to one plan"
    raise UnsettledNetworkError(message)


def _refuse_if_loose(network: _Network, slopes: Array) -> None:
    """Refuse a network in which some point may move without any distance changing."""
    unknowns = slopes.shape[1]
    if unknowns == 0:
        return
    _, firmness, directions = np.linalg.svd(slopes, full_matrices=slopes.shape[0] < unknowns)
    if slopes.shape[0] >= unknowns and firmness[-1] > _LOOSE * firmness[0]:
        return
    shift = np.abs(np.einsum("ijk,j->ik", network.moves, directions[-1])).max(axis=1)
    loose = tuple(name for name, size in zip(network.names, shift, strict=True) if size > shift.max() / 2.0)
    raise LooseNetworkError(loose)
