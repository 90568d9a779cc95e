"""Laying: every unit of a paved area with its place, its cut and its number.

What the room hands on is agreed here; the room itself is yet to be built.
"""

from pavewright.laying._types import (
    LaidArea,
    LayingPlan,
    Piece,
    PieceKind,
    PlacedPart,
    SawnUnit,
)
from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = ()
"""Sums of this room."""

__all__ = [
    "SUMS",
    "LaidArea",
    "LayingPlan",
    "Piece",
    "PieceKind",
    "PlacedPart",
    "SawnUnit",
]
