"""Pieces: units clipped to the outline in the frame of the courses, and what is left of each: whole, cut, or split."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.pieces._cells import MAX_CELLS, MAX_UNITS, Clipped, clip, clipped, sorted_units
    from pavewright.laying.pieces._frame import Frame, frame_of
    from pavewright.laying.pieces._necks import narrow, necks_mm, widened
    from pavewright.laying.pieces._pieces import (
        CURVE_DEG,
        Sizes,
        is_crumb,
        is_sliver,
        is_whole,
        laid_in_turn,
        number_pieces,
        sizes,
    )
    from pavewright.laying.pieces._split_corners import split_at_corners
else:
    __getattr__ = face(__name__)

__all__ = [
    "CURVE_DEG",
    "MAX_CELLS",
    "MAX_UNITS",
    "Clipped",
    "Frame",
    "Sizes",
    "clip",
    "clipped",
    "frame_of",
    "is_crumb",
    "is_sliver",
    "is_whole",
    "laid_in_turn",
    "narrow",
    "necks_mm",
    "number_pieces",
    "sizes",
    "sorted_units",
    "split_at_corners",
    "widened",
]
