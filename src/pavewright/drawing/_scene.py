"""A scene: what is drawn, in true millimetres of the site, with text and symbols in millimetres of paper."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.geometry import Corner, Ring

if TYPE_CHECKING:
    from pavewright.geometry import XY

SCALES = (5, 10, 20, 25, 50, 100, 200, 250, 500)
"""Scales of drawings that a scale rule has."""
_BEYOND = (1000, 2500, 5000, 10000, 25000, 50000)
"""Only for a site that fits no sheet otherwise."""


class Sign(StrEnum):
    """Small signs of fixed size on paper."""

    CROSS = "cross"
    RING = "ring"
    DOT = "dot"
    SQUARE = "square"
    BLOCK = "block"
    TRIANGLE = "triangle"
    STOP = "stop"


class Hatch(StrEnum):
    """What fills a shape: lines that show what it is without colour, or a plain fill."""

    NONE = "none"
    WHITE = "white"
    GREY = "grey"
    BLACK = "black"
    CUT = "cut"
    SLIVER = "sliver"
    FILLED = "filled"
    UNDER = "under"
    WALL = "wall"
    CONCRETE = "concrete"
    MORTAR = "mortar"
    STONE = "stone"
    SAND = "sand"
    GROUND = "ground"
    BAND = "band"
    WATER_1 = "water1"
    WATER_2 = "water2"
    WATER_3 = "water3"
    WATER_4 = "water4"
    WATER_5 = "water5"
    WATER_6 = "water6"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A pen: width and dashes in millimetres of paper.

    Attributes:
        width_mm: Width. [mm]
        dash_mm: Lengths of dash and gap in turn; empty for a full line. [mm]
    """

    width_mm: float
    dash_mm: tuple[float, ...] = ()


HAIR = Stroke(0.13)
THIN = Stroke(0.18)
MEDIUM = Stroke(0.3)
THICK = Stroke(0.6)
DASHED = Stroke(0.25, (2.0, 1.2))
CHAIN = Stroke(0.25, (4.0, 1.0, 0.6, 1.0))
DOTTED = Stroke(0.25, (0.3, 1.0))


@dataclass(frozen=True, slots=True)
class Path:
    """A line through points of the site, straight or in arcs.

    Attributes:
        points: Its points. [mm]
        stroke: Its pen.
        closed: Whether it runs back to its first point.
        rises_mm: Rise at mid-chord of the arc that leaves each point, positive to the right of the direction of travel,
            zero for a straight side; empty where every side is straight. [mm]
        layer: Name of its layer.
        leads: Whether it leads from words to what they are of: it crosses no words and no other such line.
    """

    points: tuple[XY, ...]
    stroke: Stroke
    closed: bool = False
    rises_mm: tuple[float, ...] = ()
    layer: str = ""
    leads: bool = False

    def flat(self) -> tuple[XY, ...]:
        """Return the line as points with its arcs flattened, the first point repeated where it is closed."""
        if not self.rises_mm:
            return (*self.points, self.points[0]) if self.closed else self.points
        corners = zip(self.points, self.rises_mm, strict=True)
        flat = Ring(tuple(Corner("", x, y, rise) for (x, y), rise in corners)).points()
        return (*flat, flat[0])


@dataclass(frozen=True, slots=True)
class Region:
    """A shape filled with a hatch: outer ring first, then holes.

    Attributes:
        rings: Rings of points. [mm]
        hatch: What fills it.
        stroke: Pen of the outline; None for no outline.
        layer: Name of its layer.
    """

    rings: tuple[tuple[XY, ...], ...]
    hatch: Hatch
    stroke: Stroke | None = None
    layer: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """Text at a point of the site.

    Attributes:
        at: Where, half-way up its capitals. [mm]
        text: What.
        height_mm: Height of the type on paper. [mm]
        anchor: ``start``, ``middle`` or ``end``.
        bold: Whether it is bold.
        turn_deg: Turned anticlockwise. [deg]
        white: Whether a white rim keeps it clear of lines.
        layer: Name of its layer.
    """

    at: XY
    text: str
    height_mm: float
    anchor: str = "middle"
    bold: bool = False
    turn_deg: float = 0.0
    white: bool = False
    layer: str = ""


@dataclass(frozen=True, slots=True)
class ScaleWords:
    """The place where the scale stands in words: whatever scale the drawing is shown at, they are right.

    Attributes:
        at: Where. [mm]
        height_mm: Height of the type on paper. [mm]
        layer: Name of its layer.
        text: What stands there at true size, where it is not the scale of the sheet.
        fitted: What stands there on a picture that is fitted to a screen.
    """

    at: XY
    height_mm: float
    layer: str = ""
    text: str = ""
    fitted: str = "not to scale"


@dataclass(frozen=True, slots=True)
class Symbol:
    """A small sign of fixed size on paper."""

    at: XY
    kind: Sign
    size_mm: float
    layer: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of true size on the site."""

    at: XY
    diameter_mm: float
    stroke: Stroke
    layer: str = ""


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow from a point to a point of the site."""

    start: XY
    end: XY
    stroke: Stroke = MEDIUM
    layer: str = ""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A size between two points, written on a line beside them that ends in ticks.

    Attributes:
        start: From. [mm]
        end: To. [mm]
        off_mm: How far the line stands off on paper, to the left of the way from start to end. [mm]
        text: The size in words.
        height_mm: Height of the type on paper. [mm]
        layer: Name of its layer.
    """

    start: XY
    end: XY
    off_mm: float
    text: str
    height_mm: float = 2.85
    layer: str = ""


Element = Path | Region | Words | ScaleWords | Symbol | Circle | Arrow | Dimension


@dataclass(frozen=True)
class Scene:
    """A drawing at a scale.

    Attributes:
        name: File name without its ending.
        title: Title in words.
        elements: What is drawn, in order, later over earlier.
        bounds_mm: Least x, least y, greatest x, greatest y that the drawing shows. [mm]
        scale: n of 1:n, the scale at which its labels were placed.
        about: One sentence on what the drawing shows, for people who cannot see it.
        scales: Whether its parts have scales of their own, written beside them; its own is then that of the paper.
    """

    name: str
    title: str
    elements: tuple[Element, ...]
    bounds_mm: tuple[float, float, float, float]
    scale: int
    about: str
    scales: bool = False

    @property
    def scale_said(self) -> str:
        """The scale in words."""
        return "scales as written beside each" if self.scales else f"1:{self.scale}"

    @property
    def paper_mm(self) -> tuple[float, float]:
        """Width and height on paper. [mm]."""
        x1, y1, x2, y2 = self.bounds_mm
        return (x2 - x1) / self.scale, (y2 - y1) / self.scale


def choose_scale(extent_mm: tuple[float, float], paper_mm: tuple[float, float]) -> int:
    """Return the largest standard scale at which an extent fits on paper, both as width and height.

    >>> choose_scale((9000.0, 8000.0), (380.0, 240.0))
    50
    """
    for scale in (*SCALES, *_BEYOND):
        if extent_mm[0] / scale <= paper_mm[0] and extent_mm[1] / scale <= paper_mm[1]:
            return scale
    return _BEYOND[-1]
