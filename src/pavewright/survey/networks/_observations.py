"""What is measured between points in plan: distances, right angles, points on lines, and all of them as arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Distance:
    """A measured distance and how far it is trusted. [mm]."""

    start: str
    end: str
    length_mm: float
    sd_mm: float

    @property
    def points(self) -> tuple[str, str]:
        """The points that it joins."""
        return self.start, self.end


@dataclass(frozen=True, slots=True)
class RightAngle:
    """A square corner: seen from it, two points lie at a right angle; how true, at the end of the shorter leg. [mm]."""

    at: str
    first: str
    second: str
    sd_mm: float

    @property
    def points(self) -> tuple[str, str, str]:
        """The points that it joins."""
        return self.at, self.first, self.second


@dataclass(frozen=True, slots=True)
class OnLine:
    """A point that stands on the straight line through two others, as on the face of a wall. [mm]."""

    point: str
    start: str
    end: str
    sd_mm: float

    @property
    def points(self) -> tuple[str, str, str]:
        """The points that it joins."""
        return self.point, self.start, self.end


Observation = Distance | RightAngle | OnLine

_SLOTS = 6
"""An observation joins three points at most, each with two directions. [-]"""


@dataclass(frozen=True)
class Slopes:
    """Change of each weighted observation with each unknown, kept by the few unknowns that each one joins.

    Attributes:
        unknowns: Numbers of the unknowns, shape (n, 6); a slot that is not used says 0.
        changes: Change with each, shape (n, 6), float64, 0 for a slot that is not used. [1/mm]
        count: Number of unknowns.
    """

    unknowns: npt.NDArray[np.intp]
    changes: Array
    count: int

    def __len__(self) -> int:
        """Return the number of observations."""
        return len(self.changes)

    @cached_property
    def table(self) -> Array:
        """All of them, shape (observations, unknowns)."""
        whole = np.zeros((len(self), self.count))
        if self.count:
            np.add.at(whole, (np.arange(len(self))[:, None], self.unknowns), self.changes)
        return whole

    def normal(self) -> Array:
        """Return the normal matrix, shape (unknowns, unknowns)."""
        if not self.count:
            return np.zeros((0, 0))
        cell = self.unknowns[:, :, None] * self.count + self.unknowns[:, None, :]
        share = self.changes[:, :, None] * self.changes[:, None, :]
        flat = np.bincount(cell.ravel(), weights=share.ravel(), minlength=self.count**2)
        return flat.reshape(self.count, self.count).astype(np.float64, copy=False)

    def pulled(self, misfits: Array) -> Array:
        """Return what misfits of the observations pull at the unknowns, shape (unknowns,)."""
        if not self.count:
            return np.zeros(0)
        pull = (self.changes * misfits[:, None]).ravel()
        return np.bincount(self.unknowns.ravel(), weights=pull, minlength=self.count).astype(np.float64, copy=False)

    def through(self, cofactors: Array, number: int) -> Array:
        """Return how the cofactors bind every observation to one of them, shape (n,)."""
        if not self.count:
            return np.zeros(len(self))
        along = cofactors[:, self.unknowns[number]] @ self.changes[number]
        bound: Array = (self.changes * along[self.unknowns]).sum(axis=1)
        return bound

    def variances(self, cofactors: Array) -> Array:
        """Return the variance of every observation after adjustment, for a ratio of one, shape (n,)."""
        if not self.count:
            return np.zeros(len(self))
        cells = cofactors[self.unknowns[:, :, None], self.unknowns[:, None, :]]
        found: Array = np.einsum("ia,iab,ib->i", self.changes, cells, self.changes)
        return found

    def in_order(self, order: npt.NDArray[np.intp]) -> Slopes:
        """Return those of the observations in another order."""
        return Slopes(self.unknowns[order], self.changes[order], self.count)


@dataclass(frozen=True)
class Network:
    """Observations as arrays: which points each one joins, and which way each unknown moves them.

    Distances come first, then right angles, then points on lines, each in their order; ``order`` leads back.
    """

    names: tuple[str, ...]
    distances: npt.NDArray[np.intp]
    angles: npt.NDArray[np.intp]
    lines: npt.NDArray[np.intp]
    order: npt.NDArray[np.intp]
    measured: Array
    weights: Array
    points: npt.NDArray[np.intp]
    directions: Array

    def found(self, places: Array) -> Array:
        """Return what each observation is between places of shape (n, 2). [mm]."""
        gaps = places[self.distances[:, 1]] - places[self.distances[:, 0]]
        legs, over, _ = _corner(places, self.angles)
        square = (legs[0] * legs[1]).sum(axis=1) / over
        off = _off_line(places, self.lines)[0]
        return np.concatenate((np.hypot(gaps[:, 0], gaps[:, 1]), square, off))

    def misfits(self, places: Array) -> Array:
        """Return measured less computed observations, each over its standard deviation."""
        return (self.measured - self.found(places)) * self.weights

    def slopes(self, places: Array) -> Slopes:
        """Return the change of each weighted observation with the unknowns of the points that it joins."""
        gaps = places[self.distances[:, 1]] - places[self.distances[:, 0]]
        along = gaps / np.hypot(gaps[:, 0], gaps[:, 1])[:, None]
        legs, over, longer = _corner(places, self.angles)
        square = (legs[0] * legs[1]).sum(axis=1) / over
        ends = [
            legs[other] / over[:, None] - np.where(long, square / over, 0.0)[:, None] * legs[mine] / over[:, None]
            for mine, other, long in ((0, 1, ~longer), (1, 0, longer))
        ]
        _, normal, part = _off_line(places, self.lines)
        foot = part[:, None]
        ways = np.concatenate(
            (
                np.stack((-along, along, np.zeros_like(along)), axis=1),
                np.stack((-ends[0] - ends[1], ends[0], ends[1]), axis=1),
                np.stack((normal, -normal * (1.0 - foot), -normal * foot), axis=1),
            )
        )
        joined = np.concatenate(
            (np.column_stack((self.distances, np.zeros(len(self.distances), np.intp))), self.angles, self.lines)
        )
        unknown, direction = self._unknowns
        changes = np.einsum("ipk,ipdk->ipd", ways, direction[joined]) * self.weights[:, None, None]
        slots = (len(joined), _SLOTS)
        return Slopes(unknown[joined].reshape(slots), changes.reshape(slots), len(self.points))

    @cached_property
    def _unknowns(self) -> tuple[npt.NDArray[np.intp], Array]:
        """Number and direction of the unknowns of every point, shapes (n, 2) and (n, 2, 2); no direction for none."""
        unknown, direction = np.zeros((len(self.names), 2), dtype=np.intp), np.zeros((len(self.names), 2, 2))
        taken = [0] * len(self.names)
        for number, point in enumerate(self.points.tolist()):
            unknown[point, taken[point]], direction[point, taken[point]] = number, self.directions[number]
            taken[point] += 1
        return unknown, direction

    def moved(self, places: Array, step: Array) -> Array:
        """Return places after a step of the unknowns."""
        shifted = places.copy()
        np.add.at(shifted, self.points, self.directions * step[:, None])
        return shifted


def _corner(places: Array, angles: npt.NDArray[np.intp]) -> tuple[tuple[Array, Array], Array, npt.NDArray[np.bool_]]:
    """Return the two legs of square corners, the length of the longer, and whether that is the second.

    The product of the legs over the longer one is how far the end of the shorter leg stands from square.
    """
    first, second = places[angles[:, 1]] - places[angles[:, 0]], places[angles[:, 2]] - places[angles[:, 0]]
    lengths = np.hypot(first[:, 0], first[:, 1]), np.hypot(second[:, 0], second[:, 1])
    return (first, second), np.maximum(*lengths), lengths[1] > lengths[0]


def _off_line(places: Array, lines: npt.NDArray[np.intp]) -> tuple[Array, Array, Array]:
    """Return how far points stand off their lines, the normals, and the part along each line of the foot."""
    start, end = places[lines[:, 1]], places[lines[:, 2]]
    gaps, away = end - start, places[lines[:, 0]] - start
    lengths = np.hypot(gaps[:, 0], gaps[:, 1])
    normal = np.stack((-gaps[:, 1], gaps[:, 0]), axis=1) / lengths[:, None]
    return (away * normal).sum(axis=1), normal, (away * gaps).sum(axis=1) / lengths**2


def network_of(
    names: tuple[str, ...], freedom: Mapping[str, Sequence[XY]], observations: Sequence[Observation]
) -> Network:
    """Return observations between named points as arrays, with the directions in which points may move."""
    index = {name: number for number, name in enumerate(names)}
    unknowns = [(index[name], direction) for name in names for direction in freedom.get(name, ())]
    kinds = {kind: [n for n, each in enumerate(observations) if isinstance(each, kind)] for kind in _KINDS}
    order = [number for kind in _KINDS for number in kinds[kind]]
    back = np.empty(len(order), dtype=np.intp)
    back[order] = np.arange(len(order))

    def joined(kind: type[Observation], width: int) -> npt.NDArray[np.intp]:
        rows = [[index[name] for name in observations[number].points] for number in kinds[kind]]
        return np.asarray(rows, dtype=np.intp).reshape(len(rows), width)

    in_turn = [observations[number] for number in order]
    return Network(
        names=names,
        distances=joined(Distance, 2),
        angles=joined(RightAngle, 3),
        lines=joined(OnLine, 3),
        order=back,
        measured=np.asarray([each.length_mm if isinstance(each, Distance) else 0.0 for each in in_turn]),
        weights=np.asarray([1.0 / each.sd_mm for each in in_turn]),
        points=np.asarray([point for point, _ in unknowns], dtype=np.intp),
        directions=np.asarray([direction for _, direction in unknowns], dtype=np.float64).reshape(-1, 2),
    )


_KINDS: tuple[type[Observation], ...] = (Distance, RightAngle, OnLine)
