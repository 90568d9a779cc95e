"""Curves set out with tape and string: arcs by a swung tape or by offsets from a straight string, and ellipses."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.setting_out.shapes._curves import CurveSetOut, StringOffsets, curve_of
    from pavewright.setting_out.shapes._sums_shapes import SHAPE_SUMS
else:
    __getattr__ = face(__name__)

__all__ = ["SHAPE_SUMS", "CurveSetOut", "StringOffsets", "curve_of"]
