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

__all__ = [
    "DoorStep",
    "FinishedArea",
    "Levels",
    "SpotLevel",
    "Steps",
    "WallClearance",
]
