"""Layers of the DXF drawing, and how things are put on them."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from ezdxf.enums import TextEntityAlignment

from pavewright.writing import feet, now, told

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

    from pavewright.geometry import XY, XYZ, Ring, Shape

LINES = {"DASH": (320.0, 200.0, -120.0), "CHAIN": (660.0, 400.0, -100.0, 60.0, -100.0)}
"""Lines that are not full: whole length, then dashes and gaps in turn. [mm]"""
LAYERS = {
    "SITE_WALLS": (50, "Continuous", 7),
    "SITE_DOORS": (25, "Continuous", 8),
    "SITE_BOUNDARY": (25, "CHAIN", 6),
    "SITE_TIE_INS": (25, "DASH", 34),
    "SITE_DRAINS": (35, "Continuous", 5),
    "SITE_COVERS": (35, "Continuous", 134),
    "SITE_SERVICES": (25, "CHAIN", 1),
    "SERVICE_BANDS": (18, "DASH", 1),
    "SITE_TREES": (25, "Continuous", 94),
    "GROUND_SPOTS": (13, "Continuous", 34),
    "PAVING_OUTLINE": (50, "Continuous", 7),
    "PAVING_HOLES": (35, "Continuous", 7),
    "PIECES_WHOLE": (13, "Continuous", 8),
    "PIECES_CUT": (18, "Continuous", 30),
    "PIECES_SLIVER": (25, "Continuous", 1),
    "MORTAR_FILLS": (25, "Continuous", 30),
    "UNDER_STEPS": (25, "DASH", 7),
    "MOVEMENT_JOINTS": (35, "DASH", 42),
    "PIECES_NUMBERS": (13, "Continuous", 7),
    "LEVELS_FINISHED": (18, "Continuous", 5),
    "LEVELS_FALLS": (18, "Continuous", 5),
    "STEPS": (50, "Continuous", 7),
    "WATER_PARTS": (13, "Continuous", 134),
    "DRAIN_RUNS": (35, "DASH", 5),
    "SOAKAWAYS": (35, "DASH", 134),
    "GRID": (9, "CHAIN", 8),
    "DIG_EDGE": (25, "DASH", 32),
    "PEGS": (25, "Continuous", 94),
    "NO_PIN": (35, "Continuous", 1),
    "BASE_LINE": (50, "Continuous", 6),
    "STRINGS": (18, "DASH", 42),
    "AS_LAID": (18, "Continuous", 6),
    "SIZES": (13, "Continuous", 8),
    "SHEET": (35, "Continuous", 7),
    "SHEET_WINDOW": (13, "Continuous", 8),
}
"""Layers with their line weights, lines and colours by index: what is on a layer takes its colour. [1/100 mm, -, -]"""
UNPLOTTED = frozenset({"SHEET_WINDOW"})
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

    def __init__(self, space: Modelspace, scale: int) -> None:
        """Take the space and the scale of its sheets, at which words have their height on paper."""
        self._space, self.scale = space, scale

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

    def cross(self, at: XY, half_mm: float, layer: str) -> None:
        """Add a cross laid on its side."""
        x, y = at
        self.line(((x - half_mm, y - half_mm), (x + half_mm, y + half_mm)), layer)
        self.line(((x - half_mm, y + half_mm), (x + half_mm, y - half_mm)), layer)

    def point(self, at: XYZ, layer: str) -> None:
        """Add a point in space: its height is its level."""
        self._space.add_point(at, dxfattribs={"layer": layer})

    def text(self, text: str, at: XY, layer: str, height_mm: float, *, middle: bool = False) -> None:
        """Add words at a point, or about it; their height is that of capitals on paper."""
        words = self._space.add_text(plain(told(text)), height=height_mm * self.scale, dxfattribs={"layer": layer})
        words.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER if middle else TextEntityAlignment.LEFT)

    def size(self, start: XY, end: XY, off_mm: float, layer: str) -> None:
        """Add a size as real geometry, off to the left of the way from start to end where it is positive."""
        if end[0] < start[0] - _UPRIGHT_MM or (abs(end[0] - start[0]) <= _UPRIGHT_MM and end[1] < start[1]):
            # read from the foot or from the right
            start, end, off_mm = end, start, -off_mm
        # the file is in millimetres: where feet are read they stand beside, and the measured size stays live
        text = f"<> mm ({feet(round(math.dist(start, end)))})" if now().imperial else "<>"
        size = self._space.add_aligned_dim(start, end, off_mm, text=text, dimstyle="PLAN", dxfattribs={"layer": layer})
        size.render()
