"""Templates of cut pieces, several to a sheet, each in its box with offsets and corners written at it."""

from __future__ import annotations

import itertools
import math
import string
from typing import TYPE_CHECKING

from pavewright.drawing._scene import (
    DASHED,
    HAIR,
    MEDIUM,
    Hatch,
    Path,
    Region,
    Scene,
    Sign,
    Symbol,
    Words,
    choose_scale,
)
from pavewright.drawing._type import MIN_TYPE_MM, box_of, first_clear, width_of
from pavewright.geometry import unit_vector
from pavewright.laying import template_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.drawing._scene import Element
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea, Ordinate, Piece, Template

_COLUMN_MM, _ROOM_MM = 88.0, 205.0
"""Width of a column, and height of a sheet, on paper. [mm]"""
_LARGEST_MM = (70.0, 70.0)
"""Room for the largest piece on paper. [mm]"""
_STEPS_MM = (20.0, 25.0, 50.0, 100.0, 200.0, 500.0)
"""Steps from offset to offset. [mm]"""
_APART_MM = 4.6
"""Offsets stand at least this far apart on paper, so that their sizes can be read. [mm]"""
_TYPE_MM, _TITLE_MM, _LINE_MM = MIN_TYPE_MM, 3.2, 4.0
_LEFT_MM = 8.0
"""Where a box begins in its column on paper. [mm]"""
_UNDER_MM = 4.5
"""Room under a box for the places of the offsets. [mm]"""
_SECOND_MM = 2.8
"""How far under the first a second line of them stands on paper. [mm]"""
_GAP_MM = 5.0
"""Room between one piece and the next on paper. [mm]"""
_NEAR_MM, _FURTHER_MM = 2.6, 5.0
"""How far from a corner its letter stands on paper, and from an inner corner. [mm]"""
_ROUND_DEG = (0.0, 30.0, -30.0, 60.0, -60.0, 90.0, -90.0, 180.0, 150.0, -150.0, 120.0, -120.0)
"""Where round its corner a letter is tried, from its first place on. [deg]"""
_STRAIGHT_ON = 0.05
"""Two directions that all but cancel. [-]"""


def template_scenes(pieces: Sequence[tuple[LaidArea, Piece]]) -> tuple[Scene, ...]:
    """Return the templates of pieces, two to a row, as many rows to a sheet as it takes; one scale for all."""
    if not pieces:
        return ()
    greatest = max(piece.along_mm for _, piece in pieces), max(piece.across_mm for _, piece in pieces)
    scale = choose_scale(greatest, _LARGEST_MM)
    every = next((step for step in _STEPS_MM if step / scale >= _APART_MM), _STEPS_MM[-1])
    blocks = [_Block(template_of(laid, piece, every), laid.area, scale) for laid, piece in pieces]
    sheets: list[list[list[_Block]]] = [[]]
    room = _ROOM_MM
    for start in range(0, len(blocks), 2):
        row = blocks[start : start + 2]
        high = max(block.high_mm for block in row)
        if sheets[-1] and high > room:
            sheets.append([])
            room = _ROOM_MM
        sheets[-1].append(row)
        room -= high
    return tuple(_scene(rows, scale, number, every) for number, rows in enumerate(sheets, start=1))


def _scene(rows: Sequence[Sequence[_Block]], scale: int, number: int, every_mm: float) -> Scene:
    elements: list[Element] = []
    top = 0.0
    for row in rows:
        high = max(block.high_mm for block in row)
        for column, block in enumerate(row):
            elements += block.drawn((column * _COLUMN_MM * scale, top))
        top -= high * scale
    return Scene(
        name=f"templates-{number}",
        title="Templates of cut pieces",
        elements=tuple(elements),
        bounds_mm=(0.0, top, 2.0 * _COLUMN_MM * scale, 0.0),
        scale=scale,
        about=f"Cut pieces in their boxes, seen from above, offsets every {every_mm:g} mm from their lower edge.",
    )


