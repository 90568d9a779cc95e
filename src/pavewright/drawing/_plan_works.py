"""Plans of the dig, of the water, of setting out and of the paving as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import CHAIN, DASHED, HAIR, MEDIUM, THICK, THIN, Arrow, Path, Region, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, rings, site_points

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.pipeline import Plan

_SYMBOLS = {"corner": "block", "edge": "square", "grid": "cross", "profile": "triangle"}
_VERDICTS = {"pass": "ring", "fail": "block", "unsure": "triangle"}
_WATER = ("water1", "water2", "water3", "water4", "water5", "water6")


def dig_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return what is dug: its edge, the formation at corners and the depth below the ground at pegs inside."""
    sheet = Sheet(
        [*site_points(plan.survey), *(p for up in plan.build_ups.areas for p in up.dig_shape.outer)], frame_mm
    )
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    for up in plan.build_ups.areas:
        sheet.add(Region(rings(up.dig_shape), "ground", None))
        for ring in rings(up.dig_shape):
            sheet.add(Path(ring, DASHED, closed=True))
        for ring in rings(plan.survey.site.area(up.area).gross):
            sheet.add(Region((ring,), "white", THIN))
    draw_site(sheet, plan.survey.site)
    for placed in plan.survey.site.services:
        sheet.add(Path(placed.points, CHAIN))
        sheet.label(placed.points[-1], f"{placed.service.name}: trace, dig by hand", 2.2, bold=True)
    ground = plan.survey.ground
    inside = [peg for peg in plan.setting_out.pegs if peg.role != "profile"]
    for peg in inside:
        sheet.add(Symbol(peg.at, "cross", 1.6))
        sheet.keep_clear(peg.at, 1.6)
    for peg in inside:
        formation = peg.heights[-1].level_mm
        text = units.metres_text(formation)
        if ground is not None:
            depth = ground.level_beyond(peg.at) - formation
            text = f"{depth:.0f} deep" if peg.role == "grid" else f"{text}, {depth:.0f} deep"
        sheet.label(peg.at, text, 2.1, away=1.6)
    return sheet.scene(
        "dig-plan",
        "Dig and formation",
        "Edge of the dig dashed, formation levels in metres and depth below the ground in millimetres.",
    )


def water_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return what drains where, with areas and peak flows."""
    sheet = Sheet(site_points(plan.survey), frame_mm)
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    for number, caught in enumerate(plan.water.catchments):
        for shape in caught.shapes:
            sheet.add(Region(rings(shape), _WATER[number % len(_WATER)], HAIR))
    draw_site(sheet, plan.survey.site)
    for area in plan.survey.site.areas:
        for ring in rings(area.gross):
            sheet.add(Path(ring, MEDIUM, closed=True))
    for caught in plan.water.catchments:
        if not caught.shapes:
            continue
        largest = max(caught.shapes, key=lambda shape: shape.area_m2)
        centre = largest.centre_mm
        downhill = plan.levels.area(caught.area).plane.downhill
        long = min(sheet.mm(16.0), (largest.area_m2**0.5) * 400.0)
        end = (centre[0] + downhill[0] * long, centre[1] + downhill[1] * long)
        sheet.add(Arrow(centre, end, THICK))
        sheet.label(centre, f"{caught.area_m2:.1f} m², {caught.flow_l_s:.2f} l/s to {caught.to}", 2.4, bold=True)
    return sheet.scene(
        "water-plan", "Water plan", "Parts of the paving hatched by what takes their water, with area and peak flow."
    )


def setting_out_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return pegs, strings and the base line."""
    sheet_of = plan.setting_out
    sheet = Sheet([*site_points(plan.survey), *(peg.at for peg in sheet_of.pegs)], frame_mm)
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    for area in plan.survey.site.areas:
        for ring in rings(area.gross):
            sheet.add(Path(ring, THIN, closed=True))
    draw_site(sheet, plan.survey.site)
    places = {peg.name: peg.at for peg in sheet_of.pegs}
    corners = {(area.name, corner.name): corner.xy for area in plan.survey.site.areas for corner in area.ring.corners}
    for check in sheet_of.checks:
        if check.kind == "diagonal":
            sheet.add(Path((corners[check.area, check.start], corners[check.area, check.end]), HAIR))
    for string in sheet_of.strings:
        sheet.add(Path((places[string.start], places[string.end]), DASHED))
    for name, start, end in sheet_of.base_lines:
        sheet.add(Path((corners[name, start], corners[name, end]), THICK))
    for peg in sheet_of.pegs:
        sheet.add(Symbol(peg.at, _SYMBOLS[peg.role], 2.0))
        sheet.keep_clear(peg.at, 2.0)
    for peg in sheet_of.pegs:
        sheet.label(peg.at, peg.name.removeprefix("Peg "), 2.4, bold=peg.role == "corner", away=2.0)
    for string in sheet_of.strings:
        middle = (
            (places[string.start][0] + places[string.end][0]) / 2.0,
            (places[string.start][1] + places[string.end][1]) / 2.0,
        )
        sheet.label(middle, f"{string.name}{' fall' if string.carries_fall else ''}", 2.0)
    return sheet.scene(
        "setting-out-plan",
        "Setting out",
        "Pegs with numbers: corners as black blocks, edges as squares, crossings as crosses, profiles as triangles; "
        "strings dashed; base line thick; diagonals to tape thin.",
    )


def as_laid_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return readings as laid with their deviation; None where there are none."""
    report = plan.as_laid
    if report is None:
        return None
    sheet = Sheet(site_points(plan.survey), frame_mm)
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    for area in plan.survey.site.areas:
        for ring in rings(area.gross):
            sheet.add(Path(ring, MEDIUM, closed=True))
    draw_site(sheet, plan.survey.site)
    readings = [reading for area in report.areas for reading in area.readings]
    for reading in readings:
        sheet.add(Symbol(reading.at, _VERDICTS[reading.verdict], 2.0))
        sheet.keep_clear(reading.at, 2.0)
    for reading in readings:
        off = units.millimetres_text(reading.deviation_mm, sign=True).removesuffix(" mm")
        bad = reading.verdict == "fail"
        sheet.label(reading.at, f"{reading.label} {off}{' FAIL' if bad else ''}", 2.2, bold=bad, away=2.0)
    return sheet.scene(
        "as-laid-plan",
        "As laid",
        "Readings with their deviation from the plan in millimetres: ring passes, triangle is unsure, black block "
        "fails.",
    )
