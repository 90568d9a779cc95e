"""Templates at true size: cut pieces laid out over A4 sheets that are stuck together at crosses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.affinity import translate

from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, Path, Scene, Sign, Symbol, Words
from pavewright.drawing._type import MIN_TYPE_MM, width_of
from pavewright.laying import curve_in_its_box, template_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.drawing._scene import Element, Stroke
    from pavewright.laying import LaidArea, Piece

_STEP_MM = (170.0, 190.0)
"""From cross to cross: what a sheet adds across and up. [mm]"""
_LAP_MM = 5.0
"""A sheet shows this much of its neighbours beyond its crosses, to stick them by. [mm]"""
_FOOT_MM = 14.0
"""Room under a sheet for its words and its measure. [mm]"""
_MEASURE_MM = 100.0
"""Length of the measure by which the print is checked. [mm]"""
_ABOUT_MM = 25.0
"""So much of a piece is shown beyond its curve, for its straight sides to be laid against. [mm]"""
_SAME_MM = 0.5
"""Sizes this near to each other are the same. [mm]"""
_MAX_NAMES = 2
"""A sheet of more pieces than this is called by their count."""
_EVERY_MM = 100.0
"""Offsets are not drawn at true size; any step does. [mm]"""
_TYPE_MM, _SMALL_MM = 3.2, MIN_TYPE_MM
_HATCH_MM, _RIM_MM = 3.0, 4.0
"""From fine line to fine line, and how far they reach into what is kept. [mm]"""
_NEAR_MM = 12.0
"""How far along a seam the number of the neighbour stands. [mm]"""
_APART_MM, _UNDER_MM = 5.0, 5.0
"""Room between small pieces, and under one for its number. [mm]"""


@dataclass(frozen=True, slots=True)
class TrueSizeSheet:
    """One sheet of templates at true size.

    Attributes:
        title: What it shows, and which of how many sheets of a piece it is.
        pieces: Area and number of each piece on it.
        scene: The drawing, at 1:1.
    """

    title: str
    pieces: tuple[tuple[str, int], ...]
    scene: Scene


def true_size_sheets(pieces: Sequence[tuple[LaidArea, Piece]]) -> tuple[TrueSizeSheet, ...]:
    """Return sheets of curved pieces at true size: large ones over several sheets each, small ones several to a sheet.

    Only what lies about the curve is drawn: the straight sides are marked by their sizes. A piece that takes fewer
    sheets when turned a quarter is turned. Each piece is seen from above.

    Args:
        pieces: Pieces with a curve, in the order in which they are wanted.
    """
    made: list[TrueSizeSheet] = []
    shelves: list[_Shelves] = []
    for laid, piece in pieces:
        outline = _Outline.of(laid, piece)
        if outline.sheets == (1, 1):
            if not any(each.take(outline) for each in shelves):
                shelves.append(_Shelves())
                shelves[-1].take(outline)
        else:
            made += _over_sheets(outline)
    return (*made, *(each.sheet() for each in shelves))


@dataclass(frozen=True, slots=True)
class _Outline:
    """What lies about the curve of a piece, its lower left corner in the origin. [mm].

    Attributes:
        area: Name of the area.
        number: Number of the piece.
        size: Size of the piece and what it is cut from, in words.
        part: Which part of it is shown, in words; empty for all of it.
        wide: Width of what is shown. [mm]
        high: Its height. [mm]
        kept: The piece.
        edge: Its edge about the curve.
    """

    area: str
    number: int
    size: str
    part: str
    wide: float
    high: float
    kept: shapely.Geometry
    edge: shapely.Geometry

    @classmethod
    def of(cls, laid: LaidArea, piece: Piece) -> _Outline:
        """Return what lies about the curve of a piece, turned a quarter where that saves sheets."""
        template = template_of(laid, piece, _EVERY_MM)
        whole = shapely.Polygon(template.rings_mm[0], template.rings_mm[1:])
        bows = curve_in_its_box(laid, piece)
        curve = shapely.MultiLineString(bows) if bows else whole.boundary
        x1, y1, x2, y2 = (float(each) for each in shapely.bounds(curve))
        around = shapely.box(
            max(0.0, x1 - _ABOUT_MM),
            max(0.0, y1 - _ABOUT_MM),
            min(template.along_mm, x2 + _ABOUT_MM),
            min(template.across_mm, y2 + _ABOUT_MM),
        )
        left, low, right, high = around.bounds
        kept, edge = (
            shapely.transform(shapely.intersection(each, around), lambda points: points - (left, low))
            for each in (whole, shapely.intersection(whole.boundary, shapely.buffer(curve, _ABOUT_MM)))
        )
        size, wide, tall = f"{template.along_mm:.1f} × {template.across_mm:.1f} mm", right - left, high - low
        part = ""
        if wide < template.along_mm - _SAME_MM or tall < template.across_mm - _SAME_MM:
            part = f"Shown: {left:.1f} to {right:.1f} along, {low:.1f} to {high:.1f} across. "
        if math.prod(_sheets(tall, wide)) < math.prod(_sheets(wide, tall)):
            kept, edge = (
                shapely.transform(each, lambda points: points[:, ::-1] * (-1.0, 1.0) + (tall, 0.0))
                for each in (kept, edge)
            )
            wide, tall = tall, wide
        return cls(laid.area, piece.number, f"{size} of {piece.unit}", part, wide, tall, kept, edge)

    @property
    def name(self) -> str:
        """Area and number."""
        return f"{self.area}, piece {self.number}"

    @property
    def sheets(self) -> tuple[int, int]:
        """Sheets across and up."""
        return _sheets(self.wide, self.high)


class _Shelves:
    """A sheet with rows of small pieces, filled from its top."""

    def __init__(self) -> None:
        self._elements: list[Element] = []
        self._pieces: list[tuple[str, int]] = []
        self._names: list[str] = []
        self._left, _, _, self._top = _window((0, 0))
        self._high = 0.0

    def take(self, outline: _Outline) -> bool:
        """Place a piece if there is room for it, with its number under it."""
        wide = max(outline.wide, width_of(outline.name, _SMALL_MM))
        left, low, right, _ = _window((0, 0))
        if self._high and self._left + wide > right:
            self._left, self._top, self._high = left, self._top - self._high - _APART_MM, 0.0
        foot = self._top - outline.high
        if self._pieces and foot - _UNDER_MM < low:
            return False
        kept, edge = (translate(each, self._left, foot) for each in (outline.kept, outline.edge))
        self._elements += _drawn(kept, edge, (0, 0))
        self._elements.append(Words((self._left, foot - _UNDER_MM / 2.0), outline.name, _SMALL_MM, "start"))
        self._pieces.append((outline.area, outline.number))
        self._names.append(outline.name)
        self._left += wide + _APART_MM
        self._high = max(self._high, outline.high + _UNDER_MM)
        return True

    def sheet(self) -> TrueSizeSheet:
        """Return the sheet."""
        title = "; ".join(self._names) if len(self._names) <= _MAX_NAMES else f"{len(self._names)} small pieces"
        return TrueSizeSheet(title, tuple(self._pieces), _scene(title, "Seen from above.", self._elements, (0, 0)))


def _sheets(wide_mm: float, high_mm: float) -> tuple[int, int]:
    """Return sheets across and up."""
    across, up = (
        max(1, math.ceil((size - 2.0 * _LAP_MM) / step))
        for size, step in zip((wide_mm, high_mm), _STEP_MM, strict=True)
    )
    return across, up


def _over_sheets(outline: _Outline) -> Iterator[TrueSizeSheet]:
    """Give the sheets of a large piece that its outline crosses, from the lower left one to the right, then up."""
    columns, rows = outline.sheets
    # It stands in the middle of its sheets, so that no line of it falls on the very rim.
    sides = zip((columns, rows), _STEP_MM, (outline.wide, outline.high), strict=True)
    shift = tuple((count * step - side) / 2.0 for count, step, side in sides)
    kept, edge = (translate(each, *shift) for each in (outline.kept, outline.edge))
    words = f"{outline.part}Piece {outline.size}, seen from above"
    places = [(column, row) for row in range(rows) for column in range(columns)]
    wanted = [at for at in places if shapely.intersects(edge, shapely.box(*_window(at)))]
    numbers = {at: number for number, at in enumerate(wanted, start=1)}
    for at, number in numbers.items():
        title = f"{outline.name}: sheet {number} of {len(numbers)}"
        elements = (*_drawn(kept, edge, at), *_joins(at, numbers))
        yield TrueSizeSheet(title, ((outline.area, outline.number),), _scene(title, words, elements, at))


def _window(at: tuple[int, int]) -> tuple[float, float, float, float]:
    """Return what a sheet shows: its crosses and the lap beyond them. [mm]."""
    x, y = at[0] * _STEP_MM[0], at[1] * _STEP_MM[1]
    return x - _LAP_MM, y - _LAP_MM, x + _STEP_MM[0] + _LAP_MM, y + _STEP_MM[1] + _LAP_MM


def _drawn(kept: shapely.Geometry, edge: shapely.Geometry, at: tuple[int, int]) -> Iterator[Element]:
    """Give the outline of a piece within a sheet, with fine lines inside its rim: what is kept."""
    window = shapely.box(*_window(at))
    yield from _paths(shapely.intersection(edge, window), MEDIUM)
    x1, y1, x2, y2 = _window(at)
    high = y2 - y1
    starts = (x1 - high + step * _HATCH_MM for step in range(math.ceil((x2 - x1 + high) / _HATCH_MM)))
    rays = shapely.MultiLineString([[(x, y1), (x + high, y2)] for x in starts])
    rim = shapely.intersection(kept, shapely.buffer(edge, _RIM_MM))
    yield from _paths(shapely.intersection(rays, shapely.intersection(rim, window)), HAIR)


def _paths(lines: shapely.Geometry, stroke: Stroke) -> Iterator[Path]:
    for part in shapely.get_parts(shapely.line_merge(lines)):
        if isinstance(part, shapely.LineString) and part.length > 0.0:
            yield Path(tuple((float(x), float(y)) for x, y in part.coords), stroke)


def _joins(at: tuple[int, int], numbers: Mapping[tuple[int, int], int]) -> Iterator[Element]:
    """Give the crosses of a sheet, and dashed lines with the neighbour's number where another sheet is stuck on."""
    column, row = at
    x, y = column * _STEP_MM[0], row * _STEP_MM[1]
    right, top = x + _STEP_MM[0], y + _STEP_MM[1]
    for corner in ((x, y), (right, y), (right, top), (x, top)):
        yield Symbol(corner, Sign.CROSS, 6.0)
    neighbours = (
        ((column - 1, row), (x, y), (x, top), (x + 3.0, y + _NEAR_MM), 90.0),
        ((column + 1, row), (right, y), (right, top), (right - 3.0, y + _NEAR_MM), 90.0),
        ((column, row - 1), (x, y), (right, y), (x + _NEAR_MM, y + 3.0), 0.0),
        ((column, row + 1), (x, top), (right, top), (x + _NEAR_MM, top - 3.0), 0.0),
    )
    for other, start, end, where, turn in neighbours:
        if other in numbers:
            yield Path((start, end), DASHED)
            yield Words(where, f"to sheet {numbers[other]}", _SMALL_MM, "start", turn_deg=turn, white=True)


def _scene(title: str, words: str, elements: Sequence[Element], at: tuple[int, int]) -> Scene:
    x1, y1, x2, y2 = _window(at)
    foot = y1 - _FOOT_MM / 2.0
    end = x1 + _MEASURE_MM
    measure: tuple[Element, ...] = (
        Path(((x1, foot), (end, foot)), MEDIUM),
        Path(((x1, foot - 2.0), (x1, foot + 2.0)), MEDIUM),
        Path(((end, foot - 2.0), (end, foot + 2.0)), MEDIUM),
        Words((end + 3.0, foot), f"must measure {_MEASURE_MM:.0f} mm on the paper", _SMALL_MM, "start"),
        Words((x1, foot - 5.0), words, _TYPE_MM, "start"),
    )
    return Scene(
        name="template",
        title=title,
        elements=(*elements, *measure),
        bounds_mm=(x1, y1 - _FOOT_MM, x2, y2),
        scale=1,
        about=f"{title}, at true size. {words}.",
    )
