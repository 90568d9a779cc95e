"""Durations known by three points, along a path and where paths run side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_LIKELY_WEIGHT = 4.0
_ALL_WEIGHTS = 6.0


class ThreePointsError(ValueError):
    """The three points of a duration do not stand in order."""


@dataclass(frozen=True, slots=True)
class Duration:
    """How long something takes.

    Attributes:
        mean: Its mean. [the unit that it was given in]
        variance: Its variance. [that unit squared]
    """

    mean: float
    variance: float


def three_point(low: float, likely: float, high: float) -> Duration:
    """Return mean and variance of a duration of three points.

    Args:
        low: Shortest. [any unit of time]
        likely: Likeliest. [any unit of time]
        high: Longest. [any unit of time]

    Raises:
        ThreePointsError: they do not stand in order.

    Source: pert

    >>> three_point(5.0, 8.0, 17.0)
    Duration(mean=9.0, variance=4.0)
    """
    if not low <= likely <= high:
        message = f"{low:g}, {likely:g}, {high:g}: the shortest time comes first, then the likeliest, then the longest."
        raise ThreePointsError(message)
    return Duration((low + _LIKELY_WEIGHT * likely + high) / _ALL_WEIGHTS, ((high - low) / _ALL_WEIGHTS) ** 2)


def along(parts: Sequence[Duration]) -> Duration:
    """Return what parts take one after another, none of which leans on another."""
    return Duration(math.fsum(part.mean for part in parts), math.fsum(part.variance for part in parts))


def chance_within(path: Duration, limit: float) -> float:
    """Return the chance that a path takes no longer than a limit, as a normal value. [-].

    Args:
        path: The path.
        limit: The limit. [unit of the path]

    Source: pert

    >>> round(chance_within(Duration(24.0, 5.0), 28.0), 4)
    0.9632
    """
    if path.variance <= 0.0:
        return 1.0 if path.mean <= limit else 0.0
    return math.erfc((path.mean - limit) / math.sqrt(2.0 * path.variance)) / 2.0


def chance_all_within(paths: Sequence[Duration], limit: float) -> float:
    """Return the chance that all paths end within a limit, taken as independent of each other. [-].

    Args:
        paths: The paths.
        limit: The limit. [unit of the paths]

    Valid for: paths that share no part; shared parts bring the chance nearer to that of the longest path alone.
    Source: definition, product of the chances
    """
    return math.prod(chance_within(path, limit) for path in paths)
