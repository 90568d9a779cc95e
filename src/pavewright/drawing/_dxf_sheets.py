"""Sheets of the DXF drawing: paper layouts to scale with a title block, each showing the layers that it needs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ezdxf.enums import TextEntityAlignment

from pavewright import units
from pavewright.drawing._dxf_layers import LAYERS, plain
from pavewright.drawing._scene import choose_scale
from pavewright.drawing._type import wrapped
from pavewright.writing import day_text, now, told, worded

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Paperspace

    from pavewright.pipeline import Plan

_PAPER_MM = (420.0, 297.0)
_MARGIN_MM, _BLOCK_MM = 10.0, 38.0
"""Edge of the sheet, height of the title block. [mm]"""
_LINE_MM = 4.2
"""From one line of a note to the next. [mm]"""
_BIG_MM, _TYPE_MM = 4.0, 2.4
_MARKS_MM = 46.0
"""Width of the part of the title block with the scale bar and north. [mm]"""
_BARS_M = (20.0, 10.0, 5.0, 2.0, 1.0, 0.5)
"""Lengths of a scale bar, the longest that fits is taken. [m]"""
_SITE = frozenset(
    {
        *("SITE_WALLS", "SITE_DOORS", "SITE_BOUNDARY", "SITE_TIE_INS", "SITE_DRAINS", "SITE_COVERS", "SITE_TREES"),
        *("PAVING_OUTLINE", "PAVING_HOLES", "STEPS", "SITE_SERVICES", "SERVICE_BANDS", "GRID"),
    }
)
"""Services stand on every sheet: each of them may end up in the hand of somebody who digs."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    title: str
    layers: frozenset[str]


_SHEETS = (
    _Sheet("Setting out", _SITE | {"PEGS", "NO_PIN", "STRINGS", "BASE_LINE", "SIZES"}),
    _Sheet(
        "Laying",
        _SITE
        | {"PIECES_WHOLE", "PIECES_CUT", "PIECES_SLIVER", "PIECES_NUMBERS"}
        | {"MOVEMENT_JOINTS", "MORTAR_FILLS", "UNDER_STEPS"},
    ),
    _Sheet("Dig and levels", _SITE | {"DIG_EDGE", "GROUND_SPOTS", "LEVELS_FINISHED", "LEVELS_FALLS", "NO_PIN"}),
    _Sheet("Drains", _SITE | {"DRAIN_RUNS", "SOAKAWAYS", "DIG_EDGE", "NO_PIN"}),
    _Sheet("Water and as laid", _SITE | {"WATER_PARTS", "LEVELS_FALLS", "AS_LAID"}),
)


def scale_of(bounds_mm: tuple[float, float, float, float]) -> int:
    """Return the largest scale at which everything fits the window of a sheet."""
    x1, y1, x2, y2 = bounds_mm
    return choose_scale((x2 - x1, y2 - y1), _window())


def _window() -> tuple[float, float]:
    return _PAPER_MM[0] - 2.0 * _MARGIN_MM, _PAPER_MM[1] - 2.0 * _MARGIN_MM - _BLOCK_MM


def add_sheets(document: Drawing, plan: Plan, bounds_mm: tuple[float, float, float, float], scale: int) -> None:
    """Add a paper layout for each kind of work, at one scale, with a title block."""
    document.layouts.rename("Layout1", _SHEETS[0].title)
    for number, sheet in enumerate(_SHEETS):
        paper = document.paperspace(sheet.title) if number == 0 else document.layouts.new(sheet.title)
        paper.page_setup(size=_PAPER_MM, margins=(0, 0, 0, 0), units="mm")
        _window_on(paper, sheet, bounds_mm, scale)
        _title(paper, plan, sheet, scale, number)


def _window_on(paper: Paperspace, sheet: _Sheet, bounds_mm: tuple[float, float, float, float], scale: int) -> None:
    """Add the window through which a sheet shows the model to scale."""
    wide, high = _window()
    x1, y1, x2, y2 = bounds_mm
    middle = _MARGIN_MM + wide / 2.0, _MARGIN_MM + _BLOCK_MM + high / 2.0
    view = paper.add_viewport(
        center=middle,
        size=(wide, high),
        view_center_point=((x1 + x2) / 2.0, (y1 + y2) / 2.0),
        view_height=high * scale,
        dxfattribs={"layer": "SHEET_WINDOW"},
    )
    view.frozen_layers = [name for name in LAYERS if name not in sheet.layers]


