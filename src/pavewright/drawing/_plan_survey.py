"""The survey plan and the levels plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.drawing._scene import DASHED, DOTTED, HAIR, MEDIUM, THICK, THIN, Arrow, Path, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import circle, draw_site, rings, site_points

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.levels import FinishedArea
    from pavewright.pipeline import Plan
    from pavewright.survey import PlanArea, SitePlan, SurveyedPoint

_CONTOURS_MM = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0)
_MOST_CONTOURS = 12
_CONTOUR_LABELS = (0.12, 0.3, 0.5, 0.7, 0.88)
"""Where on a contour its level may be written, as parts of its length. [-]"""
_SAME_PLACE_MM = 60.0
"""A fitting this near to a corner has the corner's level. [mm]"""


def site_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return the site as it was measured: points, spot levels, services, trees."""
    survey = plan.survey
    ground = set(plan.job.measurements.ground_points)
    used = {corner.name for area in survey.site.areas for corner in area.ring.corners}
    shown = [point for point in survey.points if point.name in used or point.name in ground or point.level_mm is None]
    sheet = Sheet([*site_points(survey), *(point.xy for point in shown)], frame_mm)
    sheet.north(survey.site.north_bearing_deg)
    sheet.scale_bar()
    for area in survey.site.areas:
        for ring in rings(area.gross):
            sheet.add(Path(ring, MEDIUM, closed=True))
    if plan.job.measurements.tape_plan is not None and survey.tapes is not None:
        places = {point.name: point.xy for point in survey.points}
        for tape in survey.tapes.residuals:
            sheet.add(Path((places[tape.start], places[tape.end]), DOTTED))
    draw_site(sheet, survey.site)
    _services_and_trees(sheet, survey.site)
    _points(sheet, shown, used, ground)
    _names(sheet, plan)
    return sheet.scene(
        "survey-plan",
        "Survey plan",
        "Measured points with their names, spot levels of the ground, walls, drains, trees.",
    )


def _services_and_trees(sheet: Sheet, site: SitePlan) -> None:
    for placed in site.services:
        sheet.add(Path(placed.points, DASHED))
        sheet.label(placed.points[0], placed.service.name, 2.2)
    for tree in site.trees:
        sheet.add(Path(circle(tree.at, tree.tree.stem_diameter_mm / 2.0), MEDIUM, closed=True))
        sheet.label(tree.at, tree.tree.name, 2.2)


def _points(sheet: Sheet, shown: list[SurveyedPoint], used: set[str], ground: set[str]) -> None:
    """Draw points: corners with their names, spots of the ground with their levels."""
    for point in shown:
        sheet.add(Symbol(point.xy, "cross" if point.name in ground else "ring", 1.6))
        sheet.keep_clear(point.xy, 1.6)
    for point in shown:
        if point.name in used:
            sheet.label(point.xy, point.name, 2.6, bold=True, away=1.6)
    for point in shown:
        if point.name in ground and point.level_mm is not None:
            sheet.label(point.xy, units.metres_text(point.level_mm), 1.9, away=1.6)


def _names(sheet: Sheet, plan: Plan) -> None:
    """Write the names of what stands on the site."""
    site = plan.survey.site
    for wall in site.walls:
        middle = ((wall.start[0] + wall.end[0]) / 2.0, (wall.start[1] + wall.end[1]) / 2.0)
        sheet.label(middle, f"wall {wall.name}", 2.2)
        for door in wall.openings:
            sheet.label(((door.start[0] + door.end[0]) / 2.0, (door.start[1] + door.end[1]) / 2.0), door.name, 2.0)
    for placed in site.covers:
        sheet.label(placed.at, placed.cover.name, 2.0, away=4.0)
    for gully in site.gullies:
        sheet.label(gully.at, gully.gully.name, 2.0, away=3.0)
    for channel in site.channels:
        middle = ((channel.start[0] + channel.end[0]) / 2.0, (channel.start[1] + channel.end[1]) / 2.0)
        sheet.label(middle, channel.name, 2.0)
    for boundary in site.boundaries:
        middle = ((boundary.start[0] + boundary.end[0]) / 2.0, (boundary.start[1] + boundary.end[1]) / 2.0)
        sheet.label(middle, f"boundary {boundary.name}", 2.0)


def levels_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return finished levels: corners, falls, contours, clearance at walls."""
    sheet = Sheet(site_points(plan.survey), frame_mm)
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    contours = [
        line for finished in plan.levels.areas for line in _contours(plan.survey.site.area(finished.area), finished)
    ]
    sheet.add(*(Path(part, HAIR) for part, _ in contours))
    draw_site(sheet, plan.survey.site)
    for finished in plan.levels.areas:
        area = plan.survey.site.area(finished.area)
        for ring in rings(area.gross):
            sheet.add(Path(ring, THICK, closed=True))
        _fall_arrows(sheet, area, finished)
    for finished in plan.levels.areas:
        _levels_of(sheet, finished)
    for steps in plan.levels.steps:
        sheet.add(Path((steps.start, steps.end), THICK))
        middle = ((steps.start[0] + steps.end[0]) / 2.0, (steps.start[1] + steps.end[1]) / 2.0)
        sheet.label(middle, f"{steps.risers} risers of {steps.riser_mm:.0f}", 2.4, bold=True)
    for part, level in contours:
        (xa, ya), (xb, yb) = part[0], part[-1]
        places = [(xa + (xb - xa) * share, ya + (yb - ya) * share) for share in _CONTOUR_LABELS]
        sheet.write_if_free(places, units.metres_text(level), 1.8)
    return sheet.scene(
        "levels-plan",
        "Levels plan",
        "Finished levels in metres at corners and fittings, fall arrows, contours, clearance below the damp-proof "
        "course.",
    )


