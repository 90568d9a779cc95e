"""An ellipse drawn by a string round two pins."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class EllipseByString:
    """Pins and string of an ellipse.

    Attributes:
        pins_apart_mm: Between the two pins, on the long axis. [mm]
        pin_from_middle_mm: From the middle to each pin. [mm]
        loop_mm: Length of a string tied in a loop round both pins. [mm]
        open_mm: Length of an open string, an end on each pin. [mm]
    """

    pins_apart_mm: float
    pin_from_middle_mm: float
    loop_mm: float
    open_mm: float


def ellipse_by_string(length_mm: float, width_mm: float) -> EllipseByString:
    """Return the pins and the string of an ellipse.

    Args:
        length_mm: Its long axis. [mm]
        width_mm: Its short axis. [mm]

    Valid for: a width above zero and no more than the length.
    Source: ellipse_string, pins √(L² − W²) apart, loop L + that

    >>> ellipse_by_string(5_000.0, 4_000.0).pins_apart_mm
    3000.0
    """
    apart = math.sqrt((length_mm - width_mm) * (length_mm + width_mm))
    return EllipseByString(apart, 0.5 * apart, length_mm + apart, length_mm)


def ellipse_offset_mm(length_mm: float, width_mm: float, from_middle_mm: float) -> float:
    """Return how far the edge of an ellipse stands off its long axis. [mm].

    Args:
        length_mm: Its long axis. [mm]
        width_mm: Its short axis. [mm]
        from_middle_mm: Place along the long axis, from its middle. [mm]

    Valid for: a place on the axis.
    Source: definition, y = b·√(1 − x²/a²)

    >>> ellipse_offset_mm(5_000.0, 4_000.0, 0.0)
    2000.0
    """
    share = 2.0 * from_middle_mm / length_mm
    return 0.5 * width_mm * math.sqrt((1.0 - share) * (1.0 + share))