def _title(paper: Paperspace, plan: Plan, sheet: _Sheet, scale: int, number: int) -> None:
    """Add the frame and the title block: what it is, whose, when, at what scale, and what to know of services."""
    who = plan.job.identity
    left, low, right, high = _MARGIN_MM, _MARGIN_MM, _PAPER_MM[0] - _MARGIN_MM, _PAPER_MM[1] - _MARGIN_MM
    top = low + _BLOCK_MM
    middle, last = left + 175.0, right - _MARKS_MM
    for points, closed in (
        (((left, low), (right, low), (right, high), (left, high)), True),
        (((left, top), (right, top)), False),
        (((middle, low), (middle, top)), False),
        (((last, low), (last, top)), False),
    ):
        paper.add_lwpolyline(points, close=closed, dxfattribs={"layer": "SHEET"})
    said = [
        (f"{sheet.title}", _BIG_MM),
        (f"{who.job}: {who.title}", _TYPE_MM),
        (", ".join(filter(None, (who.client, who.address, who.contractor))), _TYPE_MM),
        (f"{day_text(who.date)}, revision {who.revision}; sheet {number + 1} of {len(_SHEETS)}", _TYPE_MM),
        (f"Scale 1:{scale} on A3; {_units_words()}", _TYPE_MM),
    ]
    if who.invented:
        said.append(("People, place and prices are invented.", _TYPE_MM))
    y = top - 7.0
    for text, height in filter(lambda each: each[0], said):
        _write(paper, text, (left + 4.0, y), height)
        y -= 5.0 if height == _TYPE_MM else 6.4
    y = top - 5.5
    setting = plan.setting_out
    reported = [setting.services_words, *(f"{band.words}." for band in setting.services)]
    found = [line for whole in reported for line in wrapped(worded(whole), last - middle - 8.0, _TYPE_MM * WIDER)]
    room = int((y - low - 2.0) // _LINE_MM) + 1
    if len(found) > room:
        found = [*found[: room - 1], "More services are drawn, and listed in full on the sheet of pegs."]
    for number_of, line in enumerate(found):
        _write(paper, line, (middle + 4.0, y - number_of * _LINE_MM), _TYPE_MM)
    _marks(paper, (last + 4.0, low + 5.0), scale, plan.survey.site.north_bearing_deg)


def _marks(paper: Paperspace, at: tuple[float, float], scale: int, north_deg: float | None) -> None:
    """Add a scale bar in the title block, and an arrow to the north over it, or that nobody took it."""
    x, y = at
    metres = next((each for each in _BARS_M if units.m_to_mm(each) / scale <= _MARKS_MM - 16.0), _BARS_M[-1])
    long = units.m_to_mm(metres) / scale
    for part in range(2):
        ring = [(x + (part + dx) * long / 2.0, y + dy) for dx, dy in ((0, 0), (1, 0), (1, 1.6), (0, 1.6))]
        paper.add_lwpolyline(ring, close=True, dxfattribs={"layer": "SHEET"})
    cross = [(x + long / 2.0, y + 0.8), (x + long, y + 0.8)]
    paper.add_lwpolyline(cross, dxfattribs={"layer": "SHEET"})
    _write(paper, worded(f"{metres:g} m"), (x, y + 3.0), _TYPE_MM)
    if north_deg is None:
        _write(paper, "north not taken", (x, y + 16.0), _TYPE_MM)
        return
    turn = math.radians(north_deg)
    ux, uy = math.sin(turn), math.cos(turn)
    middle = x + _MARKS_MM / 2.0 - 6.0, y + 20.0
    tail, tip = ((middle[0] + ux * reach, middle[1] + uy * reach) for reach in (-7.0, 5.0))
    barbs = [(tip[0] - 3.0 * ux + side * 1.2 * uy, tip[1] - 3.0 * uy - side * 1.2 * ux) for side in (1.0, -1.0)]
    paper.add_lwpolyline([tail, tip, barbs[0], barbs[1], tip], dxfattribs={"layer": "SHEET"})
    letter = paper.add_text("N", height=_TYPE_MM, dxfattribs={"layer": "SHEET"})
    letter.set_placement((middle[0] + ux * 8.0, middle[1] + uy * 8.0), align=TextEntityAlignment.MIDDLE_CENTER)


def _units_words() -> str:
    """Return in which units the drawing is, and what is written on it."""
    if now().imperial:
        return "drawn in millimetres; feet and inches stand beside, levels in feet"
    return "drawn in millimetres, levels in metres"


WIDER = 1.39
"""Type of the drawing is measured by its capitals, not by its body. [-]"""


def _write(paper: Paperspace, text: str, at: tuple[float, float], height_mm: float) -> None:
    words = paper.add_text(plain(told(text)), height=height_mm, dxfattribs={"layer": "SHEET"})
    words.set_placement(at, align=TextEntityAlignment.LEFT)
