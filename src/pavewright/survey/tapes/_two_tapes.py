"""A point from two tapes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.geometry import distance, point_along

if TYPE_CHECKING:
    from pavewright.geometry import XY


@dataclass(frozen=True, slots=True)
class TwoTapes:
    """Where two tapes meet.

    Attributes:
        left: Place to the left of the line from the first end to the second. [mm]
        right: Its mirror, to the right. [mm]
        angle_deg: Angle between the tapes where they meet. [deg]
    """

    left: XY
    right: XY
    angle_deg: float


def two_tape_intersection(first: XY, second: XY, from_first_mm: float, from_second_mm: float) -> TwoTapes | None:
    """Return the two places where two tapes meet, or None where they do not.

    Args:
        first: Zero of the first tape, x and y. [mm]
        second: Zero of the second tape, x and y. [mm]
        from_first_mm: Length of the first tape. [mm]
        from_second_mm: Length of the second tape. [mm]

    Valid for: two different ends; r1 + r2 ≥ L, and r1 and r2 differ by no more than L.
    Source: definition, a = (r1² − r2² + L²) / 2L along the line, h = √(r1² − a²) off it

    >>> two_tape_intersection((0.0, 0.0), (5000.0, 0.0), 3000.0, 4000.0).left
    (1800.0, 2400.0)
    """
    line = distance(first, second)
    if line == 0.0 or from_first_mm + from_second_mm < line or abs(from_first_mm - from_second_mm) > line:
        return None
    along = ((from_first_mm - from_second_mm) * (from_first_mm + from_second_mm) + line * line) / (2.0 * line)
    off = math.sqrt(max(0.0, (from_first_mm - along) * (from_first_mm + along)))
    cosine = (from_first_mm**2 + from_second_mm**2 - line**2) / (2.0 * from_first_mm * from_second_mm)
    return TwoTapes(
        left=point_along(first, second, along, off),
        right=point_along(first, second, along, -off),
        angle_deg=math.degrees(math.acos(max(-1.0, min(1.0, cosine)))),
    )
