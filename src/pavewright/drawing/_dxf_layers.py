"""Layers of the DXF drawing, and how things are put on them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from ezdxf.enums import TextEntityAlignment

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

    from pavewright.geometry import XY, XYZ, Ring, Shape

LINES = {"DASH": (320.0, 200.0, -120.0), "CHAIN": (660.0, 400.0, -100.0, 60.0, -100.0)}
"""Lines that are not full: whole length, then dashes and gaps in turn. [mm]"""
LAYERS = {
    "SITE_WALLS": (50, "Continuous"),
    "SITE_DOORS": (25, "Continuous"),
    "SITE_BOUNDARY": (25, "CHAIN"),
    "SITE_TIE_INS": (25, "DASH"),
    "SITE_DRAINS": (35, "Continuous"),
    "SITE_COVERS": (35, "Continuous"),
    "SITE_SERVICES": (25, "CHAIN"),
    "SITE_TREES": (25, "Continuous"),
    "GROUND_SPOTS": (13, "Continuous"),
    "PAVING_OUTLINE": (50, "Continuous"),
    "PAVING_HOLES": (35, "Continuous"),
    "PIECES_WHOLE": (13, "Continuous"),
    "PIECES_CUT": (18, "Continuous"),
    "PIECES_SLIVER": (25, "Continuous"),
    "MOVEMENT_JOINTS": (35, "DASH"),
    "PIECES_NUMBERS": (13, "Continuous"),
    "LEVELS_FINISHED": (18, "Continuous"),
    "LEVELS_FALLS": (18, "Continuous"),
    "STEPS": (50, "Continuous"),
    "WATER_PARTS": (13, "Continuous"),
    "DIG_EDGE": (25, "DASH"),
    "PEGS": (25, "Continuous"),
    "STRINGS": (18, "DASH"),
    "AS_LAID": (18, "Continuous"),
    "SIZES": (13, "Continuous"),
}
"""Layers with their line weights and lines. [1/100 mm]"""
_UPRIGHT_MM = 1.0
"""A line that runs less far across is upright. [mm]"""
_CONTROL = re.compile("[\\x00-\\x1f\\x7f-\\x9f\\u2028\\u2029]+")
_CODED = re.compile(r"\\([Uu]\+|[Mm]\+)")


def plain(text: str) -> str:
    r"""Return words of the user so that a drawing program shows them as they are and obeys none of them.

    A line break would end the entry in the file, ``%%``, ``^`` and ``\U+`` begin codes.

    >>> plain("50%%d ^J")
    '50%%%%%%d ^ J'
    """
    text = _CONTROL.sub(" ", text)
    text = _CODED.sub(r"\\ \1", text)
    return text.replace("^", "^ ").replace("%%", "%%%%%%")


class Space:
    """The model space of a drawing, where a millimetre is a millimetre of the site."""

    def __init__(self, space: Modelspace) -> None:
        self._space = space

    def line(self, points: tuple[XY, ...], layer: str, *, closed: bool = False) -> None:
        """Add a line through points."""
        self._space.add_lwpolyline(points, close=closed, dxfattribs={"layer": layer})

    def shape(self, shape: Shape, layer: str) -> None:
        """Add the rings of a shape."""
        for ring in (shape.outer, *shape.holes):
            self.line(ring, layer, closed=True)

    def ring(self, ring: Ring, layer: str) -> None:
        """Add an outline with its arcs as arcs."""
        points = []
        for side in ring.sides:
            bulge = side.start.rise_mm / (side.chord_mm / 2.0) if side.chord_mm else 0.0
            points.append((*side.start.xy, bulge))
        self._space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})

    def circle(self, centre: XY, radius_mm: float, layer: str) -> None:
        """Add a circle."""
        self._space.add_circle(centre, radius_mm, dxfattribs={"layer": layer})

    def point(self, at: XYZ, layer: str) -> None:
        """Add a point in space: its height is its level."""
        self._space.add_point(at, dxfattribs={"layer": layer})

    def text(self, text: str, at: XY, layer: str, height_mm: float, *, middle: bool = False) -> None:
        """Add words at a point, or about it."""
        words = self._space.add_text(plain(text), height=height_mm, dxfattribs={"layer": layer})
        words.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER if middle else TextEntityAlignment.LEFT)

    def size(self, start: XY, end: XY, off_mm: float, layer: str) -> None:
        """Add a size as real geometry, off to the left of the way from start to end where it is positive."""
        if end[0] < start[0] - _UPRIGHT_MM or (abs(end[0] - start[0]) <= _UPRIGHT_MM and end[1] < start[1]):
            # read from the foot or from the right
            start, end, off_mm = end, start, -off_mm
        size = self._space.add_aligned_dim(start, end, off_mm, dimstyle="PLAN", dxfattribs={"layer": layer})
        size.render()
