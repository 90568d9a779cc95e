"""F-numbers of a level floor, from readings at equal steps along a line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

_STEPS = 10
"""Steps over which a floor is held to be level. [-]"""
_ENOUGH = 12
"""Readings that a line must have."""
_SPREAD = 3.0


@dataclass(frozen=True, slots=True)
class FloorNumbers:
    """Flatness and levelness of a line.

    Attributes:
        bend_mean_mm: Mean of the bends between readings. [mm]
        bend_sd_mm: Their standard deviation. [mm]
        rise_mean_mm: Mean of the rises over ten steps. [mm]
        rise_sd_mm: Their standard deviation. [mm]
        flatness: Flatness number; the larger, the flatter. [-]
        levelness: Levelness number; it says nothing of a surface that is laid to a fall. [-]
    """

    bend_mean_mm: float
    bend_sd_mm: float
    rise_mean_mm: float
    rise_sd_mm: float
    flatness: float
    levelness: float


def curvatures(heights_mm: Sequence[float]) -> NDArray[np.float64]:
    """Return the bend at each reading but the first and the last: up in a trough, down on a crest. [mm].

    Args:
        heights_mm: Readings at equal steps. [mm]

    Source: slac_test_pad, q = d(i) - d(i - 1)
    """
    return np.asarray(np.diff(np.asarray(heights_mm, dtype=np.float64), 2), dtype=np.float64)


def floor_numbers(heights_mm: Sequence[float], flatness_mm: float, levelness_mm: float) -> FloorNumbers:
    """Return the F-numbers of a line of readings 300 mm apart.

    Args:
        heights_mm: Readings. [mm]
        flatness_mm: Constant of the flatness number. [mm]
        levelness_mm: Constant of the levelness number. [mm]

    Valid for: twelve or more readings, 300 mm apart; a level floor.
    Source: astm_e1155; its constants from memory

    Raises:
        ValueError: too few readings, or readings without any scatter.
    """
    if len(heights_mm) < _ENOUGH:
        message = f"A line has {_ENOUGH} readings or more."
        raise ValueError(message)
    heights = np.asarray(heights_mm, dtype=np.float64)
    bends, rises = curvatures(heights_mm), heights[_STEPS:] - heights[:-_STEPS]
    bend, rise = float(bends.mean()), float(rises.mean())
    bend_sd, rise_sd = float(bends.std(ddof=1)), float(rises.std(ddof=1))
    flat, level = _SPREAD * bend_sd + abs(bend), _SPREAD * rise_sd + abs(rise)
    if min(flat, level) <= 0.0:
        message = "These readings have no scatter at all: read the line again."
        raise ValueError(message)
    return FloorNumbers(bend, bend_sd, rise, rise_sd, flatness_mm / flat, levelness_mm / level)
