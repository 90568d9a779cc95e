"""A point from two bearings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY


def bearing_vector(bearing_deg: float) -> XY:
    """Return a bearing as a direction of length one, x and y.

    Args:
        bearing_deg: Clockwise from the y axis. [deg]

    Source: definition

    >>> tuple(round(part, 6) for part in bearing_vector(90.0))
    (1.0, 0.0)
    """
    turn = math.radians(bearing_deg)
    return math.sin(turn), math.cos(turn)


def bearing_intersection(
    first: XY, second: XY, bearing_first_deg: float, bearing_second_deg: float
) -> tuple[float, float]:
    """Return how far along each bearing two rays meet. [mm].

    Args:
        first: Start of the first ray, x and y. [mm]
        second: Start of the second ray. [mm]
        bearing_first_deg: Direction of the first ray, clockwise from the y axis. [deg]
        bearing_second_deg: Direction of the second ray. [deg]

    Valid for: rays that are not parallel; a negative distance lies behind the start.
    Source: mahun_cogo, chapter B

    >>> tuple(round(d, 6) for d in bearing_intersection((0.0, 0.0), (1000.0, 0.0), 45.0, 315.0))
    (707.106781, 707.106781)
    """
    turn_first, turn_second = math.radians(bearing_first_deg), math.radians(bearing_second_deg)
    spread = math.sin(turn_first - turn_second)
    east, north = second[0] - first[0], second[1] - first[1]
    return (
        (east * math.cos(turn_second) - north * math.sin(turn_second)) / spread,
        (east * math.cos(turn_first) - north * math.sin(turn_first)) / spread,
    )
