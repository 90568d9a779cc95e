"""Where the words of a size stand beside its line."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import Words
from pavewright.drawing._type import MIN_TYPE_MM

if TYPE_CHECKING:
    from pavewright.drawing._scene import Dimension

_UPRIGHT_DEG = 90.1
_GAP = 0.75
"""From the line of a size to the middle of its words, as a part of the height of the type. [-]"""


def size_words(size: Dimension, scale: float) -> Words | None:
    """Return the words of a size above its line, readable from the foot or from the right; None where it has none.

    Args:
        size: The size.
        scale: Millimetres on the site for one on paper. [-]
    """
    (x1, y1), (x2, y2) = size.start, size.end
    length = math.hypot(x2 - x1, y2 - y1)
    if not size.text or length == 0.0:
        return None
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    off = size.off_mm * scale
    turn = math.degrees(math.atan2(uy, ux))
    turn = turn - 180.0 if turn >= _UPRIGHT_DEG else turn + 180.0 if turn < -_UPRIGHT_DEG + 0.2 else turn
    high = max(size.height_mm, MIN_TYPE_MM)
    gap, rad = high * _GAP * scale, math.radians(turn)
    x, y = (x1 + x2) / 2.0 - uy * off, (y1 + y2) / 2.0 + ux * off
    return Words(
        (x - gap * math.sin(rad), y + gap * math.cos(rad)), size.text, high, turn_deg=turn, white=True, layer=size.layer
    )
