"""Laying: every unit of a paved area with its place, its cut and its number.

Units are laid in stack or running bond at any angle from a starting corner, clipped to the true outline and round
everything that stands in it. Pieces are numbered outward from that corner, course by course. Cut pieces are cut from as
few units as a search finds, offcuts used again, straight cuts right across, beside the fewest that are possible.
"""

from pavewright.laying._lay import lay
from pavewright.laying._sums_laying import SUMS
from pavewright.laying._types import (
    LaidArea,
    LayingPlan,
    Piece,
    PieceKind,
)
from pavewright.laying.cutting import Part, PlacedPart, SawCut, SawnUnit

__all__ = [
    "SUMS",
    "LaidArea",
    "LayingPlan",
    "Part",
    "Piece",
    "PieceKind",
    "PlacedPart",
    "SawCut",
    "SawnUnit",
    "lay",
]
