"""A plane by least median of squares, then by least squares through what lies near it."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry import Plane

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from pavewright.geometry import XY

_MOST_TRIES = 4000
"""Triples that are tried; of more readings, so many are drawn from a fixed row of dice."""
_MAD = 1.4826
"""Median of absolute values of a normal scatter to its standard deviation. [-]"""
_SMALL_SAMPLE = 5.0
_CUT = 2.5
"""Standard deviations off the plane that most agree with, beyond which a reading is put aside. [-]"""
_SLOPES = 3
ENOUGH_TO_DOUBT = 2 * _SLOPES + 1
"""Readings from which one may be put aside: of fewer nobody can tell which is wrong."""
_FLAT = 1e-10


@dataclass(frozen=True)
class RobustPlane:
    """A plane through readings without those that most of the others contradict.

    Attributes:
        plane: The plane, at the middle of the readings kept.
        kept: Numbers of the readings that it goes through, from 0.
        out: Numbers of the readings put aside, from 0.
        sd_mm: Standard deviation of one reading about it, never less than that of the instrument. [mm]
        spread: Inverse of the normal matrix of level and both slopes about the origin of the plane, by rows. [mm]
    """

    plane: Plane
    kept: tuple[int, ...]
    out: tuple[int, ...]
    sd_mm: float
    spread: tuple[tuple[float, float, float], ...]

    def level_sd_mm(self, at: XY) -> float:
        """Return the standard deviation of the level of the plane at a place. [mm].

        Args:
            at: The place. [mm]
        """
        row = np.array([1.0, at[0] - self.plane.origin_mm[0], at[1] - self.plane.origin_mm[1]])
        return float(self.sd_mm * math.sqrt(max(float(row @ np.array(self.spread) @ row), 0.0)))

    def fall_sd(self, direction: XY) -> float:
        """Return the standard deviation of the fall along a direction of length one. [rise over run]."""
        row = np.array([0.0, direction[0], direction[1]])
        return float(self.sd_mm * math.sqrt(max(float(row @ np.array(self.spread) @ row), 0.0)))


@dataclass(frozen=True, slots=True)
class MedianPlane:
    """The plane through three readings from which the squares of all residuals have the smallest median.

    Attributes:
        plane: The plane.
        through: Numbers of the three readings, from 0.
        median_square_mm2: The median of the squared residuals.
        scale_mm: Standard deviation that this stands for. [mm]
    """

    plane: Plane
    through: tuple[int, int, int]
    median_square_mm2: float
    scale_mm: float


def _triples(count: int, most: int) -> NDArray[np.intp]:
    """Return triples of numbers below a count: all of them, or as many as are tried, always the same."""
    if math.comb(count, _SLOPES) <= most:
        return np.array(list(itertools.combinations(range(count), _SLOPES)), dtype=np.intp)
    dice = np.random.default_rng(count)
    drawn = dice.integers(0, count, (most, _SLOPES))
    unlike = (drawn[:, 0] != drawn[:, 1]) & (drawn[:, 0] != drawn[:, 2]) & (drawn[:, 1] != drawn[:, 2])
    return np.asarray(drawn[unlike], dtype=np.intp)


def median_plane(
    points: Sequence[tuple[float, float, float]] | NDArray[np.float64], most: int = _MOST_TRIES
) -> MedianPlane:
    """Return the plane that most of the readings agree with: least median of squared residuals over triples.

    Args:
        points: East, north, level, shape (n, 3), float64. [mm]
        most: How many triples are tried.

    Valid for: three or more readings not all on one line; up to nearly half of them may be wrong.
    Source: lms_1984; scale 1.4826 (1 + 5 / (n - 3)) · √median, from memory

    Raises:
        ValueError: fewer than three readings, or all on one line.
    """
    array = np.asarray(points, dtype=np.float64)
    count = len(array)
    if count < _SLOPES:
        message = "a plane needs at least three readings"
        raise ValueError(message)
    middle = array.mean(axis=0)
    own = array - middle
    triples = _triples(count, most)
    corners = own[triples]
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    wide = np.abs(cross) > _FLAT * float((own[:, :2] ** 2).sum())
    if not wide.any():
        message = "the readings lie on one line and carry no plane"
        raise ValueError(message)
    triples, corners, a, b, cross = triples[wide], corners[wide], a[wide], b[wide], cross[wide]
    slope_x = (a[:, 2] * b[:, 1] - b[:, 2] * a[:, 1]) / cross
    slope_y = (b[:, 2] * a[:, 0] - a[:, 2] * b[:, 0]) / cross
    level = corners[:, 0, 2] - slope_x * corners[:, 0, 0] - slope_y * corners[:, 0, 1]
    off = own[None, :, 2] - level[:, None] - slope_x[:, None] * own[None, :, 0] - slope_y[:, None] * own[None, :, 1]
    rank = count // 2
    squares = np.partition(off * off, rank, axis=1)[:, rank]
    best = int(np.argmin(squares))
    median = float(squares[best])
    free = max(count - _SLOPES, 1)
    plane = Plane(
        float(middle[2] + level[best]),
        (float(middle[0]), float(middle[1])),
        float(slope_x[best]),
        float(slope_y[best]),
    )
    one, two, three = (int(each) for each in triples[best])
    return MedianPlane(plane, (one, two, three), median, _MAD * (1.0 + _SMALL_SAMPLE / free) * math.sqrt(median))


def centred_plane(
    array: NDArray[np.float64], weights: NDArray[np.float64] | None = None
) -> tuple[Plane, NDArray[np.float64]]:
    """Return the plane by least squares, at the middle of its readings, and the inverse of its normal matrix.

    Args:
        array: East, north, level, shape (n, 3), float64. [mm]
        weights: How much each counts, shape (n,), float64; all alike where left out. [-]

    Source: definition, normal equations about the middle of the readings

    Raises:
        ValueError: fewer than three readings, or all on one line.
    """
    heavy = np.ones(len(array)) if weights is None else weights
    if len(array) < _SLOPES:
        message = "a plane needs at least three readings"
        raise ValueError(message)
    total = float(heavy.sum())
    mean = [float((heavy * column).sum()) / total for column in array.T]
    x, y, z = (column - middle for column, middle in zip(array.T, mean, strict=True))
    heavy_x, heavy_y = heavy * x, heavy * y
    across = float((heavy_x * y).sum())
    normal = np.array([[float((heavy_x * x).sum()), across], [across, float((heavy_y * y).sum())]])
    size = float(np.trace(normal))
    if size == 0.0 or float(np.linalg.det(normal)) < _FLAT * size * size:
        message = "the readings lie on one line and carry no plane"
        raise ValueError(message)
    slopes = np.linalg.solve(normal, np.array([float((heavy_x * z).sum()), float((heavy_y * z).sum())]))
    spread = np.zeros((_SLOPES, _SLOPES))
    spread[0, 0] = 1.0 / total
    spread[1:, 1:] = np.linalg.inv(normal)
    return Plane(mean[2], (mean[0], mean[1]), float(slopes[0]), float(slopes[1])), spread


def robust_plane(points: Sequence[tuple[float, float, float]] | NDArray[np.float64], sd_mm: float = 0.0) -> RobustPlane:
    """Return the plane through readings without those that most of the others contradict.

    Args:
        points: East, north, level, shape (n, 3), float64. [mm]
        sd_mm: Standard deviation of one reading, below which none is put aside for its scatter. [mm]

    Valid for: readings not all on one line; of fewer than seven none is put aside.
    Source: lms_1984; readings beyond 2.5 of its scale are put aside and the rest fitted, from memory

    Raises:
        ValueError: fewer than three readings, or all on one line.
    """
    array = np.asarray(points, dtype=np.float64)
    kept = np.ones(len(array), dtype=np.bool_)
    if len(array) >= ENOUGH_TO_DOUBT:
        start = median_plane(array)
        off = array[:, 2] - start.plane.levels_at(array[:, 0], array[:, 1])
        kept = _agreeing(array, np.abs(off) <= _CUT * max(start.scale_mm, sd_mm, _EXACT), sd_mm)
    plane, spread = centred_plane(array[kept])
    rest = array[kept]
    off = rest[:, 2] - plane.levels_at(rest[:, 0], rest[:, 1])
    free = len(rest) - _SLOPES
    found = math.sqrt(float((off * off).sum()) / free) if free > 0 else 0.0
    return RobustPlane(
        plane=plane,
        kept=tuple(int(each) for each in np.flatnonzero(kept)),
        out=tuple(int(each) for each in np.flatnonzero(~kept)),
        sd_mm=max(found, sd_mm),
        spread=tuple((float(a), float(b), float(c)) for a, b, c in spread),
    )


def _agreeing(array: NDArray[np.float64], kept: NDArray[np.bool_], sd_mm: float) -> NDArray[np.bool_]:
    """Return which readings agree with the plane through those that agree, found again until none comes or goes.

    The plane that most agree with goes through three readings with all their scatter, and good ones may lie far off it;
    what the others do not contradict comes back, or the plane would seem surer than it is.
    """
    for _ in range(_TURNS):
        try:
            plane, spread = centred_plane(array[kept])
        except ValueError:  # what is left lies on one line: nobody can tell which reading is wrong
            return np.ones(len(array), dtype=np.bool_)
        off = array[:, 2] - plane.levels_at(array[:, 0], array[:, 1])
        free = int(kept.sum()) - _SLOPES
        scale = max(math.sqrt(float((off[kept] ** 2).sum()) / free) if free > 0 else 0.0, sd_mm, _EXACT)
        rows = np.column_stack([np.ones(len(array)), array[:, :2] - np.array(plane.origin_mm)])
        leans = np.einsum("ij,jk,ik->i", rows, spread, rows)
        now = np.abs(off) <= _CUT * scale * np.sqrt(np.where(kept, 1.0, 1.0 + leans))
        if (now == kept).all():
            break
        kept = now
    return kept


_TURNS = 20
_EXACT = 1e-9


def robust_line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float, float]:
    """Return the slope and the level at zero of the line that most points agree with, and the median square left.

    For each slope through two points, the middle of the shortest interval that holds just over half of the residuals.

    Args:
        x: Places along. [any]
        y: What was read there. [any]

    Source: lms_1984; slopes through pairs, level by the shortest half

    Raises:
        ValueError: fewer than two places.
    """
    along, read = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    first, second = np.triu_indices(len(along), 1)
    apart = along[second] - along[first]
    unlike = apart != 0.0
    if not unlike.any():
        message = "a line needs at least two places"
        raise ValueError(message)
    slopes = (read[second] - read[first])[unlike] / apart[unlike]
    left = np.sort(read[None, :] - slopes[:, None] * along[None, :], axis=1)
    half = len(along) // 2
    widths = left[:, half:] - left[:, : len(along) - half]
    place = widths.argmin(axis=1)
    rows = np.arange(len(slopes))
    best = int(widths[rows, place].argmin())
    low, high = left[best, place[best]], left[best, place[best] + half]
    return float(slopes[best]), float((low + high) / 2.0), float(((high - low) / 2.0) ** 2)
