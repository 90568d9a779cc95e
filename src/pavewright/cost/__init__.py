"""Cost: labour, plant and material to a price.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.cost._types import (
    Cost,
    CostLine,
    LabourTask,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "Cost",
    "CostLine",
    "LabourTask",
]
