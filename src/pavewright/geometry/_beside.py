"""On which side of a line a shape lies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from pavewright.geometry._overlay import shared
from pavewright.geometry._vectors import distance, point_along

if TYPE_CHECKING:
    import shapely

    from pavewright.geometry._vectors import XY

_PLAIN = 0.5
"""Where one side holds more than this part of what the other holds, no side is plain. [-]"""


def side_beside(start: XY, end: XY, shape: shapely.Geometry, near_mm: float) -> float | None:
    """Return on which side of a line a shape lies close by: 1 to its left, -1 to its right, None for neither.

    Args:
        start: Start of the line. [mm]
        end: End of the line. [mm]
        shape: The shape. [mm]
        near_mm: How far from the line is looked. [mm]

    >>> from shapely import box
    >>> side_beside((0.0, 0.0), (4000.0, 0.0), box(0.0, -2000.0, 4000.0, 0.0), 600.0)
    -1.0
    """
    run = distance(start, end)
    left, right = (
        shared(
            Polygon(
                [start, end, point_along(start, end, run, way * near_mm), point_along(start, end, 0.0, way * near_mm)]
            ),
            shape,
        ).area
        for way in (1.0, -1.0)
    )
    if max(left, right) == 0.0 or min(left, right) > _PLAIN * max(left, right):
        return None
    return 1.0 if left > right else -1.0
