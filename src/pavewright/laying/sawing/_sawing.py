"""Cut pieces of an area to the saw, and what that says about the number of units."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import shapely
from shapely import affinity

from pavewright import units
from pavewright.laying._types import PieceKind
from pavewright.laying.cutting import FAR, LEFT, NEAR, RIGHT, Part

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._types import Piece
    from pavewright.laying.pieces import Frame

_FULL = 1e-6
"""Share of its box that a piece may lack and still count as a rectangle."""


def parts_to_saw(pieces: Sequence[Piece], unit: PavingUnit, frame: Frame, *, factory_edges: bool = False) -> list[Part]:
    """Return the cut pieces as parts for the saw.

    Pieces that are no rectangles count for those with a box inside them: two triangles may be nested into one box.

    Args:
        pieces: All pieces of an area.
        unit: What they are cut from.
        frame: The frame of the courses.
        factory_edges: Whether sides of a piece that were sides of its unit stay factory edges.
    """
    cut = [piece for piece in pieces if piece.kind is PieceKind.CUT]
    parts = [_part(piece, frame) for piece in cut]
    if factory_edges:
        parts = [replace(part, factory_sides=_kept(piece, unit)) for part, piece in zip(parts, cut, strict=True)]
    return parts


def _kept(piece: Piece, unit: PavingUnit) -> int:
    """Return the sides of a piece's box that lie on the edges of its unit as laid, as a sum."""
    right, far = piece.frame_x_mm + piece.along_mm, piece.frame_y_mm + piece.across_mm
    return (
        (LEFT if piece.frame_x_mm < _EDGE_MM else 0)
        + (NEAR if piece.frame_y_mm < _EDGE_MM else 0)
        + (RIGHT if right > unit.length_mm - _EDGE_MM else 0)
        + (FAR if far > unit.width_mm - _EDGE_MM else 0)
    )


_EDGE_MM = 0.2
"""A side this near to the edge of its unit is that edge: parts are rounded to a tenth. [mm]"""


def _part(piece: Piece, frame: Frame) -> Part:
    """Return a piece as a part, with its outline from the corner of its box where it does not fill that.

    The corners of holes follow its own, so that it counts as one with inner corners: it is neither paired nor sure to
    keep what is in its hole.
    """
    box = units.mm2_to_m2(piece.along_mm * piece.across_mm)
    if piece.area_m2 >= box * (1.0 - _FULL):
        return Part(piece.number, piece.along_mm, piece.across_mm)
    in_frame = frame.into(piece.shape.polygon)
    on_unit = affinity.rotate(in_frame, -piece.turn_deg, origin=(0.0, 0.0))
    points = shapely.get_coordinates(on_unit)[:-1]
    from_corner = (points - points.min(axis=0)).round(6)
    return Part(
        piece.number, piece.along_mm, piece.across_mm, outline=tuple((float(x), float(y)) for x, y in from_corner)
    )
