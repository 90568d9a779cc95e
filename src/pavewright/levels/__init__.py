"""Levels: how high the finished paving lies everywhere, so that it sheds water and keeps clear of the house.

Each area is one plane. It falls as asked, or away from the house; it lies as high as the damp-proof course, air bricks
and doors allow, and meets covers, existing edges and its neighbours. Where these clash the room tells the chain of
levels in millimetres and the ways out, cheapest first. Steps get equal risers.
"""

from pavewright.levels._levels import finished_levels
from pavewright.levels._sums_levels import SUMS
from pavewright.levels._types import (
    DoorStep,
    FinishedArea,
    Levels,
    SpotLevel,
    Steps,
    WallClearance,
)

__all__ = [
    "SUMS",
    "DoorStep",
    "FinishedArea",
    "Levels",
    "SpotLevel",
    "Steps",
    "WallClearance",
    "finished_levels",
]
