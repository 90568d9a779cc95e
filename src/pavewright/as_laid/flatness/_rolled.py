"""The largest gap under a straight edge that is rolled along a profile."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

_CLOSE = 20.0
"""Readings stand this many times closer than the edge is long, or what lies between them is not known."""
_ENOUGH = 3


@dataclass(frozen=True, slots=True)
class RolledEdge:
    """What an edge showed.

    Attributes:
        gap_mm: The largest gap between its two contacts; zero where it touches everywhere. [mm]
        contacts: Numbers of the readings on which it lay then, from 0; None where there is no gap.
        lowest: Number of the reading with that gap; None where there is none.
        edge_mm: Length of the edge. [mm]
        widest_mm: The widest way between two readings. [mm]
        reading_share: Standard deviation of the gap over that of one reading. [-]
    """

    gap_mm: float
    contacts: tuple[int, int] | None
    lowest: int | None
    edge_mm: float
    widest_mm: float
    reading_share: float

    @property
    def sees_between(self) -> bool:
        """Whether readings stand so close that what lies between them is known too."""
        return self.widest_mm * _CLOSE <= self.edge_mm * (1.0 + _EXACT)


_EXACT = 1e-9


def rolled_edge(along: NDArray[np.float64], levels: NDArray[np.float64], edge_mm: float) -> RolledEdge | None:
    """Return the largest gap under a straight edge rolled along a profile; None with fewer than three readings.

    The edge lies on the part of the upper hull of what is under it that spans its middle. On a profile that is shorter
    than the edge it lies on each part of the hull in turn.

    Args:
        along: Places along the profile, growing, shape (n,), float64. [mm]
        levels: Level at each, shape (n,), float64. [mm]
        edge_mm: Length of the edge. [mm]

    Valid for: edge_mm > 0; a profile with falls as well as a level one.
    Source: concrete_society_regularity, the gap between the contact points of an edge that lies under its own weight
    """
    from pavewright.as_laid.flatness._edge_kernel import roll, roll_rows  # noqa: PLC0415 - the compiler is slow to load

    if len(along) < _ENOUGH:
        return None
    found = np.array([0.0, -1.0, -1.0, -1.0])
    places, heights = np.ascontiguousarray(along, dtype=np.float64), np.ascontiguousarray(levels, dtype=np.float64)
    hull = np.empty(len(along), dtype=np.int64)
    if along[-1] - along[0] <= edge_mm:
        step = float(np.diff(along).min())
        roll_rows(places, heights, np.array([len(along)], dtype=np.int64), edge_mm, step, hull, found)
    else:
        roll(places, heights, edge_mm, _starts(along, edge_mm), hull, found)
    widest = float(np.diff(along).max())
    if found[3] < 0.0:
        return RolledEdge(0.0, None, None, edge_mm, widest, 0.0)
    a, b, k = (int(each) for each in found[1:])
    return RolledEdge(float(found[0]), (a, b), k, edge_mm, widest, _share(along, a, b, k))


def rolled_rows(
    along: NDArray[np.float64], levels: NDArray[np.float64], ends: NDArray[np.int64], edge_mm: float, step_mm: float
) -> RolledEdge | None:
    """Return the largest gap under a straight edge moved along many rows; None where there is none.

    Args:
        along: Places along their rows, growing in each, one row behind the other, shape (n,), float64. [mm]
        levels: Level at each, shape (n,), float64. [mm]
        ends: Where each row ends, shape (rows,), int64.
        edge_mm: Length of the edge. [mm]
        step_mm: How far it is moved each time. [mm]

    Valid for: rows of two or more readings; steps of the way between readings see all that an edge can see.
    Source: concrete_society_regularity, as of one profile
    """
    from pavewright.as_laid.flatness._edge_kernel import roll_rows  # noqa: PLC0415 - the compiler is slow to load

    if not len(ends):
        return None
    found = np.array([0.0, -1.0, -1.0, -1.0])
    roll_rows(along, levels, ends, edge_mm, step_mm, np.empty(len(along), dtype=np.int64), found)
    if found[3] < 0.0:
        return None
    a, b, k = (int(each) for each in found[1:])
    within = np.ones(len(along) - 1, dtype=np.bool_)
    within[ends[:-1] - 1] = False
    return RolledEdge(float(found[0]), (a, b), k, edge_mm, float(np.diff(along)[within].max()), _share(along, a, b, k))


def _share(along: NDArray[np.float64], first: int, second: int, lowest: int) -> float:
    """Return the standard deviation of a gap over that of one reading."""
    part = float((along[lowest] - along[first]) / (along[second] - along[first]))
    return math.sqrt(1.0 + (1.0 - part) ** 2 + part**2)


def _starts(along: NDArray[np.float64], edge_mm: float) -> NDArray[np.float64]:
    """Return where an edge begins in turn: wherever a reading comes under an end or its middle, and between. [mm]."""
    events = np.concatenate([along, along - edge_mm, along - edge_mm / 2.0])
    events = np.unique(events[(events >= along[0]) & (events <= along[-1] - edge_mm)])
    return np.sort(np.concatenate([events, (events[1:] + events[:-1]) / 2.0]))
