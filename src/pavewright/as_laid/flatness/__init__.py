"""Flatness: what a straight edge would show that is rolled along the readings of a line.

The edge lies on the two highest places about its middle, as it would on the paving, and the largest gap between them
counts; what overhangs does not. Readings wide apart show only the gaps at the readings: between them nothing is known.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid.flatness._floor_numbers import FloorNumbers, curvatures, floor_numbers
    from pavewright.as_laid.flatness._rolled import RolledEdge, rolled_edge, rolled_rows
    from pavewright.as_laid.flatness._rows import rows_of
    from pavewright.as_laid.flatness._sums_flatness import SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "FloorNumbers",
    "RolledEdge",
    "curvatures",
    "floor_numbers",
    "rolled_edge",
    "rolled_rows",
    "rows_of",
]