def _levels_of(sheet: Sheet, finished: FinishedArea) -> None:
    """Write spot levels and clearances of an area."""
    for spot in (*finished.corners, *finished.spots):
        sheet.add(Symbol(spot.at, "dot", 1.3))
        sheet.keep_clear(spot.at, 1.3)
    for spot in finished.corners:
        sheet.label(spot.at, units.metres_text(spot.level_mm), 2.8, bold=True, away=1.3)
    for clearance in finished.clearances:
        middle = (
            (clearance.start[0] + clearance.end[0]) / 2.0,
            (clearance.start[1] + clearance.end[1]) / 2.0,
        )
        span = sorted((clearance.at_start_mm, clearance.at_end_mm))
        words = f"{span[0]:.0f}" if round(span[0]) == round(span[1]) else f"{span[0]:.0f} to {span[1]:.0f}"
        sheet.label(middle, f"{words} below DPC", 2.2, away=2.0)
    for spot in finished.spots:
        if any(math.dist(spot.at, corner.at) <= _SAME_PLACE_MM for corner in finished.corners):
            continue
        name = spot.label.removeprefix("channel ").removeprefix("gully ").removeprefix("cover ")
        sheet.label(spot.at, f"{name} {units.metres_text(spot.level_mm)}", 2.0, away=1.3)


def _fall_arrows(sheet: Sheet, area: PlanArea, finished: FinishedArea) -> None:
    """Draw the fall of an area as asked, and the steepest fall where there are two."""
    centre = area.gross.centre_mm
    dx, dy = finished.main_direction
    long = min(sheet.mm(26.0), (area.gross.area_m2**0.5) * 450.0)
    start = (centre[0] - dx * long / 2.0, centre[1] - dy * long / 2.0)
    end = (centre[0] + dx * long / 2.0, centre[1] + dy * long / 2.0)
    sheet.add(Arrow(start, end, MEDIUM))
    sheet.label(end, units.fall_text(finished.main_fall), 3.0, bold=True)
    if finished.cross_fall:
        sign = 1.0 if finished.cross_fall > 0.0 else -1.0
        rx, ry = dy * sign, -dx * sign
        tip = (centre[0] + rx * long * 0.5, centre[1] + ry * long * 0.5)
        sheet.add(Arrow((centre[0] - rx * long * 0.2, centre[1] - ry * long * 0.2), tip, THIN))
        sheet.label(tip, units.fall_text(finished.cross_fall), 2.6)
    sheet.label(start, finished.area, 3.0, bold=True)


def _contours(area: PlanArea, finished: FinishedArea) -> list[tuple[tuple[XY, ...], float]]:
    """Return level lines of the plane with their levels, at an interval that gives a dozen or fewer."""
    plane = finished.plane
    if plane.fall == 0.0:
        return []
    levels = [plane.level_at(point) for point in area.gross.outer]
    low, high = min(levels), max(levels)
    step = next((each for each in _CONTOURS_MM if (high - low) / each <= _MOST_CONTOURS), _CONTOURS_MM[-1])
    dx, dy = plane.downhill
    x0, y0 = area.gross.centre_mm
    at_centre = plane.level_at((x0, y0))
    reach = 1e5
    found = []
    level = (low // step + 1.0) * step
    while level < high:
        off = (at_centre - level) / plane.fall
        px, py = x0 + dx * off, y0 + dy * off
        line = ((px + dy * reach, py - dx * reach), (px - dy * reach, py + dx * reach))
        found += [(part, level) for part in clipped(line, area)]
        level += step
    return found


def clipped(
    line: tuple[tuple[float, float], tuple[float, float]], area: PlanArea
) -> list[tuple[tuple[float, float], ...]]:
    """Return the parts of a line that lie on an area."""
    inside = shapely.intersection(shapely.LineString(line), area.gross.polygon)
    found = []
    for part in shapely.get_parts(inside):
        coordinates = [(float(x), float(y)) for x, y in shapely.get_coordinates(part)]
        if len(coordinates) > 1:
            found.append(tuple(coordinates))
    return found
