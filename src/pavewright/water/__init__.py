"""Water: what drains where, how much, and into what.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.sums import Sum
from pavewright.water._types import (
    Catchment,
    Water,
)

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "Catchment",
    "Water",
]
