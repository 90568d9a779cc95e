"""Laying: every unit of a paved area with its place, its cut and its number.

Units are laid in stack or running bond at any angle from a starting corner, clipped to the true outline and round
everything that stands in it. Pieces are numbered outward from that corner, course by course. Cut pieces are cut from as
few units as a simple honest plan finds, offcuts used again, straight cuts right across.
"""

from pavewright.laying._lay import lay
from pavewright.laying._offcuts import Part, cut_from_units, cutting_faults
from pavewright.laying._sums_laying import SUMS
from pavewright.laying._types import (
    LaidArea,
    LayingPlan,
    Piece,
    PieceKind,
    PlacedPart,
    SawnUnit,
)

__all__ = [
    "SUMS",
    "LaidArea",
    "LayingPlan",
    "Part",
    "Piece",
    "PieceKind",
    "PlacedPart",
    "SawnUnit",
    "cut_from_units",
    "cutting_faults",
    "lay",
]
