"""Cost: labour, plant and material to a price.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.cost._types import (
    Cost,
    CostLine,
    LabourTask,
)

__all__ = [
    "Cost",
    "CostLine",
    "LabourTask",
]
