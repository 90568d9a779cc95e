"""Levels: the finished surface of each area.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.levels._types import (
    DoorStep,
    FinishedArea,
    Levels,
    SpotLevel,
    Steps,
    WallClearance,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "DoorStep",
    "FinishedArea",
    "Levels",
    "SpotLevel",
    "Steps",
    "WallClearance",
]
