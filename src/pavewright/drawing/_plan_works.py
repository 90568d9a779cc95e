"""Plans of the dig and of the water."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._foot import Bold
from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Arrow, Hatch, Path, Region, Sign, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import (
    band_key,
    caution_of,
    draw_bands,
    draw_services,
    draw_site,
    label_services,
    outlines,
    rings,
    site_key,
    site_points,
)
from pavewright.drawing._type import MIN_TYPE_MM, short
from pavewright.geometry import contour_lines, joined, shared
from pavewright.levels import TakerKind
from pavewright.setting_out import Stands
from pavewright.water import ends_at
from pavewright.writing import level_mark, level_unit, now, size_mark, size_unit

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY, Shape
    from pavewright.pipeline import Plan
    from pavewright.water import Catchment

_WATER = (Hatch.WATER_1, Hatch.WATER_2, Hatch.WATER_3, Hatch.WATER_4, Hatch.WATER_5, Hatch.WATER_6)
_MIN_FLOW_L_S = 0.005
"""A smaller flow would be written as zero. [l/s]"""
_MIN_M2 = 0.05
"""A smaller part of the paving is not drawn. [m²]"""
_REACH_MM = 1e5
_ARROW_MM = 8.0
"""An arrow of the water stands in every part that is at least so long on paper. [mm]"""


def dig_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return what is dug: its edge, and at pegs the depth with ground and formation."""
    site = plan.survey.site
    points = [*site_points(plan.survey), *(p for up in plan.build_ups.areas for p in up.dig_shape.outer)]
    key: list[KeyItem] = [(DASHED, "edge of the dig"), (Hatch.GROUND, "dug past the paving"), (Sign.CROSS, "peg")]
    known = plan.survey.ground is not None
    key.append(_key_of_depths() if known else (Bold("180"), f"formation, {level_unit()}"))
    lines = _ground_lines(plan)
    if lines:
        key.append((HAIR, "level line of the ground as it lies"))
    key.extend(band_key(plan))
    sheet = Sheet(points, frame_mm, (*key, *site_key(site)), grid_of(plan), under=[caution_of(plan)])
    for up in plan.build_ups.areas:
        sheet.on("dig").add(Region(rings(up.dig_shape), Hatch.GROUND, None))
    for up in plan.build_ups.areas:
        for ring in rings(site.area(up.area).gross):
            sheet.add(Region((ring,), Hatch.WHITE))
    for up in plan.build_ups.areas:
        sheet.add(*(Path(ring, DASHED, closed=True) for ring in rings(up.dig_shape)))
        sheet.on("outline").add(*outlines(site.area(up.area), THIN))
    sheet.on("ground").add(*(Path(part, HAIR) for part, _ in lines))
    draw_bands(sheet, plan)
    draw_site(sheet, site)
    draw_services(sheet, site)
    sheet.lines_done()
    label_services(sheet, plan)
    _depths(sheet, plan)
    sheet.on("ground")
    for part, level in lines:
        places = [part[len(part) * share // 8] for share in (4, 2, 6, 3, 5, 1, 7)]
        sheet.write_if_free(places, level_mark(level), MIN_TYPE_MM, on_dark=False)
    about = (
        f"Edge of the dig dashed; at pegs the depth to dig in {size_unit()} and the levels of ground and formation in "
        f"{level_unit()}."
    )
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene("dig-plan", "Dig and formation", about, site.north_bearing_deg)


def _key_of_depths() -> KeyItem:
    if now().imperial:
        return Bold("7 in"), "deep; under it ground to formation, feet"
    return Bold("180"), "deep, mm; under it ground to formation, m"


def _ground_lines(plan: Plan) -> list[tuple[tuple[XY, ...], float]]:
    """Return level lines of the ground over and about what is dug, with their levels; none where it is not known."""
    ground = plan.survey.ground
    if ground is None:
        return []
    near = joined([up.dig_shape.polygon.buffer(_ABOUT_MM, join_style="mitre") for up in plan.build_ups.areas])
    levels = [level for x, y, level in ground.points if shapely.contains_xy(near, x, y)]
    levels += [ground.level_beyond(at) for up in plan.build_ups.areas for at in up.dig_shape.outer]
    step = next((each for each in _STEPS_MM if (max(levels) - min(levels)) / each <= _MAX_LINES), _STEPS_MM[-1])
    found = []
    for level, line in contour_lines(ground, step).items():
        for part in shapely.get_parts(shared(line, near)):
            places = tuple((float(x), float(y)) for x, y in shapely.get_coordinates(part))
            if len(places) > 1:
                found.append((places, level))
    return found


_ABOUT_MM = 200.0
"""The ground is drawn so far past what is dug. [mm]"""
_STEPS_MM = (10.0, 25.0, 50.0, 100.0, 250.0, 500.0, 1000.0)
_MAX_LINES = 10


def _depths(sheet: Sheet, plan: Plan) -> None:
    """Write the depth at pegs, with the levels of ground and formation."""
    ground = plan.survey.ground
    sheet.on("depths")
    inside = [peg for peg in plan.setting_out.pegs if peg.stands is not Stands.PIN]
    for peg in inside:
        sheet.add(Symbol(peg.at, Sign.CROSS, 1.6))
        sheet.keep_clear(peg.at, 1.6)
    for peg in inside:
        formation = peg.heights[-1].level_mm
        reported = level_mark(formation)
        if ground is None:
            sheet.label(peg.at, reported, MIN_TYPE_MM)
            continue
        level = ground.level_beyond(peg.at)
        depth = level - formation
        words = f"{size_mark(depth)} deep" if depth >= 0.0 else f"fill {size_mark(-depth)}"
        sheet.label(peg.at, words, MIN_TYPE_MM, bold=True, under=f"{level_mark(level)} to {reported}")


def water_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return what drains where, with areas and peak flows."""
    site = plan.survey.site
    caught = [each for each in plan.water.catchments if each.shapes and each.area_m2 >= _MIN_M2]
    hatches = [_WATER[number % len(_WATER)] for number in range(len(caught))]
    key: tuple[KeyItem, ...] = tuple(
        (hatch, short(_to(each))) for hatch, each in zip(hatches[:6], caught[:6], strict=True)
    )
    sheet = Sheet(site_points(plan.survey), frame_mm, (*key, *site_key(site)), grid_of(plan))
    sheet.on("catchments")
    for hatch, each in zip(hatches, caught, strict=True):
        sheet.add(*(Region(rings(shape), hatch, HAIR) for shape in each.shapes))
    draw_site(sheet, site)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    sheet.on("flow")
    starts = [_arrows(sheet, plan, each) for each in caught]
    sheet.lines_done()
    for each, at in zip(caught, starts, strict=True):
        home = max(each.shapes, key=lambda shape: shape.area_m2).polygon
        flow = f"{each.flow_l_s:.2f} l/s" if each.flow_l_s >= _MIN_FLOW_L_S else "under 0.01 l/s"
        sheet.label(at, _to(each), MIN_TYPE_MM, bold=True, under=f"{each.area_m2:.1f} m², {flow}", home=home)
    about = "Parts of the paving hatched by what takes their water, with area and peak flow; arrows run with the water."
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene("water-plan", "Water plan", about, site.north_bearing_deg)


def _to(caught: Catchment) -> str:
    """Return where the water goes, in words."""
    over = "over edge " if caught.kind is TakerKind.FREE_EDGE else "to "
    then = f", then {ends_at(caught)}" if caught.outfall or caught.beyond else ""
    return f"{over}{caught.to}{then}"


def _arrows(sheet: Sheet, plan: Plan, caught: Catchment) -> XY:
    """Draw arrows down the fall to what takes the water, and return where the words belong."""
    surface = plan.levels.area(caught.area).surface
    sized = sorted(caught.shapes, key=lambda shape: -shape.area_m2)
    if not surface.is_plane:
        for way in caught.ways:
            sheet.add(Path(way, MEDIUM), Arrow(way[-2], way[-1], MEDIUM))
        words = sized[0].polygon.representative_point()
        return float(words.x), float(words.y)
    for number, shape in enumerate(sized):
        start, end = _run(shape, surface.facet_at(shape.centre_mm).plane.downhill)
        if number == 0 or abs(end[0] - start[0]) + abs(end[1] - start[1]) >= sheet.mm(_ARROW_MM):
            sheet.add(Arrow(start, end, THICK))
    return sized[0].centre_mm


def _run(shape: Shape, downhill: XY) -> tuple[XY, XY]:
    """Return the way of a drop from the middle of a shape to its edge."""
    x, y = shape.centre_mm
    far = (x + downhill[0] * _REACH_MM, y + downhill[1] * _REACH_MM)
    inside = shapely.intersection(shape.polygon, shapely.LineString(((x, y), far)))
    nearest = min(shapely.get_parts(inside), key=lambda part: part.distance(shapely.Point(x, y)))
    ends = shapely.get_coordinates(nearest)
    return (x, y), (float(ends[-1][0]), float(ends[-1][1]))
