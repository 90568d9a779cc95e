"""Setting out in pictures: the plan of pegs, and how far down from the string each layer lies."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, HAIR, THICK, THIN, Arrow, Hatch, Path, Scene, Sign, Symbol
from pavewright.drawing._sheet import Sheet
from pavewright.drawing._site_parts import draw_bands, draw_services, draw_site, middle_of, outlines, site_points
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import BOLD_PEN, HIGH_MM, WIDE_MM, Board, Pen
from pavewright.drawing.pictures._words import WORDS
from pavewright.job import ServiceKind
from pavewright.setting_out import HeightOf, PegRole, TapeKind
from pavewright.writing import length_mark, now, size_mark

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg

SERVICE_SIGNS: dict[ServiceKind, Callable[[Pen], None]] = {
    ServiceKind.ELECTRICITY: signs.flash,
    ServiceKind.GAS: signs.flame,
    ServiceKind.OIL: signs.flame,
    ServiceKind.WATER: signs.drop,
    ServiceKind.DRAIN: signs.pipe,
    ServiceKind.TELECOM: signs.wire,
    ServiceKind.UNKNOWN: signs.unknown,
}
"""The sign of each kind of service."""
_AIR_MM = 26.0
"""What a plan takes round its points on paper. [mm]"""
_NUMBER_MM, _HEAD_MM, _ROW_MM = 4.2, 34.0, 7.6
"""Height of a number on the plan; of the head of the table and of its rows. [mm]"""
_SERVICE_MM = 7.0
"""Size of the sign of a service on paper. [mm]"""


def setting_out_pictures(plan: Plan) -> tuple[Scene, ...]:
    """Return the plan of pegs and the table of heights below the string."""
    return (_pegs(plan), *_heights(plan))


def _pegs(plan: Plan) -> Scene:
    out, site = plan.setting_out, plan.survey.site
    sheet = filled([*site_points(plan.survey), *(peg.at for peg in out.pegs)], HIGH_MM)
    draw_bands(sheet, plan)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, THIN))
    draw_site(sheet, site)
    draw_services(sheet, site)
    places = {peg.name: peg.at for peg in out.pegs}
    taped = [each for each in out.checks if each.kind in {TapeKind.SIDE, TapeKind.DIAGONAL, TapeKind.BASE}]
    sheet.on("diagonals").add(
        *(Path((each.start_at, each.end_at), HAIR) for each in taped if each.kind is TapeKind.DIAGONAL)
    )
    sheet.on("strings").add(*(Path((places[each.start], places[each.end]), DASHED) for each in out.strings))
    sheet.on("base").add(*(Path((line.start_at, line.end_at), THICK) for line in out.base_lines))
    sheet.lines_done()
    _signs_of_services(sheet, plan)
    for peg in out.pegs:
        _peg(sheet, peg)
    for each in taped:
        sheet.on("sizes").write_along(each.start_at, each.end_at, length_mark(each.expected_mm), 3.2)
    # a number without room stands in the table of heights
    return bare(sheet, "pictures-pegs", WORDS.setting_out, WORDS.plan_of_pegs)


def filled(points: list[XY], high_mm: float) -> Sheet:
    """Return a sheet on which a plan is as large as it can be in a height, at whatever scale. [mm]."""
    xs, ys = zip(*points, strict=True)
    wide, high = WIDE_MM - _AIR_MM, high_mm - _AIR_MM
    return Sheet(points, scale=math.ceil(max((max(xs) - min(xs)) / wide, (max(ys) - min(ys)) / high, 1.0)))


def bare(sheet: Sheet, name: str, title: str, about: str, *, rim_mm: float = 0.0) -> Scene:
    """Return a plan without key, scale or north: its sizes stand on it in numbers.

    Args:
        sheet: The plan.
        name: Name of its file.
        title: Its title.
        about: What it shows.
        rim_mm: What is taken off all round it on paper. [mm]
    """
    off = sheet.mm(rim_mm)
    x1, _, x2, y2 = sheet.bounds
    bounds = x1 + off, sheet.field[1] + off, x2 - off, y2 - off
    return Scene(name, title, tuple(sheet.elements), bounds, sheet.scale, about)


def _signs_of_services(sheet: Sheet, plan: Plan) -> None:
    sheet.on("services")
    for placed in plan.survey.site.services:
        at = middle_of(*placed.points[:2]) if len(placed.points) > 1 else placed.points[0]
        half = sheet.mm(_SERVICE_MM) / 2.0
        pen = Pen([], (at[0] - half, at[1] - half), sheet.mm(_SERVICE_MM / 10.0))
        pen.disc((5.0, 5.0), 6.4)
        SERVICE_SIGNS[placed.service.kind](pen)
        sheet.add(*pen.drawn)
        sheet.keep_clear(at, _SERVICE_MM * 1.3)


def _peg(sheet: Sheet, peg: Peg) -> None:
    """Draw a peg with its number; a crossed ring where no pin is driven, and the way to where one is."""
    sheet.on("pegs")
    if peg.no_pin is not None and peg.no_pin.elsewhere is not None:
        sheet.add(Arrow(peg.at, peg.no_pin.elsewhere))
    sign = Sign.STOP if peg.no_pin is not None else Sign.BLOCK if peg.role is PegRole.CORNER else Sign.RING
    sheet.add(Symbol(peg.at, sign, 3.0))
    sheet.keep_clear(peg.at, 3.0)
    sheet.label(peg.at, str(peg.number), _NUMBER_MM, bold=True)


def _heights(plan: Plan) -> tuple[Scene, ...]:
    """Return how far down each layer lies below the string, by peg."""
    used = {height.layer for peg in _measured(plan) for height in peg.heights}
    layers = [each for each in HeightOf if each in used]
    board = Board("pictures-heights", WORDS.setting_out, WORDS.heights)
    wide = (WIDE_MM - 30.0) / max(len(layers), 1)
    room = 0.0
    for peg in _measured(plan):
        if room < _ROW_MM:
            _head(board.row(_HEAD_MM), layers, wide)
            room = HIGH_MM - _HEAD_MM
        _row(board.row(_ROW_MM), peg, layers, wide)
        room -= _ROW_MM
    return board.scenes()


def _measured(plan: Plan) -> list[Peg]:
    """Return the pegs under whose string something is measured down."""
    return [peg for peg in plan.setting_out.pegs if peg.heights and peg.role is not PegRole.BASE]


_LAYER_HATCH = {
    HeightOf.FINISHED: Hatch.WHITE,
    HeightOf.BED: Hatch.MORTAR,
    HeightOf.BASE: Hatch.CONCRETE,
    HeightOf.SUB_BASE: Hatch.STONE,
    HeightOf.CAPPING: Hatch.STONE,
    HeightOf.FORMATION: Hatch.GROUND,
}


def _head(pen: Pen, layers: list[HeightOf], wide: float) -> None:
    """Draw over each column the layers, with an arrow from the string down to the one that is meant."""
    signs.peg(pen.moved(8.0, 12.0, 1.4))
    if not now().imperial:  # feet and inches stand beside their numbers
        pen.number((15.0, 5.0), "mm", 4.6)
    for number, _ in enumerate(layers):
        left = 30.0 + number * wide
        thick = min(4.0, 18.0 / len(layers))
        top = 3.0 + thick * len(layers)
        for place, layer in enumerate(layers):
            pen.box((left + 3.0, top - thick * (place + 1)), wide - 8.0, thick, _LAYER_HATCH[layer])
        pen.line((left + 1.0, 30.0), (left + wide - 3.0, 30.0), stroke=DASHED)
        down = top - thick * number
        middle = left + 3.0 + (wide - 8.0) / 2.0
        pen.arrow((middle, 30.0), (middle, down), BOLD_PEN)
        pen.line((left + 3.0, down), (left + wide - 5.0, down), stroke=BOLD_PEN)


def _row(pen: Pen, peg: Peg, layers: list[HeightOf], wide: float) -> None:
    """Draw one row: the number of the peg and how far down each layer lies."""
    pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)
    pen.number((15.0, _ROW_MM / 2.0), str(peg.number), 5.0)
    found = {height.layer: height.down_from_string_mm for height in peg.heights}
    for number, layer in enumerate(layers):
        if layer in found:
            pen.number(
                (30.0 + (number + 0.5) * wide, _ROW_MM / 2.0),
                size_mark(found[layer]),
                4.6,
                bold=False,
                room_mm=wide - 4.0,
            )
