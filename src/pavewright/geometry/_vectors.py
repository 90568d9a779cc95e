"""Points, directions and distances in plan."""

from __future__ import annotations

import math

XY = tuple[float, float]
XYZ = tuple[float, float, float]


def distance(start: XY, end: XY) -> float:
    """Return the plan distance between two points. [mm].

    >>> distance((0.0, 0.0), (3000.0, 4000.0))
    5000.0
    """
    return math.hypot(end[0] - start[0], end[1] - start[1])


def unit_vector(start: XY, end: XY) -> XY:
    """Return the direction from start to end with length one.

    Raises:
        ValueError: the two points are the same.
    """
    length = distance(start, end)
    if length == 0.0:
        message = "a direction needs two different points"
        raise ValueError(message)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def point_along(start: XY, end: XY, along_mm: float, offset_mm: float = 0.0) -> XY:
    """Return the point at a distance along a line, set off square to its left.

    >>> point_along((0.0, 0.0), (1000.0, 0.0), 250.0, 100.0)
    (250.0, 100.0)
    """
    ux, uy = unit_vector(start, end)
    return start[0] + ux * along_mm - uy * offset_mm, start[1] + uy * along_mm + ux * offset_mm


def along_and_offset(start: XY, end: XY, point: XY) -> XY:
    """Return how far along a line a point lies and how far to its left. [mm].

    >>> along_and_offset((0.0, 0.0), (1000.0, 0.0), (250.0, 100.0))
    (250.0, 100.0)
    """
    ux, uy = unit_vector(start, end)
    dx, dy = point[0] - start[0], point[1] - start[1]
    return dx * ux + dy * uy, dy * ux - dx * uy


def bearing_of(direction: XY) -> float:
    """Return a direction as degrees clockwise from the y axis of the site grid, 0 to 360.

    >>> bearing_of((1.0, 0.0))
    90.0
    """
    # twice, because a whisker below zero is rounded up to 360
    return math.degrees(math.atan2(direction[0], direction[1])) % 360.0 % 360.0
