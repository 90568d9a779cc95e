"""The grid of a site: squares named by a letter and a number, the same on every drawing of a job."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing._scene import HAIR, Path, Sign, Symbol, Words
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._labels import Box
    from pavewright.drawing._scene import Element
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

BAND_MM = 6.0
"""Room for the letters over a plan, and for the numbers left of it, on paper. [mm]"""
_BUBBLE_MM = 4.6
"""Ring round a letter or a number on paper. [mm]"""
_TICK_MM = 1.8
"""Ticks between squares on paper. [mm]"""
_PITCHES_MM = (500.0, 1000.0, 1500.0, 2000.0, 2500.0, 3000.0, 4000.0, 5000.0)
"""Sides of squares. [mm]"""
_WIDEST = 24
"""Squares along a side: a larger site has larger squares. [-]"""
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which read as figures."""
SQUARE_PAPER_MM = 150.0
"""Side of a square on paper, at most, where it is drawn by itself. [mm]"""
_SHORT_MM = 6.5
"""Shorter side of a unit on paper, for a number that is read at arm's length. [mm]"""
_SMALLEST, _USUAL_MM = 0.1, 600.0
"""A tenth of all whole units may be smaller; the side of a usual one. [-, mm]"""
SQUARE_SCALES = (25, 20, 10, 5)
"""Scales at which squares are drawn by themselves."""


@dataclass(frozen=True, slots=True)
class SiteGrid:
    """Squares over all that is paved; columns run from the left with letters, rows from the foot with numbers.

    Attributes:
        left_mm: Left edge. [mm]
        low_mm: Lower edge. [mm]
        pitch_mm: Side of a square. [mm]
        columns: How many there are across.
        rows: How many there are up.
        right_mm: Right edge of what is paved. [mm]
        top_mm: Upper edge of that. [mm]
        scale: n of 1:n, the scale at which a square is drawn by itself.
    """

    left_mm: float
    low_mm: float
    pitch_mm: float
    columns: int
    rows: int
    right_mm: float
    top_mm: float
    scale: int

    def square_at(self, at: XY) -> str:
        """Return the name of the square in which a place lies; the nearest one for a place outside all of them."""
        column = min(max(math.floor((at[0] - self.left_mm) / self.pitch_mm), 0), self.columns - 1)
        row = min(max(math.floor((at[1] - self.low_mm) / self.pitch_mm), 0), self.rows - 1)
        return square_name(column, row)

    def box(self, column: int, row: int) -> Box:
        """Return the edges of a square. [mm]."""
        x, y = self.left_mm + column * self.pitch_mm, self.low_mm + row * self.pitch_mm
        return x, y, x + self.pitch_mm, y + self.pitch_mm


def square_name(column: int, row: int) -> str:
    """Return the name of a square.

    >>> square_name(1, 2), square_name(8, 0), square_name(24, 0)
    ('B3', 'J1', 'AA1')
    """
    return f"{column_letters(column)}{row + 1}"


def column_letters(column: int) -> str:
    """Return the letters of a column."""
    many = len(_LETTERS)
    before = column // many
    return (_LETTERS[before - 1] if before else "") + _LETTERS[column % many]


def grid_of(plan: Plan) -> SiteGrid | None:
    """Return the grid of a job; None where nothing is drawn that could be paved.

    A square is as large as it can be drawn by itself with numbers that are read at arm's length.
    """
    boxes = [area.gross.bounds_mm for area in plan.survey.site.areas]
    if not boxes:
        return None
    left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
    wide, high = max(box[2] for box in boxes) - left, max(box[3] for box in boxes) - low
    scale = _scale(plan)
    fitting = [each for each in _PITCHES_MM if each / scale <= SQUARE_PAPER_MM]
    pitch = fitting[-1] if fitting else _PITCHES_MM[0]
    while max(wide, high) / pitch > _WIDEST:
        pitch *= 2.0
    return SiteGrid(left, low, pitch, _count(wide, pitch), _count(high, pitch), left + wide, low + high, scale)


def _scale(plan: Plan) -> int:
    """Return the scale at which all but the smallest pieces have room for a large number."""
    shortest = _shortest_mm(plan)
    return next((each for each in SQUARE_SCALES if shortest / each >= _SHORT_MM), SQUARE_SCALES[-1])


def _shortest_mm(plan: Plan) -> float:
    """Return the shorter side of the smallest units: of those laid where that is known, else of those chosen. [mm]."""
    if plan.laying is not None:
        sides = sorted(
            min(piece.along_mm, piece.across_mm)
            for laid in plan.laying.areas
            for piece in laid.pieces
            if piece.kind is PieceKind.WHOLE
        )
        if sides:
            return sides[int(len(sides) * _SMALLEST)]
    names = {name for area in plan.survey.site.areas for name in area.area.laying.laid_units}
    used = [unit for unit in plan.job.units if unit.name in names]
    return min((min(unit.length_mm, unit.width_mm) for unit in used), default=_USUAL_MM)


def _count(extent_mm: float, pitch_mm: float) -> int:
    return max(1, math.ceil(extent_mm / pitch_mm - 1e-6))


def grid_margins(grid: SiteGrid, field: Box, bounds: Box, scale: int) -> Iterator[Element]:
    """Give letters over a plan, numbers left of it and ticks on all four sides.

    Args:
        grid: The grid.
        field: What of the sheet the plan takes. [mm]
        bounds: The sheet. [mm]
        scale: Millimetres on the site for one on paper.
    """
    x1, y1, x2, y2 = field
    right, top = min(x2, grid.right_mm), min(y2, grid.top_mm)
    every = max(1, math.ceil((_BUBBLE_MM + 0.6) * scale / grid.pitch_mm))
    middle, apart = BAND_MM / 2.0 * scale, (_BUBBLE_MM + 0.4) * scale
    before = -math.inf
    for column in range(grid.columns + 1):
        x = grid.left_mm + column * grid.pitch_mm
        if x1 <= x <= x2:
            yield from _ticks(((x, y2), (x, y1)), (0.0, _TICK_MM * scale))
        if column < grid.columns and column % every == 0:
            before = max((x + min(x + grid.pitch_mm, right)) / 2.0, before + apart)
            yield from bubble((before, bounds[3] - middle), column_letters(column))
    before = -math.inf
    for row in range(grid.rows + 1):
        y = grid.low_mm + row * grid.pitch_mm
        if y1 <= y <= y2:
            yield from _ticks(((x1, y), (x2, y)), (-_TICK_MM * scale, 0.0))
        if row < grid.rows and row % every == 0:
            before = max((y + min(y + grid.pitch_mm, top)) / 2.0, before + apart)
            yield from bubble((bounds[0] + middle, before), str(row + 1))


def bubble(at: XY, text: str, size_mm: float = _BUBBLE_MM) -> tuple[Element, ...]:
    """Return a ring with a letter or a number in it."""
    return Symbol(at, Sign.RING, size_mm), Words(at, text, MIN_TYPE_MM, bold=True)


def _ticks(ends: tuple[XY, XY], reach: XY) -> Iterator[Element]:
    """Give a tick at both ends of a line of the grid."""
    for x, y in ends:
        yield Path(((x, y), (x + reach[0], y + reach[1])), HAIR)
