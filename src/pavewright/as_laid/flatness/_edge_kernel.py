"""A straight edge rolled along a profile: the hull under it, at every place where what it lies on may change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.compiled import called_with, compiled

if TYPE_CHECKING:
    import numpy as np


@compiled
def _lay(
    along: np.ndarray,
    levels: np.ndarray,
    first: int,
    beyond: int,
    middle: float,
    slack: float,
    hull: np.ndarray,
    found: np.ndarray,
) -> None:
    """Lay an edge on the readings from ``first`` to before ``beyond`` and keep the gap where it is larger."""
    top = 0
    for i in range(first, beyond):
        while top >= 2:  # noqa: PLR2004 - a bend takes two before it
            a, b = hull[top - 2], hull[top - 1]
            if (along[b] - along[a]) * (levels[i] - levels[a]) >= (levels[b] - levels[a]) * (along[i] - along[a]):
                top -= 1
            else:
                break
        hull[top] = i
        top += 1
    for h in range(top - 1):
        a, b = hull[h], hull[h + 1]
        if along[a] > middle + slack or along[b] < middle - slack:
            continue
        slope = (levels[b] - levels[a]) / (along[b] - along[a])
        for k in range(a + 1, b):
            gap = levels[a] + slope * (along[k] - along[a]) - levels[k]
            if gap > found[0]:
                found[0], found[1], found[2], found[3] = gap, a, b, k


@called_with("float64[::1], float64[::1], float64, float64[::1], int64[::1], float64[::1]")
def roll(
    along: np.ndarray, levels: np.ndarray, edge: float, starts: np.ndarray, hull: np.ndarray, found: np.ndarray
) -> None:
    """Write the largest gap under an edge, between the contacts about its middle, with where it touches.

    Args:
        along: Places along the profile, growing, shape (n,), float64. [mm]
        levels: Level at each, shape (n,), float64. [mm]
        edge: Length of the edge. [mm]
        starts: Where the edge begins in turn, growing, shape (m,), float64. [mm]
        hull: Scratch, shape (n,), int64.
        found: Gap, first contact, second contact, place of the gap, by number of the reading, shape (4,), float64; the
            gap is in mm and begins at a number below zero where there is none.

    Source: definition, upper hull of a row of points
    """
    slack = 1e-9 * edge
    first, beyond = 0, 0
    count = len(along)
    for start in starts:
        while first < count and along[first] < start - slack:
            first += 1
        beyond = max(beyond, first)
        while beyond < count and along[beyond] <= start + edge + slack:
            beyond += 1
        _lay(along, levels, first, beyond, start + edge / 2.0, slack, hull, found)


@called_with("float64[::1], float64[::1], int64[::1], float64, float64, int64[::1], float64[::1]")
def roll_rows(
    along: np.ndarray,
    levels: np.ndarray,
    ends: np.ndarray,
    edge: float,
    step: float,
    hull: np.ndarray,
    found: np.ndarray,
) -> None:
    """Write the largest gap under an edge that is moved by steps along many rows, one row behind the other.

    Args:
        along: Places along their rows, growing in each, shape (n,), float64. [mm]
        levels: Level at each, shape (n,), float64. [mm]
        ends: Where each row ends, shape (rows,), int64.
        edge: Length of the edge. [mm]
        step: How far the edge is moved each time. [mm]
        hull: Scratch, shape (n,), int64.
        found: As of one profile, shape (4,), float64; numbers are those of all readings.

    Source: definition, upper hull of a row of points
    """
    slack = 1e-9 * edge
    begin = 0
    for end in ends:
        low, high = along[begin], along[end - 1]
        # on a row that is shorter than the edge, its middle goes from end to end
        start = low if high - low > edge else low - edge / 2.0
        last = high - edge if high - low > edge else high - edge / 2.0
        first, beyond = begin, begin
        while start <= last + slack:
            while first < end and along[first] < start - slack:
                first += 1
            beyond = max(beyond, first)
            while beyond < end and along[beyond] <= start + edge + slack:
                beyond += 1
            if high - low > edge:
                _lay(along, levels, first, beyond, start + edge / 2.0, slack, hull, found)
            else:
                _lay(along, levels, begin, end, start + edge / 2.0, slack, hull, found)
            start += step
        begin = end
