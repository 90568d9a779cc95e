"""Squared paper at a stated scale to sketch on, with what is known of the site drawn in."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import HAIR, MEDIUM, SCALES, Path, Sign, Stroke, Symbol
from pavewright.drawing._sheet import Sheet
from pavewright.drawing._site_parts import draw_services, draw_site, outlines, site_points
from pavewright.drawing._type import MIN_TYPE_MM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_SQUARE_MM = 5.0
"""Side of a square on paper. [mm]"""
_STRONG = 5
"""Every fifth line is stronger. [-]"""
_PAPER_MM = (150.0, 180.0)
"""Squared paper on a sheet. [mm]"""
_FRAME_MM = (270.0, 150.0)
"""Room on an A4 sheet that lies; one that stands is found from it. [mm]"""
_UNKNOWN_SCALE = 50
"""Scale while nothing is known: paper for seven and a half metres by nine. [-]"""
_FAINT = Stroke(0.1, (0.3, 0.7))
"""Lines that do not hide what is drawn over them."""


def sketch_grid(plan: Plan) -> Scene:
    """Return squared paper with the outline, the walls, the services and the points that are known on it."""
    known = _known(plan)
    scale = _scale(known)
    left, low = _corner(known, scale)
    wide, high = (size * scale for size in _PAPER_MM)
    sheet = Sheet(((left, low), (left + wide, low + high)), _FRAME_MM, ())
    sheet.on("grid").add(*_lines(left, low, scale))
    if known:
        for area in plan.survey.site.areas:
            sheet.on("outline").add(*outlines(area, MEDIUM))
        draw_site(sheet, plan.survey.site)
        draw_services(sheet, plan.survey.site)
        sheet.lines_done()
        sheet.on("points")
        used = {corner.name for area in plan.survey.site.areas for corner in area.ring.corners}
        for point in plan.survey.points:
            if point.name in used or not used:
                sheet.add(Symbol(point.xy, Sign.RING, 2.0))
                sheet.label(point.xy, point.name, MIN_TYPE_MM, bold=True)
    side = units.mm_to_m(_SQUARE_MM * scale)
    sheet.notes.append(
        f"Scale 1:{scale}: one small square is {side:g} m, one large square {side * _STRONG:g} m. Mark north."
    )
    about = "Squared paper to sketch on" + (", with what is known of the site." if known else ".")
    return sheet.scene("sketch-grid", "Sketch", about, plan.survey.site.north_bearing_deg)


def _known(plan: Plan) -> list[XY]:
    """Return the places that the paper has to show; none while nothing is measured."""
    survey = plan.survey
    if not survey.points:
        return []
    # levels of the ground may lie far off: where areas are drawn they decide what the paper shows
    return site_points(survey) if survey.site.areas else [point.xy for point in survey.points]


def _scale(known: list[XY]) -> int:
    """Return the largest scale at which the paper has room round what is known."""
    if not known:
        return _UNKNOWN_SCALE
    xs, ys = zip(*known, strict=True)
    room = [size - 2.0 * _SQUARE_MM for size in _PAPER_MM]
    wanted = max((max(xs) - min(xs)) / room[0], (max(ys) - min(ys)) / room[1])
    coarse = [each for each in SCALES if each >= _COARSEST_DETAIL]
    return next((each for each in coarse if each >= wanted), math.ceil(wanted / _ROUND) * _ROUND)


_COARSEST_DETAIL = 20
"""Nobody sketches a site at a larger scale. [-]"""
_ROUND = 100
"""Scales past those of a rule are whole hundreds. [-]"""


def _corner(known: list[XY], scale: int) -> XY:
    """Return the lower left corner of the paper, so that what is known lies in its middle, on whole squares."""
    if not known:
        return 0.0, 0.0
    step = _SQUARE_MM * scale
    middles = [(min(values) + max(values)) / 2.0 for values in zip(*known, strict=True)]
    pairs = zip(middles, _PAPER_MM, strict=True)
    low = [math.floor((middle - size * scale / 2.0) / step) * step for middle, size in pairs]
    return low[0], low[1]


def _lines(left: float, low: float, scale: int) -> Iterator[Path]:
    step = _SQUARE_MM * scale
    wide, high = (size * scale for size in _PAPER_MM)
    for number in range(round(_PAPER_MM[0] / _SQUARE_MM) + 1):
        x = left + number * step
        yield Path(((x, low), (x, low + high)), _FAINT if number % _STRONG else HAIR)
    for number in range(round(_PAPER_MM[1] / _SQUARE_MM) + 1):
        y = low + number * step
        yield Path(((left, y), (left + wide, y)), _FAINT if number % _STRONG else HAIR)
