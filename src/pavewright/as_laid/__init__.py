"""As laid: readings on the finished paving held against the plan.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.as_laid._types import (
    AreaAsLaid,
    AsLaidReport,
    ReadingCheck,
    WallCheck,
)

__all__ = [
    "AreaAsLaid",
    "AsLaidReport",
    "ReadingCheck",
    "WallCheck",
]
