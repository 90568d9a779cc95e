"""Amounts: layers, strips, allowances and whole packs; the one engine of sums and jobs."""

from __future__ import annotations

import math

from pavewright import units

_WHOLE = 1e-9
"""A number of packs this little over a whole one is that one: the sum before it is not exact. [-]"""


def with_allowance(amount: float, percent: float) -> float:
    """Return an amount with what is lost on it, in its own unit.

    Args:
        amount: Net amount. [any unit]
        percent: What is lost, over the net amount. [%]

    Source: definition

    >>> with_allowance(200.0, 5.0)
    210.0
    """
    return amount * (1.0 + percent / units.ALL_PERCENT)


def whole(amount: float, holds: float = 1.0) -> int:
    """Return in how many whole packs an amount comes.

    Args:
        amount: What is needed. [any unit]
        holds: What one pack holds, in the same unit. [unit of the amount]

    Source: definition, amount / pack, rounded up

    >>> whole(41.0, 20.0), whole(40.0, 20.0)
    (3, 2)
    """
    return math.ceil(amount / holds - _WHOLE)


def packs_ordered(need: float, holds: float, min_packs: int | None = None) -> int:
    """Return how many packs are ordered: no fewer than are needed, no fewer than the supplier delivers.

    Args:
        need: What is needed, with allowance; nothing is ordered where nothing is. [any unit]
        holds: What one pack holds. [unit of the need]
        min_packs: Fewest packs that the supplier delivers. [packs]

    Source: definition, need / pack, rounded up once

    >>> packs_ordered(41.0, 20.0), packs_ordered(41.0, 20.0, 5), packs_ordered(0.0, 20.0, 5)
    (3, 5, 0)
    """
    if need <= 0.0:
        return 0
    return max(whole(need, holds), min_packs or 1)


def layer_m3(area_m2: float, thickness_mm: float) -> float:
    """Return the volume of a layer. [m³].

    Args:
        area_m2: Area in plan. [m²]
        thickness_mm: Thickness when compacted or set. [mm]

    Source: definition

    >>> layer_m3(20.0, 150.0)
    3.0
    """
    return area_m2 * units.mm_to_m(thickness_mm)


def strip_m3(length_m: float, width_mm: float, depth_mm: float) -> float:
    """Return the volume of a strip of concrete. [m³].

    Args:
        length_m: Length. [m]
        width_mm: Width of its section. [mm]
        depth_mm: Depth of its section. [mm]

    Source: definition

    >>> strip_m3(10.0, 300.0, 100.0)
    0.3
    """
    return length_m * units.mm2_to_m2(width_mm * depth_mm)
