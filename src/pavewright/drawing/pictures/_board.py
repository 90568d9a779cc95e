"""A board: a picture in millimetres of paper, drawn from its top left, as long as it has to be."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import MEDIUM, Arrow, Element, Hatch, Path, Region, Scene, Stroke, Words
from pavewright.drawing._type import MIN_TYPE_MM, width_of
from pavewright.writing import in_imperial, now, number_text

if TYPE_CHECKING:
    from pavewright.geometry import XY

WIDE_MM, HIGH_MM = 184.0, 226.0
"""What a board takes on an A4 sheet that stands, below its sign. [mm]"""
PEN = Stroke(0.5)
BOLD_PEN = Stroke(1.1)
_ROUND = 28


class Pen:
    """Draws at a place and a size: its own millimetres, y up, are those of the paper or of a site at a scale."""

    def __init__(self, elements: list[Element], at: XY = (0.0, 0.0), size: float = 1.0) -> None:
        """Take the list to draw into, where its origin is and how large its millimetre is."""
        self._elements, self._at, self._size = elements, at, size

    @property
    def drawn(self) -> tuple[Element, ...]:
        """What was drawn so far."""
        return tuple(self._elements)

    def moved(self, x_mm: float, y_mm: float, size: float = 1.0) -> Pen:
        """Return a pen with its origin at a place of this one.

        Args:
            x_mm: East of the origin. [mm]
            y_mm: North of the origin. [mm]
            size: How many millimetres of this one make one of the new. [-]
        """
        return Pen(self._elements, self._xy((x_mm, y_mm)), self._size * size)

    def _xy(self, point: XY) -> XY:
        return self._at[0] + point[0] * self._size, self._at[1] + point[1] * self._size

    def line(self, *points: XY, stroke: Stroke = PEN) -> None:
        """Draw a line."""
        self._elements.append(Path(tuple(map(self._xy, points)), stroke))

    def shape(self, *points: XY, hatch: Hatch = Hatch.WHITE, stroke: Stroke | None = PEN) -> None:
        """Draw a closed shape."""
        self._elements.append(Region((tuple(map(self._xy, points)),), hatch, stroke))

    def box(
        self, corner: XY, wide_mm: float, high_mm: float, hatch: Hatch = Hatch.WHITE, stroke: Stroke | None = PEN
    ) -> None:
        """Draw a rectangle from its lower left corner. [mm]."""
        x, y = corner
        self.shape((x, y), (x + wide_mm, y), (x + wide_mm, y + high_mm), (x, y + high_mm), hatch=hatch, stroke=stroke)

    def disc(self, at: XY, radius_mm: float, hatch: Hatch = Hatch.WHITE, stroke: Stroke | None = PEN) -> None:
        """Draw a disc. [mm]."""
        turns = [2.0 * math.pi * k / _ROUND for k in range(_ROUND)]
        ring = [(at[0] + radius_mm * math.cos(turn), at[1] + radius_mm * math.sin(turn)) for turn in turns]
        self.shape(*ring, hatch=hatch, stroke=stroke)

    def arrow(self, start: XY, end: XY, stroke: Stroke = MEDIUM) -> None:
        """Draw an arrow."""
        self._elements.append(Arrow(self._xy(start), self._xy(end), stroke))

    def becomes(self, at: XY, long_mm: float) -> None:
        """Draw a broad arrow to the right: this becomes that. [mm]."""
        x, y = at
        neck, end = x + long_mm - 4.0, x + long_mm
        self.shape(
            (x, y - 1.0), (neck, y - 1.0), (neck, y - 3.2), (end, y), (neck, y + 3.2), (neck, y + 1.0), (x, y + 1.0),
            hatch=Hatch.BLACK, stroke=None,
        )  # fmt: skip

    def both_ways(self, start: XY, end: XY) -> None:
        """Draw an arrow with two heads, as for a size."""
        middle = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
        self.arrow(middle, start)
        self.arrow(middle, end)

    def number(
        self,
        at: XY,
        text: str,
        height_mm: float,
        anchor: str = "middle",
        *,
        bold: bool = True,
        room_mm: float = math.inf,
    ) -> None:
        """Write a number with its unit, of a height on paper, smaller where its room is less. [mm]."""
        height_mm = max(min(height_mm, height_mm * room_mm / width_of(text, height_mm, bold=bold)), MIN_TYPE_MM)
        self._elements.append(Words(self._xy(at), text, height_mm, anchor, bold))


class Board:
    """Rows of pictures, one below the other, broken into sheets."""

    def __init__(self, name: str, title: str, about: str) -> None:
        """Take the name of its files, its title and what it shows, for who cannot see it."""
        self._name, self._title, self._about = name, title, about
        self._sheets: list[list[Element]] = []
        self._low: list[float] = []

    def row(self, high_mm: float) -> Pen:
        """Return a pen whose origin is the lower left corner of the next row; a new sheet where it has no room."""
        if not self._sheets or self._low[-1] - high_mm < -HIGH_MM:
            self._sheets.append([])
            self._low.append(0.0)
        self._low[-1] -= high_mm
        return Pen(self._sheets[-1], (0.0, self._low[-1]))

    def begins(self) -> bool:
        """Return whether the next row is the first of a board."""
        return not self._sheets

    def scenes(self) -> tuple[Scene, ...]:
        """Return the sheets of it."""
        return tuple(
            Scene(f"{self._name}-{number}", self._title, tuple(drawn), (0.0, low, WIDE_MM, 0.0), 1, self._about)
            for number, (drawn, low) in enumerate(zip(self._sheets, self._low, strict=True), start=1)
        )


def mass_mark(kg: float, decimals: int = 0) -> str:
    """Return a mass as a crew reads it: kilograms, or pounds alone."""
    return in_imperial(kg, "kg") if now().imperial else f"{number_text(kg, decimals)} kg"
