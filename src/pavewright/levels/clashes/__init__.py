"""Clashes: limits that cannot all hold, as a chain of levels, with the options."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.clashes._clashes import CLASHES, clashes
    from pavewright.levels.clashes._fold_clashes import clash, other_ways
else:
    __getattr__ = face(__name__)

__all__ = [
    "CLASHES",
    "clash",
    "clashes",
    "other_ways",
]
