"""Clashes: limits that cannot all hold, as a chain of levels, with the options."""

from pavewright.levels.clashes._clashes import CLASHES, clashes
from pavewright.levels.clashes._fold_clashes import clash, other_ways

__all__ = [
    "CLASHES",
    "clash",
    "clashes",
    "other_ways",
]
