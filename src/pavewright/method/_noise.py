"""Noise of a day: exposure over eight hours, and how long somebody may stay in it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.method._vibration import REFERENCE_H

if TYPE_CHECKING:
    from collections.abc import Sequence

_DECIBELS = 10.0
"""Decibels in a tenfold."""


def noise_share(level_db: float, hours_h: float) -> float:
    """Return energy over eight hours, relative to that of a level of zero.

    Args:
        level_db: Level at the ear. [dB(A)]
        hours_h: How long. [h]

    Source: noise_regulations
    """
    return float(10.0 ** (level_db / _DECIBELS)) * hours_h / REFERENCE_H


def noise_day(levels_db: Sequence[float], hours: Sequence[float]) -> float:
    """Return the exposure of a day over eight hours.

    Args:
        levels_db: Levels at the ear. [dB(A)]
        hours: How long each lasts. [h]

    Source: noise_regulations

    >>> noise_day([85.0], [8.0])
    85.0
    >>> round(noise_day([88.0], [4.0]), 1)
    85.0
    """
    return _DECIBELS * math.log10(sum(noise_share(*each) for each in zip(levels_db, hours, strict=True)))


def noise_points(day_db: float, upper_db: float) -> float:
    """Return points of a day's noise, of which the upper action value has a hundred.

    Args:
        day_db: Exposure of the day. [dB(A)]
        upper_db: Upper action value. [dB(A)]

    Source: noise_ready_reckoner
    """
    return float(units.ALL_PERCENT * 10.0 ** ((day_db - upper_db) / _DECIBELS))


def noise_until_h(limit_db: float, level_db: float) -> float:
    """Return how long somebody may stay in a level alone until the day's value is reached. [h].

    Args:
        limit_db: Value of the day, over eight hours. [dB(A)]
        level_db: Level at the ear. [dB(A)]

    Source: noise_directive_canada

    >>> noise_until_h(87.0, 87.0)
    8.0
    """
    return float(REFERENCE_H * 10.0 ** ((limit_db - level_db) / _DECIBELS))
