"""How far layers lie below a string."""

from __future__ import annotations

import itertools


def down_from_string(over_mm: float, thicknesses_mm: tuple[float, ...]) -> tuple[float, ...]:
    """Return how far the finished surface, and then the underside of each layer, lies below a string. [mm].

    Args:
        over_mm: String over the finished surface. [mm]
        thicknesses_mm: Layers from the top down. [mm]

    Source: definition

    >>> down_from_string(150.0, (40.0, 35.0))
    (150.0, 190.0, 225.0)
    """
    return tuple(itertools.accumulate(thicknesses_mm, initial=over_mm))
