"""A scene: what is drawn, in true millimetres of the site, with text and symbols in millimetres of paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY

SCALES = (2, 5, 10, 20, 25, 50, 75, 100, 150, 200, 250, 500, 1000)
"""Scales that a scale rule has, or halves of them."""


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
    """A line through points of the site."""

    points: tuple[XY, ...]
    stroke: Stroke
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Region:
    """A shape filled with a hatch: outer ring first, then holes.

    Attributes:
        rings: Rings of points. [mm]
        hatch: Name of the hatch, or ``none``, ``white`` or ``grey``.
        stroke: Pen of the outline; None for no outline.
    """

    rings: tuple[tuple[XY, ...], ...]
    hatch: str
    stroke: Stroke | None = None


@dataclass(frozen=True, slots=True)
class Words:
    """Text at a point of the site.

    Attributes:
        at: Where. [mm]
        text: What.
        height_mm: Height of the type on paper. [mm]
        anchor: ``start``, ``middle`` or ``end``.
        bold: Whether it is bold.
        turn_deg: Turned anticlockwise. [deg]
        white: Whether a white rim keeps it clear of lines.
    """

    at: XY
    text: str
    height_mm: float
    anchor: str = "middle"
    bold: bool = False
    turn_deg: float = 0.0
    white: bool = False


@dataclass(frozen=True, slots=True)
class Symbol:
    """A small sign of fixed size on paper: ``cross``, ``ring``, ``dot``, ``square``, ``block`` or ``triangle``."""

    at: XY
    kind: str
    size_mm: float


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow from a point to a point of the site."""

    start: XY
    end: XY
    stroke: Stroke = MEDIUM


Element = Path | Region | Words | Symbol | Arrow


@dataclass(frozen=True)
class Scene:
    """A drawing at a scale.

    Attributes:
        name: File name without its ending.
        title: Title in words.
        elements: What is drawn, in order, later over earlier.
        bounds_mm: Least x, least y, greatest x, greatest y that the drawing shows. [mm]
        scale: n of 1:n.
        about: One sentence on what the drawing shows, for people who cannot see it.
    """

    name: str
    title: str
    elements: tuple[Element, ...]
    bounds_mm: tuple[float, float, float, float]
    scale: int
    about: str

    @property
    def paper_mm(self) -> tuple[float, float]:
        """Width and height on paper. [mm]."""
        x1, y1, x2, y2 = self.bounds_mm
        return (x2 - x1) / self.scale, (y2 - y1) / self.scale


def choose_scale(wide_mm: float, high_mm: float, frame_mm: tuple[float, float]) -> int:
    """Return the largest scale at which a drawing fits its frame.

    >>> choose_scale(9000.0, 8000.0, (380.0, 240.0))
    50
    """
    for scale in SCALES:
        if wide_mm / scale <= frame_mm[0] and high_mm / scale <= frame_mm[1]:
            return scale
    return SCALES[-1]
