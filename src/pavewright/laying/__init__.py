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

__all__ = [
    "LaidArea",
    "LayingPlan",
    "Piece",
    "PieceKind",
    "PlacedPart",
    "SawnUnit",
]
