"""Quantities: taking-off, item by item, net, with allowance and as ordered.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.quantities._types import (
    Item,
    Quantities,
)

__all__ = [
    "Item",
    "Quantities",
]
