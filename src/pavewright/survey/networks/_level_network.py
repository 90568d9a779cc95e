"""Differences of level between points, by least squares."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


@dataclass(frozen=True, slots=True)
class Setup:
    """The height of collimation of one set-up of the instrument: a level like that of a point, and no point of the job.

    Attributes:
        book: Level book in which it stands.
        number: Number of the set-up in its book, from 1.
    """

    book: str
    number: int


Station = str | Setup
"""What has a level: a point by its name, or the instrument at one set-up."""


@dataclass(frozen=True, slots=True)
class LevelDifference:
    """How much higher one point is than another, and how far that is trusted. [mm]."""

    start: Station
    end: Station
    higher_mm: float
    sd_mm: float


@dataclass(frozen=True, slots=True)
class LevelNetwork:
    """A settled network of levels.

    Attributes:
        levels_mm: Level of every point. [mm]
        sds_mm: Standard deviation of each point that was not held, for a ratio of one. [mm]
        residuals_mm: Adjusted less measured, in their order. [mm]
        redundancy: How far the others check each one, 0 to 1. [-]
        spare: Degrees of freedom.
        weighted_squares: Sum of squared residuals, each over its standard deviation. [-]
        ratio: Standard deviation after over before; None with no spare difference. [-]
        shown: How far an error of each difference shows in the residual of each, both in their standard deviations,
            shape (n, n), float64; its diagonal is the redundancy.
    """

    levels_mm: dict[Station, float]
    sds_mm: dict[Station, float]
    residuals_mm: tuple[float, ...]
    redundancy: tuple[float, ...]
    spare: int
    weighted_squares: float
    ratio: float | None
    shown: np.ndarray


class UnreachedLevelError(ValueError):
    """No difference leads from a point to a held one; names the points."""

    def __init__(self, points: tuple[Station, ...]) -> None:
        """Keep the names."""
        super().__init__(f"nothing leads to {', '.join(map(str, points))}")
        self.points = points


def adjust_levels(held_mm: Mapping[str, float], differences: Sequence[LevelDifference]) -> LevelNetwork:
    """Return the levels that fit all differences best, each weighed by its standard deviation.

    Args:
        held_mm: Levels that stand fast. [mm]
        differences: What was measured.

    Source: network_examples

    Raises:
        UnreachedLevelError: some point hangs on nothing that stands fast.
    """
    names = tuple(dict.fromkeys(name for each in differences for name in (each.start, each.end)))
    free = tuple(name for name in names if name not in held_mm)
    _refuse_unreached(free, held_mm, differences)
    place = {name: number for number, name in enumerate(free)}
    slopes = np.zeros((len(differences), len(free)))
    right = np.zeros(len(differences))
    for row, each in enumerate(differences):
        right[row] = each.higher_mm
        for name, sign in ((each.end, 1.0), (each.start, -1.0)):
            if name in place:
                slopes[row, place[name]] += sign
            elif isinstance(name, str):
                right[row] -= sign * held_mm[name]
    sds = np.array([each.sd_mm for each in differences])
    weighted = slopes / sds[:, None]
    cofactors = np.linalg.inv(weighted.T @ weighted) if free else np.zeros((0, 0))
    levels = cofactors @ (weighted.T @ (right / sds))
    residuals = slopes @ levels - right
    squares = float(np.sum((residuals / sds) ** 2))
    spare = len(differences) - len(free)
    shown = np.eye(len(differences)) - weighted @ cofactors @ weighted.T
    held: dict[Station, float] = {name: held_mm[name] for name in names if isinstance(name, str) and name in held_mm}
    return LevelNetwork(
        levels_mm=held | {name: float(level) for name, level in zip(free, levels, strict=True)},
        sds_mm={name: float(sd) for name, sd in zip(free, np.sqrt(np.diag(cofactors)), strict=True)},
        residuals_mm=tuple(residuals.tolist()),
        redundancy=tuple(np.diag(shown).tolist()),
        spare=spare,
        weighted_squares=squares,
        ratio=float(np.sqrt(squares / spare)) if spare else None,
        shown=shown,
    )


def _refuse_unreached(
    free: tuple[Station, ...], held_mm: Mapping[str, float], differences: Sequence[LevelDifference]
) -> None:
    reached: set[Station] = set(held_mm)
    while True:
        more = {
            name
            for each in differences
            for name, other in ((each.start, each.end), (each.end, each.start))
            if other in reached and name not in reached
        }
        if not more:
            break
        reached |= more
    stray = tuple(name for name in free if name not in reached)
    if stray:
        raise UnreachedLevelError(stray)
