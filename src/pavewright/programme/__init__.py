"""Programme: tasks, waits and dates.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.programme._types import (
    Programme,
    Task,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "Programme",
    "Task",
]
