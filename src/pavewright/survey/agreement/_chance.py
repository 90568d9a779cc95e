"""How likely a deviation is, where its spread is itself estimated from few readings."""

from __future__ import annotations

import math

_TWO = 2


def chance_beyond(deviation: float, freedom: int) -> float:
    """Return the chance of a deviation this large either way, in standard deviations estimated from the same readings.

    Args:
        deviation: Deviation over its standard deviation. [-]
        freedom: Readings to spare, one or more.

    Valid for: normal deviations; Student's distribution with a whole number of degrees of freedom.
    Source: student_series

    >>> round(chance_beyond(2.228, 10), 3), round(chance_beyond(12.706, 1), 3)
    (0.05, 0.05)
    """
    angle = math.atan(abs(deviation) / math.sqrt(freedom))
    sine, cosine = math.sin(angle), math.cos(angle)
    odd = freedom % _TWO == 1
    term = cosine if odd else 1.0
    total = 0.0 if odd and freedom == 1 else term
    for number in range(_TWO if odd else 1, freedom - 1, _TWO):
        term *= number / (number + 1) * cosine * cosine
        total += term
    inside = _TWO / math.pi * (angle + sine * total) if odd else sine * total
    return max(0.0, 1.0 - inside)
