"""The plan of standing water as laid: how far the paving is off its plan, where water may stand, where to read next."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
from contourpy import FillType, contour_generator

from pavewright import rulebook
from pavewright.as_laid.standing import WaterState, pond_mark, span_in_words, standing
from pavewright.drawing._foot import Bold
from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, Hatch, Path, Region, Sign, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, outlines, site_key, site_points
from pavewright.drawing._standing_words import WORDS
from pavewright.drawing._type import MIN_TYPE_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid.standing import AreaStanding
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_BANDS = ((0.05, 0.5, Hatch.WATER_1), (0.5, 0.95, Hatch.CUT), (0.95, 1.01, Hatch.FILLED))
"""Chances from and to, with their hatch: the denser the likelier."""
_OFF_MM = (-16.0, -12.0, -8.0, -6.0, -4.0, -2.0, 2.0, 4.0, 6.0, 8.0, 12.0, 16.0)
"""Lines of equal level against the plan. [mm]"""
_PLACES = (0.5, 0.25, 0.75)


def standing_drawn(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return the plan of standing water as laid; None where nothing was read."""
    if plan.as_laid is None:
        return None
    found = standing(plan.job, plan.survey, plan.levels, rulebook.load(plan.edition))
    return standing_plan(plan, found, frame_mm)


def standing_plan(plan: Plan, areas: Sequence[AreaStanding], frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return chances of standing water as hatches over lines of level against the plan; None where nothing is known.

    Args:
        plan: The plan.
        areas: What stands on each area.
        frame_mm: Width and height of the frame on paper. [mm]
    """
    known = [area for area in areas if area.why is None]
    if not known:
        return None
    site = plan.survey.site
    sheet = Sheet(site_points(plan.survey), frame_mm, _key(plan), grid_of(plan))
    for area in known:
        for low, high, hatch in _BANDS:
            sheet.on("water").add(*(Region(rings, hatch) for rings in _filled(area, low, high)))
    lines = [line for area in known for line in _lines(area)]
    sheet.on("contours").add(*(Path(points, DASHED if off < 0.0 else HAIR) for points, off in lines))
    for one in site.areas:
        sheet.on("outline").add(*outlines(one, MEDIUM))
    draw_site(sheet, site)
    sheet.lines_done()
    _marks(sheet, plan, known)
    sheet.on("contours")
    for points, off in lines:
        places = [points[min(int(len(points) * share), len(points) - 1)] for share in _PLACES]
        sheet.write_if_free(places, f"{off:+g}".replace("-", "−"), MIN_TYPE_MM)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene("standing-water-plan", WORDS.title, WORDS.about, site.north_bearing_deg)


def _key(plan: Plan) -> tuple[KeyItem, ...]:
    return (
        (Hatch.WATER_1, WORDS.may),
        (Hatch.CUT, WORDS.likely),
        (Hatch.FILLED, WORDS.sure),
        (HAIR, WORDS.above),
        (DASHED, WORDS.below),
        (Sign.DOT, WORDS.read),
        (Sign.TRIANGLE, WORDS.read_next),
        (Sign.RING, WORDS.hose_dry),
        (Sign.BLOCK, WORDS.hose_wet),
        (Bold("40 %"), WORDS.pond),
        *site_key(plan.survey.site),
    )


def _marks(sheet: Sheet, plan: Plan, areas: Sequence[AreaStanding]) -> None:
    """Draw what was read, where to read next, ponds and marks of hose tests."""
    taken = plan.job.as_laid
    sheet.on("readings")
    for reading in () if taken is None else taken.readings:
        if reading.level_mm is not None:
            sheet.add(Symbol((reading.x_mm, reading.y_mm), Sign.DOT, 1.0))
    marks = [mark for test in plan.job.hose_tests for mark in test.marks]
    for mark in marks:
        sheet.add(Symbol((mark.x_mm, mark.y_mm), Sign.BLOCK if mark.depth_mm > 0.0 else Sign.RING, 2.4))
        sheet.keep_clear((mark.x_mm, mark.y_mm), 2.4)
    for place in (place for area in areas for place in area.next_places):
        sheet.add(Symbol(place.at, Sign.TRIANGLE, 2.4))
        sheet.keep_clear(place.at, 2.4)
    sheet.on("water")
    for pond in (pond for area in areas for pond in area.ponds):
        under = WORDS.depth(depth=span_in_words(pond.depth_mm))
        bold = pond.state is WaterState.STANDS
        sheet.label(pond.at, pond_mark(pond), 2.9, bold=bold, under=under)
    sheet.on("readings")
    for place in (place for area in areas for place in area.next_places):
        sheet.label(place.at, place.label, 2.4, bold=True)
    for mark in marks:
        sheet.label((mark.x_mm, mark.y_mm), WORDS.hose(name=mark.name, depth=f"{mark.depth_mm:g}"), MIN_TYPE_MM)


def _centres(area: AreaStanding) -> tuple[np.ndarray, np.ndarray]:
    rows, columns = area.chances.shape
    x = area.corner[0] + (np.arange(columns) + 0.5) * area.cell_mm
    y = area.corner[1] + (np.arange(rows) + 0.5) * area.cell_mm
    return x, y


def _filled(area: AreaStanding, low: float, high: float) -> list[tuple[tuple[XY, ...], ...]]:
    """Return where the chance lies in a band, as shapes with holes. [-]."""
    if min(area.chances.shape) < 2:  # noqa: PLR2004 - a single row of cells has no shapes
        return []
    x, y = _centres(area)
    z = np.ma.masked_invalid(area.chances)
    made = contour_generator(x=x, y=y, z=z, fill_type=FillType.OuterOffset)
    found = made.filled(low, high)
    return [
        tuple(
            tuple((float(px), float(py)) for px, py in np.asarray(shape)[start:end])
            for start, end in itertools.pairwise(np.asarray(parts))
        )
        for shape, parts in zip(found[0], found[1], strict=True)
    ]


def _lines(area: AreaStanding) -> list[tuple[tuple[XY, ...], float]]:
    """Return the lines of equal level against the plan, each with its level. [mm]."""
    if min(area.off_mm.shape) < 2:  # noqa: PLR2004 - a single row of cells has no lines
        return []
    x, y = _centres(area)
    made = contour_generator(x=x, y=y, z=np.ma.masked_invalid(area.off_mm))
    return [
        (tuple((float(px), float(py)) for px, py in np.asarray(line)), level)
        for level in _OFF_MM
        for line in made.lines(level)
        if len(np.asarray(line)) > 1
    ]
