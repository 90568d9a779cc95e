"""Quantities: taking-off, item by item, net, with allowance and as ordered.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.quantities._types import (
    Item,
    Quantities,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "Item",
    "Quantities",
]
