"""Earthworks: what is dug, what is filled and what leaves the site.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.earthworks._types import (
    AreaDig,
    Earthworks,
    Spread,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "AreaDig",
    "Earthworks",
    "Spread",
]