class _Block:
    """One piece with its box, offsets and corners."""

    def __init__(self, template: Template, area: str, scale: int) -> None:
        self._template = template
        self._scale = scale
        self._title = f"{area}, piece {template.piece}"
        self._offsets = [_told(each) for each in template.ordinates]
        over = [] if template.upright else [width_of(words, _TYPE_MM) for words in self._offsets]
        self._over_mm = max(over, default=2.5) + 2.0
        self._lines = _wrapped(
            [
                f"{name} {x:.0f}, {y:.0f}"
                for name, (x, y) in zip(_letters(len(template.corners_mm)), template.corners_mm, strict=True)
            ]
        )
        box = template.across_mm / scale
        # places that would run into each other stand in two lines, turn by turn
        apart = min((b.at_mm - a.at_mm for a, b in itertools.pairwise(template.ordinates)), default=math.inf) / scale
        wide = width_of(f"{template.along_mm:.0f}", _TYPE_MM) + 0.6
        self._second_mm = _SECOND_MM if not template.upright and apart < wide else 0.0
        self._under_mm = _UNDER_MM + self._second_mm
        self.high_mm = 2 * _LINE_MM + self._over_mm + box + self._under_mm + len(self._lines) * _LINE_MM + _GAP_MM

    def drawn(self, corner: XY) -> list[Element]:
        """Return the block drawn with its upper left corner at a place."""
        template, scale = self._template, self._scale
        x, y = corner[0] + _LEFT_MM * scale, corner[1] - _LINE_MM * scale
        size = f"{template.along_mm:.0f} × {template.across_mm:.0f} mm of {template.unit}"
        drawn: list[Element] = [
            Words((corner[0], y), self._title, _TITLE_MM, "start", bold=True),
            Words((corner[0], y - _LINE_MM * scale), size, _TYPE_MM, "start"),
        ]
        foot = y - (_LINE_MM + self._over_mm + _LINE_MM / 2.0) * scale - template.across_mm
        rings = tuple(tuple((x + px, foot + py) for px, py in ring) for ring in template.rings_mm)
        box = (
            (x, foot),
            (x + template.along_mm, foot),
            (x + template.along_mm, foot + template.across_mm),
            (x, foot + template.across_mm),
        )
        drawn += [Region(rings, Hatch.CUT, MEDIUM), Path(box, DASHED, closed=True)]
        offsets = self._ordinates((x, foot))
        drawn += offsets
        drawn += self._corners((x, foot), [box_of(each, scale) for each in offsets if isinstance(each, Words)])
        under = foot - (self._under_mm + _LINE_MM / 2.0) * scale
        drawn += [
            Words((corner[0], under - number * _LINE_MM * scale), line, _TYPE_MM, "start")
            for number, line in enumerate(self._lines)
        ]
        return drawn

    def _ordinates(self, at: XY) -> list[Element]:
        """Return the offsets: a line for each, its place under or left of the box, its sizes at the other end."""
        template, scale = self._template, self._scale
        drawn: list[Element] = []
        reach = template.across_mm if template.upright else template.along_mm
        last = len(template.ordinates) - 1
        for number, (ordinate, words) in enumerate(zip(template.ordinates, self._offsets, strict=True)):
            along = ordinate.at_mm
            for low, high in ordinate.spans_mm:
                ends = ((low, along), (high, along)) if template.upright else ((along, low), (along, high))
                drawn.append(Path(tuple((at[0] + x, at[1] + y) for x, y in ends), HAIR))
            if number == last - 1 and (reach - along) / scale < _APART_MM:
                continue  # its sizes would lie on those of the end; the line is drawn all the same
            place = f"{along:.0f}"
            if template.upright:
                y = at[1] + along
                drawn.append(Words((at[0] - scale, y), place, _TYPE_MM, "end"))
                drawn.append(Words((at[0] + template.along_mm + scale, y), words, _TYPE_MM, "start"))
            else:
                x = at[0] + along
                drawn.append(Words((x, at[1] + template.across_mm + scale), words, _TYPE_MM, "start", turn_deg=90.0))
                under = 2.2 + (self._second_mm if number % 2 else 0.0)
                drawn.append(Words((x, at[1] - under * scale), place, _TYPE_MM))
        return drawn

    def _corners(self, at: XY, taken: list[tuple[float, float, float, float]]) -> list[Element]:
        """Return a dot at each corner and its letter, clear of all others.

        The letter stands inside the piece, at an inner corner outside and further off; where that is taken, round it.
        """
        template = self._template
        drawn: list[Element] = []
        for name, (x, y) in zip(_letters(len(template.corners_mm)), template.corners_mm, strict=True):
            (ux, uy), inner = _between(template, (x, y))
            towards = math.atan2(uy, ux)
            far = (_FURTHER_MM,) if inner else (_NEAR_MM, _FURTHER_MM)
            tried = []
            for off, turn in itertools.product(far, _ROUND_DEG):
                angle = towards + math.radians(turn)
                dx, dy = math.cos(angle) * off * self._scale, math.sin(angle) * off * self._scale
                tried.append(Words((at[0] + x + dx, at[1] + y + dy), name, _TYPE_MM, bold=True, white=True))
            drawn.append(Symbol((at[0] + x, at[1] + y), Sign.DOT, 1.0))
            drawn.append(first_clear(tried, taken, self._scale))
        return drawn


def _between(template: Template, corner: XY) -> tuple[XY, bool]:
    """Return the direction between the two sides that meet in a corner, and whether it is an inner corner."""
    ring = next(ring for ring in template.rings_mm if corner in ring)
    number = ring.index(corner)
    (ax, ay), (bx, by), (cx, cy) = ring[number - 1], corner, ring[(number + 1) % len(ring)]
    back, on = unit_vector((bx, by), (ax, ay)), unit_vector((bx, by), (cx, cy))
    x, y = back[0] + on[0], back[1] + on[1]
    inner = (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < 0.0
    size = math.hypot(x, y)
    # where the sides run on nearly straight there is nothing between them: square to the left then
    return ((x / size, y / size) if size > _STRAIGHT_ON else (-on[1], on[0])), inner and size > _STRAIGHT_ON


def _told(ordinate: Ordinate) -> str:
    """Return the sizes of an offset: only where it ends, if it begins at the edge of the box."""
    spans = [(f"{low:.0f}", f"{high:.0f}") for low, high in ordinate.spans_mm]
    if len(spans) == 1 and spans[0][0] == "0" != spans[0][1]:
        return spans[0][1]
    return ", ".join(f"{low}–{high}" if low != high else f"at {low}" for low, high in spans) or "–"


def _letters(many: int) -> list[str]:
    """Return names of corners: a to z, then a1 and on."""
    names = list(string.ascii_lowercase)
    return [names[k % len(names)] + (str(k // len(names)) if k >= len(names) else "") for k in range(many)]


def _wrapped(words: Sequence[str]) -> list[str]:
    """Return words in lines that a column holds."""
    lines: list[str] = []
    for word in words:
        grown = f"{lines[-1]}; {word}" if lines else word
        if lines and width_of(grown, _TYPE_MM) <= _COLUMN_MM - 3.0:
            lines[-1] = grown
        else:
            lines.append(word)
    return lines
