"""As laid: readings on the finished paving held against the plan.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.as_laid._types import (
    AreaAsLaid,
    AsLaidReport,
    ReadingCheck,
    WallCheck,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "AreaAsLaid",
    "AsLaidReport",
    "ReadingCheck",
    "WallCheck",
]
