"""What is measured between points in plan: distances, right angles, points on lines, and all of them as arrays."""

from __future__ import annotations

from dataclasses import dataclass
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

    def slopes(self, places: Array) -> Array:
        """Return the change of each weighted observation with each unknown, shape (observations, unknowns)."""
        table = np.zeros((len(self.measured), len(places), 2))
        rows = np.arange(len(self.distances))
        gaps = places[self.distances[:, 1]] - places[self.distances[:, 0]]
        along = gaps / np.hypot(gaps[:, 0], gaps[:, 1])[:, None]
        table[rows, self.distances[:, 1]] += along
        table[rows, self.distances[:, 0]] -= along
        legs, over, longer = _corner(places, self.angles)
        rows = len(self.distances) + np.arange(len(self.angles))
        square = (legs[0] * legs[1]).sum(axis=1) / over
        for mine, other, long in ((0, 1, ~longer), (1, 0, longer)):
            away = (
                legs[other] / over[:, None] - np.where(long, square / over, 0.0)[:, None] * legs[mine] / over[:, None]
            )
            table[rows, self.angles[:, 1 + mine]] += away
            table[rows, self.angles[:, 0]] -= away
        _, normal, part = _off_line(places, self.lines)
        rows = len(self.distances) + len(self.angles) + np.arange(len(self.lines))
        table[rows, self.lines[:, 0]] += normal
        table[rows, self.lines[:, 1]] -= normal * (1.0 - part)[:, None]
        table[rows, self.lines[:, 2]] -= normal * part[:, None]
        weighted: Array = np.einsum("iuk,uk->iu", table[:, self.points], self.directions) * self.weights[:, None]
        return weighted

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
