"""Marks levelled to each other on two visits: which of them moved."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.as_laid.movement._chances import f_limit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class LevelledLine:
    """A line of levels between two marks, on two visits.

    Attributes:
        start: Mark from which it runs.
        end: Mark to which it runs.
        first_mm: Rise on the first visit. [mm]
        second_mm: Rise on the second visit. [mm]
        length_m: Its length. [m]
    """

    start: str
    end: str
    first_mm: float
    second_mm: float
    length_m: float


@dataclass(frozen=True)
class LinesMoved:
    """How far marks moved against one of them.

    Attributes:
        marks: The marks but the one that is held.
        moved_mm: How far each rose. [mm]
        sd_mm: Standard deviation of each. [mm]
        joint_f: All movements together, for the scatter that is stated. [-]
        joint_limit: What chance alone exceeds once in twenty. [-]
        scatter: Square of the scatter found over that stated, from both visits; None without lines to spare. [-]
        scatter_f: All movements together, for the scatter found; None likewise. [-]
        scatter_limit: What chance alone exceeds once in twenty; None likewise. [-]
        suspects: Marks that moved against the rest, the worst first.
    """

    marks: tuple[str, ...]
    moved_mm: tuple[float, ...]
    sd_mm: tuple[float, ...]
    joint_f: float
    joint_limit: float
    scatter: float | None
    scatter_f: float | None
    scatter_limit: float | None
    suspects: tuple[str, ...]


def lines_moved(lines: Sequence[LevelledLine], held: str, mm_per_root_km: float) -> LinesMoved:
    """Return how far marks moved against one that is held, by least squares, and which of all moved against the rest.

    Args:
        lines: The lines.
        held: Mark that is held.
        mm_per_root_km: Standard deviation of a line of one kilometre. [mm]

    Valid for: lines that join all marks.
    Source: deformation_symposium; joint test F of all movements, then the mark whose absence leaves the smallest F

    Raises:
        ValueError: the mark held is on no line, or lines do not join all marks.
    """
    names = sorted({name for line in lines for name in (line.start, line.end)})
    if held not in names or len(names) < _FEWEST:
        message = f"No line runs to {held}: hold a mark that was levelled."
        raise ValueError(message)
    size = np.array([mm_per_root_km**2 * units.m_to_mm(line.length_m) / _MM_PER_KM for line in lines])
    rises = np.array([[line.first_mm, line.second_mm] for line in lines])
    columns = np.array([[float(line.end == name) - float(line.start == name) for name in names] for line in lines])
    change = rises[:, 1] - rises[:, 0]
    others = [number for number, name in enumerate(names) if name != held]
    moved, normal = _solved(columns[:, others], change, 2.0 * size)
    many = len(others)
    joint = float(moved @ normal @ moved) / many
    free = 2 * (len(lines) - many)
    scatter = sum(_square(columns[:, others], rises[:, visit], size) for visit in (0, 1)) / free if free else None
    spread = np.linalg.inv(normal)
    return LinesMoved(
        marks=tuple(names[number] for number in others),
        moved_mm=tuple(float(each) for each in moved),
        sd_mm=tuple(math.sqrt(float(each)) for each in np.diag(spread)),
        joint_f=joint,
        joint_limit=f_limit(many, None),
        scatter=scatter,
        scatter_f=joint / scatter if scatter else None,
        scatter_limit=f_limit(many, free) if scatter else None,
        suspects=_suspects(names, columns, change, 2.0 * size),
    )


def _solved(
    columns: NDArray[np.float64], seen: NDArray[np.float64], size: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return unknowns by least squares and their normal matrix.

    Raises:
        ValueError: the lines do not join all marks.
    """
    normal = columns.T @ (columns / size[:, None])
    if np.linalg.matrix_rank(normal) < len(normal):
        message = "The lines do not join all marks: level one more line."
        raise ValueError(message)
    return np.asarray(np.linalg.solve(normal, columns.T @ (seen / size)), dtype=np.float64), np.asarray(
        normal, dtype=np.float64
    )


def _square(columns: NDArray[np.float64], seen: NDArray[np.float64], size: NDArray[np.float64]) -> float:
    found, _ = _solved(columns, seen, size)
    left = seen - columns @ found
    return float((left * left / size).sum())


def _suspects(
    names: list[str], columns: NDArray[np.float64], change: NDArray[np.float64], size: NDArray[np.float64]
) -> tuple[str, ...]:
    """Return the marks that moved against the rest, each found as the one without which the rest agree best."""
    moved, normal = _solved(columns[:, 1:], change, size)
    spread = np.zeros((len(names), len(names)))
    spread[1:, 1:] = np.linalg.inv(normal)
    heights = np.concatenate([[0.0], moved])
    still, found = list(range(len(names))), []
    while len(still) >= _FEWEST and _apart(heights, spread, still) > f_limit(len(still) - 1, None):
        if len(still) == _FEWEST:  # two marks that differ: nobody can tell which of them moved
            break
        worst = min(still, key=lambda one: _apart(heights, spread, [each for each in still if each != one]))
        still.remove(worst)
        found.append(names[worst])
    return tuple(found)


def _apart(heights: NDArray[np.float64], spread: NDArray[np.float64], marks: list[int]) -> float:
    """Return F of the movements of some marks against the first of them. [-]."""
    change = np.array(
        [[float(one == each) - float(one == marks[0]) for one in range(len(heights))] for each in marks[1:]]
    )
    gaps, size = change @ heights, change @ spread @ change.T
    return float(gaps @ np.linalg.solve(size, gaps)) / len(gaps)


_FEWEST = 2
_MM_PER_KM = 1_000_000.0
