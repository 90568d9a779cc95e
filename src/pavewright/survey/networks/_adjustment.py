"""Least squares of taped distances, right angles and points on lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.survey.networks._observations import Array, Slopes, network_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.survey.networks._observations import Network, Observation

_SETTLED_MM = 1e-7
_MAX_ROUNDS = 60
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
class Adjustment:
    """A settled network.

    Attributes:
        places: Every point after adjustment. [mm]
        adjusted_mm: What each observation is after adjustment: a distance, or how far a corner is out of square or a
            point off its line. [mm]
        residuals_mm: Adjusted less measured. [mm]
        redundancy: How far the others check each observation, 0 to 1. [-]
        spare: Degrees of freedom.
        weighted_squares: Sum of squared residuals, each over its standard deviation. [-]
        spreads: For each point that may move, its 2 × 2 covariance for a ratio of one. [mm²]
        unknowns: For each unknown its point and its direction.
        cofactors: Covariance of the unknowns for a ratio of one, shape (unknowns, unknowns). [mm²]
        slopes: Change of each weighted observation with the unknowns that it joins. [1/mm]
    """

    places: dict[str, XY]
    adjusted_mm: tuple[float, ...]
    residuals_mm: tuple[float, ...]
    redundancy: tuple[float, ...]
    spare: int
    weighted_squares: float
    spreads: dict[str, Array]
    unknowns: tuple[tuple[str, XY], ...]
    cofactors: Array
    slopes: Slopes

    @property
    def ratio(self) -> float | None:
        """Standard deviation after over before; None with no spare distance."""
        return float(np.sqrt(self.weighted_squares / self.spare)) if self.spare > 0 else None


def adjust_network(
    places: Mapping[str, XY],
    freedom: Mapping[str, Sequence[XY]],
    observations: Sequence[Observation],
    *,
    free: bool = False,
) -> Adjustment:
    """Return the places that fit all observations best, every squared misfit weighed by its standard deviation.

    Observations are made linear about the places of the last round and solved again until nothing moves; a step that
    makes the fit worse is halved. A local origin is taken off first.

    Args:
        places: First places of all points. [mm]
        freedom: For each point that may move, the directions (of length one) in which it may.
        observations: What was measured.
        free: Whether nothing holds the network in the plane: it is then laid as near as can be over the first places,
            without shift or turn on the whole (inner constraints).

    Valid for: first places near enough that the figure is not mirrored.
    Source: mahun_least_squares, chapter F

    Raises:
        LooseNetworkError: some point may move without any observation changing.
        UnsettledNetworkError: the rounds do not come to rest.
    """
    names = tuple(places)
    origin = np.mean(np.asarray([places[name] for name in names], dtype=np.float64), axis=0)
    network = network_of(names, freedom, observations)
    defect = _PLANE_DEFECT if free else 0
    settled, slopes, cofactors = _settle(
        network, np.asarray([places[name] for name in names], dtype=np.float64) - origin, defect
    )
    found = network.found(settled)
    part = 1.0 - slopes.variances(cofactors)
    back = network.order
    of: dict[str, list[int]] = {}
    for number, point in enumerate(network.points.tolist()):
        of.setdefault(names[point], []).append(number)
    spreads = {
        name: network.directions[own].T @ cofactors[np.ix_(own, own)] @ network.directions[own]
        for name, own in of.items()
    }
    return Adjustment(
        places={name: (float(x), float(y)) for name, (x, y) in zip(names, settled + origin, strict=True)},
        adjusted_mm=tuple(found[back].tolist()),
        residuals_mm=tuple((found - network.measured)[back].tolist()),
        redundancy=tuple(part[back].tolist()),
        spare=len(slopes) - slopes.count + defect,
        weighted_squares=float(np.sum(network.misfits(settled) ** 2)),
        spreads=spreads,
        unknowns=tuple(
            (names[point], (float(x), float(y)))
            for point, (x, y) in zip(network.points.tolist(), network.directions, strict=True)
        ),
        cofactors=cofactors,
        slopes=slopes.in_order(back),
    )


_PLANE_DEFECT = 3
"""Two shifts and a turn: what distances do not hold in the plane."""


def _settle(network: Network, places: Array, defect: int) -> tuple[Array, Slopes, Array]:
    """Return the places at rest, and slopes and cofactors there.

    The cofactors of one round serve the next as long as steps shrink by themselves: what the misfits pull at is worked
    out anew each time. Without anything that holds the network each step has to keep clear of the shifts and the turn
    of its own round, so there they do not.
    """
    slopes = network.slopes(places)
    cofactors = _cofactors(network, places, slopes, defect)
    misfit = float(np.sum(network.misfits(places) ** 2))
    last = np.inf
    for _ in range(_MAX_ROUNDS):
        slopes = network.slopes(places)
        pull = slopes.pulled(network.misfits(places))
        step = cofactors @ pull
        length = float(np.max(np.abs(step), initial=0.0))
        slow = length > last / _SHRINKS and length >= _SETTLED_MM
        if slow or (defect and np.isfinite(last)):
            cofactors = _held(network, places, slopes, defect)[1]
            if not np.isfinite(cofactors).all():
                raise UnsettledNetworkError(_NO_PLAN)
            step = cofactors @ pull
            length = float(np.max(np.abs(step), initial=0.0))
        if length < _SETTLED_MM:
            return places, slopes, _cofactors(network, places, slopes, defect)
        last = length
        for _halving in range(30):
            trial = network.moved(places, step)
            found = float(np.sum(network.misfits(trial) ** 2))
            if found <= misfit * (1.0 + 1e-12) + 1e-18 or length < _SETTLED_MM:
                break
            step, length = step / 2.0, length / 2.0
        places, misfit = trial, found
    raise UnsettledNetworkError(_NO_PLAN)


_SHRINKS = 5.0
"""Where a step is not shorter than the last by this factor, the cofactors are worked out anew. [-]"""
_NO_PLAN = "the tapes do not settle to one plan"


def _cofactors(network: Network, places: Array, slopes: Slopes, defect: int) -> Array:
    """Return the covariance of the unknowns for a ratio of one. [mm²].

    Raises:
        LooseNetworkError: some point may move without any observation changing.
        UnsettledNetworkError: there is none.
    """
    normal, cofactors = _held(network, places, slopes, defect)
    # the largest column sums bound the firmest and the loosest direction: where they say firm, it is
    firmness = float(np.abs(normal).sum(axis=0).max(initial=1.0) * np.abs(cofactors).sum(axis=0).max(initial=1.0))
    if not firmness < _SURELY_FIRM:
        _refuse_if_loose(network, slopes.table, defect)
    if not np.isfinite(cofactors).all():
        raise UnsettledNetworkError(_NO_PLAN)
    ways = _datum(network, places, defect)
    settled: Array = cofactors - (ways @ ways.T) / _weight(slopes) if defect else cofactors
    return settled


_SURELY_FIRM = 1e12
"""Product of the bounds below which the loosest direction is surely over the limit of a loose one, squared. [-]"""


def _held(network: Network, places: Array, slopes: Slopes, defect: int) -> tuple[Array, Array]:
    """Return the normal matrix, with what nothing holds held, and its inverse; nan where it has none.

    Source: definition, inner constraints: the inverse of N + G Gᵀ less G Gᵀ, with G the directions that nothing holds
    """
    normal = slopes.normal()
    if defect:
        ways = _datum(network, places, defect)
        normal = normal + _weight(slopes) * (ways @ ways.T)
    try:
        return normal, np.linalg.inv(normal).astype(np.float64)
    except np.linalg.LinAlgError:
        return normal, np.full_like(normal, np.nan)


def _weight(slopes: Slopes) -> float:
    """Return the mean of the diagonal of the normal matrix: how firmly the datum is held by hand. [1/mm²]."""
    return float((slopes.changes**2).sum()) / max(slopes.count, 1)


def _datum(network: Network, places: Array, defect: int) -> Array:
    """Return two shifts and a turn of the whole as directions of the unknowns, shape (unknowns, 3), of length one."""
    if not defect:
        return np.zeros((len(network.points), 0))
    turned = np.column_stack((-places[:, 1], places[:, 0]))[network.points]
    ways = np.column_stack((network.directions, (turned * network.directions).sum(axis=1)))
    return np.linalg.qr(ways)[0].astype(np.float64)


def _refuse_if_loose(network: Network, slopes: Array, defect: int) -> None:
    """Refuse a network in which some point may move without any observation changing."""
    unknowns = slopes.shape[1]
    if unknowns == 0:
        return
    held = slopes.shape[0] >= unknowns - defect
    weakest = unknowns - defect - 1
    if held:
        firmness = np.linalg.svd(slopes, compute_uv=False)  # far quicker without the directions
        if firmness[weakest] > _LOOSE * firmness[0]:
            return
    directions = np.linalg.svd(slopes, full_matrices=slopes.shape[0] < unknowns)[2]
    loose_way = directions[weakest] if held else directions[-1]
    shift = np.zeros(len(network.names))
    np.maximum.at(shift, network.points, np.abs(loose_way))
    loose = tuple(name for name, size in zip(network.names, shift, strict=True) if size > shift.max() / 2.0)
    raise LooseNetworkError(loose)
