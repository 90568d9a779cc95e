"""The levels plan: finished levels, falls, contours and clearances."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.drawing._foot import Tip
from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Arrow, Path, Sign, Symbol
from pavewright.drawing._section import section_mark, section_places
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import (
    band_key,
    caution_of,
    draw_bands,
    draw_services,
    draw_site,
    label_services,
    outlines,
    site_key,
    site_points,
)
from pavewright.geometry import shared
from pavewright.levels import SpotKind
from pavewright.writing import level_mark, level_unit, now, size_mark

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY, Plane
    from pavewright.levels import FinishedArea
    from pavewright.pipeline import Plan
    from pavewright.survey import PlanArea

_CONTOURS_MM = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0)
_MAX_CONTOURS = 12
_CONTOUR_LABELS = (0.12, 0.3, 0.5, 0.7, 0.88)
"""Where on a contour its level may be written, as parts of its length. [-]"""
_SAME_PLACE_MM = 60.0
"""A fitting this near to a corner has the corner's level. [mm]"""
_REACH_MM = 1e5
"""Length of a level line before it is cut to the area. [mm]"""


def levels_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return finished levels: corners, falls, contours, clearance at walls."""
    site = plan.survey.site
    sheet = Sheet(site_points(plan.survey), frame_mm, _key(plan), grid_of(plan), under=[caution_of(plan)])
    contours = [line for finished in plan.levels.areas for line in _contours(site.area(finished.area), finished)]
    sheet.on("contours").add(*(Path(part, HAIR) for part, _ in contours))
    draw_bands(sheet, plan)
    draw_site(sheet, site)
    draw_services(sheet, site)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, THICK))
    for steps in plan.levels.steps:
        sheet.on("steps").add(Path((steps.start, steps.end), THICK))
    cuts = _section_marks(sheet, plan)
    arrows = [_fall_arrows(sheet, site.area(finished.area), finished) for finished in plan.levels.areas]
    sheet.lines_done()
    for number, cut in enumerate(cuts):
        sheet.on("sections").label(cut, section_mark(number), 3.0, bold=True)
    _labels(sheet, plan)
    label_services(sheet, plan)
    sheet.on("falls")
    for words in arrows:
        for at, text, height, bold in words:
            sheet.label(at, text, height, bold=bold)
    sheet.on("contours")
    for part, level in contours:
        (xa, ya), (xb, yb) = part[0], part[-1]
        places = [(xa + (xb - xa) * share, ya + (yb - ya) * share) for share in _CONTOUR_LABELS]
        # a level line at a corner, too short for its figure, has neighbours that bear theirs
        sheet.write_if_free(places, level_mark(level), 1.8, on_dark=False)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene(
        "levels-plan",
        "Levels plan",
        f"Finished levels in {level_unit()} at corners and fittings, fall arrows, contours, clearance below the "
        "damp-proof course; letters mark where sections are cut; buried services with the ground beside them.",
        site.north_bearing_deg,
    )


def _key(plan: Plan) -> tuple[KeyItem, ...]:
    return (
        (Sign.DOT, f"finished level, {'ft' if now().imperial else 'm'}"),
        (Tip(), "fall"),
        (HAIR, "level line"),
        *band_key(plan),
        *site_key(plan.survey.site),
    )


def _section_marks(sheet: Sheet, plan: Plan) -> list[XY]:
    """Mark where the sections are cut, and return where their letters stand; none where no wall is met."""
    tips = []
    for start, out in section_places(plan):
        tail, tip = (
            (start[0] + out[0] * sheet.mm(reach), start[1] + out[1] * sheet.mm(reach)) for reach in (3.0, 12.0)
        )
        sheet.on("sections").add(Path((tail, tip), THICK))
        across = sheet.mm(4.0)
        sheet.add(Arrow(tip, (tip[0] + out[1] * across, tip[1] - out[0] * across), MEDIUM))
        tips.append(tip)
    return tips


def _labels(sheet: Sheet, plan: Plan) -> None:
    """Write spot levels and clearances of all areas, corners first."""
    sheet.on("levels")
    for finished in plan.levels.areas:
        for spot in (*finished.corners, *finished.spots):
            sheet.add(Symbol(spot.at, Sign.DOT, 1.3))
            sheet.keep_clear(spot.at, 1.3)
    for finished in plan.levels.areas:
        for spot in finished.corners:
            sheet.label(spot.at, level_mark(spot.level_mm), 2.9, bold=True)
    for steps in plan.levels.steps:
        words = f"{steps.risers} risers of {size_mark(steps.riser_mm)}"
        sheet.label_along((steps.start, steps.end), words, 2.4, bold=True)
    for finished in plan.levels.areas:
        _fittings(sheet, finished)


def _fittings(sheet: Sheet, finished: FinishedArea) -> None:
    """Write levels at fittings and clearances at walls."""
    for clearance in finished.clearances:
        span = sorted((clearance.at_start_mm, clearance.at_end_mm))
        low, high = (size_mark(each) for each in span)
        words = low if low == high else f"{low} to {high}"
        sheet.label_along((clearance.start, clearance.end), f"{words} below DPC", 2.4)
    steps = {door.path: door for door in finished.doors}
    for spot in finished.spots:
        if any(math.dist(spot.at, corner.at) <= _SAME_PLACE_MM for corner in finished.corners):
            continue
        door = steps.get(spot.path) if spot.kind is SpotKind.DOOR else None
        level = level_mark(spot.level_mm)
        under = level if door is None else f"{level}, step down {size_mark(door.middle_mm)}"
        sheet.label(spot.at, spot.label if spot.kind is SpotKind.FOLD else spot.name, 2.2, under=under)
    for door in finished.doors:
        steps_at = ((door.left_at, door.left_mm), (door.right_at, door.right_mm))
        for at, step_mm in steps_at if door.varies else ():
            sheet.label(at, f"step {size_mark(step_mm)}", 2.2)


def _fall_arrows(sheet: Sheet, area: PlanArea, finished: FinishedArea) -> list[tuple[XY, str, float, bool]]:
    """Draw the falls of an area as they were asked for and return what is to be written at them."""
    sheet.on("falls")
    if not finished.surface.is_plane:
        return _facet_arrows(sheet, finished)
    centre = area.gross.centre_mm
    dx, dy = finished.main_direction
    long = min(sheet.mm(26.0), (area.gross.area_m2**0.5) * 450.0)
    start = (centre[0] - dx * long / 2.0, centre[1] - dy * long / 2.0)
    end = (centre[0] + dx * long / 2.0, centre[1] + dy * long / 2.0)
    words = [(start, finished.area, 3.0, True)]
    if finished.main_fall:
        sheet.add(Arrow(start, end, MEDIUM))
        sheet.keep_clear(end, 2.0)
        words.append((end, units.fall_text(finished.main_fall), 3.0, True))
    if finished.cross_fall:
        sign = 1.0 if finished.cross_fall > 0.0 else -1.0
        rx, ry = dy * sign, -dx * sign
        tip = (centre[0] + rx * long * 0.5, centre[1] + ry * long * 0.5)
        sheet.add(Arrow((centre[0] - rx * long * 0.2, centre[1] - ry * long * 0.2), tip, THIN))
        sheet.keep_clear(tip, 2.0)
        words.append((tip, units.fall_text(abs(finished.cross_fall)), 2.9, False))
    return words


def _facet_arrows(sheet: Sheet, finished: FinishedArea) -> list[tuple[XY, str, float, bool]]:
    """Draw an arrow down each plane and a line along each fold, and return what is to be written at them."""
    middle = finished.surface.main.polygon.centroid
    words: list[tuple[XY, str, float, bool]] = [((middle.x, middle.y), finished.area, 3.0, True)]
    for fold in finished.surface.folds:
        sheet.add(Path((fold.start, fold.end), DASHED))
    for facet in finished.surface.facets:
        inside = facet.polygon.representative_point()
        dx, dy = facet.plane.downhill
        long = min(sheet.mm(14.0), (facet.polygon.area**0.5) * 0.35)
        tip = (inside.x + dx * long / 2.0, inside.y + dy * long / 2.0)
        sheet.add(Arrow((inside.x - dx * long / 2.0, inside.y - dy * long / 2.0), tip, MEDIUM))
        sheet.keep_clear(tip, 2.0)
        words.append((tip, units.fall_text(facet.plane.fall), 2.9, True))
    return words


def _contours(area: PlanArea, finished: FinishedArea) -> list[tuple[tuple[XY, ...], float]]:
    """Return level lines with their levels, at an interval that gives a dozen or fewer."""
    levels = [finished.surface.level_at(point) for point in area.gross.outer]
    levels += [spot.level_mm for spot in finished.spots if spot.kind is SpotKind.FOLD]
    low, high = min(levels), max(levels)
    step = next((each for each in _CONTOURS_MM if (high - low) / each <= _MAX_CONTOURS), _CONTOURS_MM[-1])
    if finished.surface.is_plane:
        return _level_lines(area.gross.polygon, finished.plane, low, high, step)
    return [
        line
        for facet in finished.surface.facets
        for line in _level_lines(shared(facet.polygon, area.gross.polygon), facet.plane, low, high, step)
    ]


def _level_lines(
    polygon: shapely.Geometry, plane: Plane, low: float, high: float, step: float
) -> list[tuple[tuple[XY, ...], float]]:
    """Return the level lines of a plane inside a shape, with their levels."""
    if plane.fall == 0.0:
        return []
    dx, dy = plane.downhill
    middle = shapely.centroid(polygon)
    x0, y0 = float(shapely.get_x(middle)), float(shapely.get_y(middle))
    at_centre = plane.level_at((x0, y0))
    found = []
    level = (low // step + 1.0) * step
    while level < high:
        off = (at_centre - level) / plane.fall
        px, py = x0 + dx * off, y0 + dy * off
        line = ((px + dy * _REACH_MM, py - dx * _REACH_MM), (px - dy * _REACH_MM, py + dx * _REACH_MM))
        found += [(part, level) for part in _clipped(line, polygon)]
        level += step
    return found


def _clipped(line: tuple[XY, XY], polygon: shapely.Geometry) -> list[tuple[XY, ...]]:
    """Return the parts of a line that lie on a shape."""
    inside = shapely.intersection(shapely.LineString(line), polygon)
    found = []
    for part in shapely.get_parts(inside):
        coordinates = [(float(x), float(y)) for x, y in shapely.get_coordinates(part)]
        if len(coordinates) > 1:
            found.append(tuple(coordinates))
    return found
