"""Vibration of hand and arm in a day of tools: exposure over eight hours, points, and how long a tool may run."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Sequence

REFERENCE_H = 8.0


def exposure(value_m_s2: float, hours_h: float) -> float:
    """Return the exposure [m/s²] over eight hours of a tool of a vibration [m/s²] that runs for hours [h].

    Source: vibration_directive
    """
    return value_m_s2 * math.sqrt(hours_h / REFERENCE_H)


def together(exposures_m_s2: Sequence[float]) -> float:
    """Return the exposure [m/s²] of a day in which several tools were used.

    Source: vibration_directive
    """
    return math.hypot(*exposures_m_s2)


def points(value_m_s2: float, hours_h: float, action_m_s2: float) -> float:
    """Return points of exposure, of which the action value [m/s²] over eight hours has a hundred.

    Source: vibration_points
    """
    return units.ALL_PERCENT * value_m_s2**2 * hours_h / (action_m_s2**2 * REFERENCE_H)


def until_h(limit_m_s2: float, value_m_s2: float) -> float:
    """Return how long [h] a tool of a vibration [m/s²] runs alone until the day's limit [m/s²] is reached.

    Source: vibration_directive
    """
    return REFERENCE_H * (limit_m_s2 / value_m_s2) ** 2
