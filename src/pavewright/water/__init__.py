"""Water: what drains where, how much, and into what.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.water._types import (
    Catchment,
    Water,
)

__all__ = [
    "Catchment",
    "Water",
]
