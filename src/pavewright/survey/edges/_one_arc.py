"""One arc through the ends of a chord, fitted to offsets that were measured off it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY

_NARROWED = 60
"""Halvings of the interval in which the best rise lies."""
_MAX_RISE = 1.0
"""An arc rises by no more than so many half chords: more than a half circle is no edge of paving."""
_RATIO = (math.sqrt(5.0) - 1.0) / 2.0
_FLAT = 1e-9


def rise_by_offsets_mm(chord_mm: float, offsets: Sequence[XY]) -> float:
    """Return the rise of the arc from end to end of a chord that fits offsets best, positive to their left. [mm].

    Args:
        chord_mm: Straight distance between its ends. [mm]
        offsets: Along the chord from its start, and square off it to the left, one or more. [mm]

    Valid for: arcs up to a half circle.
    Source: definition, least squares of the distances from the arc, by golden section

    >>> round(rise_by_offsets_mm(80_000.0, [(30_000.0, 3790.664), (60_000.0, 3038.308)]), 1)
    4040.8
    """

    def squares(rise: float) -> float:
        return math.fsum(off * off for off in off_arc_mm(chord_mm, rise, offsets))

    reach = _MAX_RISE * chord_mm / 2.0
    low, high = -reach, reach
    for _ in range(_NARROWED):
        one, other = high - _RATIO * (high - low), low + _RATIO * (high - low)
        low, high = (low, other) if squares(one) <= squares(other) else (one, high)
    return (low + high) / 2.0


def off_arc_mm(chord_mm: float, rise_mm: float, offsets: Sequence[XY]) -> tuple[float, ...]:
    """Return how far each offset stands off an arc, positive to the left of the chord. [mm].

    Args:
        chord_mm: Straight distance between the ends of the arc. [mm]
        rise_mm: Its rise, positive to the left. [mm]
        offsets: Along the chord from its start, and square off it to the left. [mm]

    Source: definition, distance from the centre less the radius
    """
    half = chord_mm / 2.0
    if abs(rise_mm) < _FLAT * half:
        return tuple(off for _, off in offsets)
    radius = (half * half + rise_mm * rise_mm) / (2.0 * rise_mm)
    way = math.copysign(1.0, radius)
    return tuple(way * (math.hypot(along - half, off - (rise_mm - radius)) - abs(radius)) for along, off in offsets)
