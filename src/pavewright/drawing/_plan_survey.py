"""The survey plan: the site as it was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import CHAIN, DOTTED, MEDIUM, THICK, Hatch, Path, Sign, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import (
    SERVICE,
    caution_of,
    draw_services,
    draw_site,
    label_services,
    middle_of,
    outlines,
    site_key,
    site_points,
)
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.survey import PlacedBy
from pavewright.writing import level_mark, level_unit, size_mark

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.survey import AdjustedTapes, PlanWall, Survey, SurveyedPoint


def site_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return the site as it was measured: points, spot levels, walls, covers, drains, services, trees."""
    survey = plan.survey
    ground = set(plan.job.measurements.ground_spots)
    used = {corner.name for area in survey.site.areas for corner in area.ring.corners} | _spoken_of(survey.tapes)
    shown = [point for point in survey.points if point.name in used or point.name in ground or point.level_mm is None]
    sheet = Sheet(
        [*site_points(survey), *(point.xy for point in shown)],
        frame_mm,
        _key(plan),
        grid_of(plan),
        under=[caution_of(plan)],
    )
    taped = survey.tapes is not None and plan.job.measurements.tape_plan is not None
    if survey.tapes is not None and taped:
        places = {point.name: point.xy for point in survey.points}
        sheet.on("tapes")
        for tape in survey.tapes.residuals:
            sheet.add(Path((places[tape.start], places[tape.end]), DOTTED))
        _doubts(sheet, survey.tapes, places)
    for area in survey.site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    draw_site(sheet, survey.site)
    draw_services(sheet, survey.site)
    sheet.lines_done()
    _points(sheet, shown, used, ground)
    _slips(sheet, survey)
    _names(sheet, plan)
    for point in shown:
        if point.name in ground and point.level_mm is not None:
            sheet.on("ground").label(point.xy, level_mark(point.level_mm), MIN_TYPE_MM)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene(
        "survey-plan",
        "Survey plan",
        f"Measured points with their names, spot levels of the ground in {level_unit()}, walls with doors and air "
        "bricks, covers, drains, boundaries, known services and trees.",
        survey.site.north_bearing_deg,
    )


def _key(plan: Plan) -> tuple[KeyItem, ...]:
    survey = plan.survey
    found: list[KeyItem] = [
        (Sign.RING, "measured point"),
        (Sign.CROSS, f"ground level, {level_unit()}"),
        *site_key(survey.site),
    ]
    if any(map(_is_by_eye, survey.points)):
        found.insert(1, (Sign.SQUARE, "point placed by eye, not measured"))
    if survey.tapes is not None and plan.job.measurements.tape_plan is not None:
        found.append((DOTTED, "tape taken"))
        if survey.tapes.suspects:
            found.append((THICK, "tape in doubt: measure it again"))
        if survey.tapes.next_tape is not None:
            found.append((CHAIN, "tape that would help most"))
    if survey.site.services:
        found.append((SERVICE, "buried service reported: not the only one there may be"))
    if any(wall.air_bricks for wall in survey.site.walls):
        found.append((Hatch.BLACK, "air brick"))
    return tuple(found)


def _spoken_of(tapes: AdjustedTapes | None) -> set[str]:
    """Return the points that tapes in doubt or the next one run between: what is spoken of has its name on the plan."""
    if tapes is None:
        return set()
    found = {name for one in tapes.suspects for name in (one.start, one.end, *(n for pair in one.alike for n in pair))}
    return found if tapes.next_tape is None else found | {tapes.next_tape.start, tapes.next_tape.end}


def _doubts(sheet: Sheet, tapes: AdjustedTapes, places: Mapping[str, XY]) -> None:
    """Draw the tapes in doubt, and the one that would help most."""
    for suspect in tapes.suspects:
        for start, end in suspect.alike or ((suspect.start, suspect.end),):
            sheet.add(Path((places[start], places[end]), THICK))
    more = tapes.next_tape
    if more is not None:
        sheet.add(Path((places[more.start], places[more.end]), CHAIN))


def _slips(sheet: Sheet, survey: Survey) -> None:
    """Write at each tape in doubt how much it is off."""
    sheet.on("tapes")
    for suspect in survey.tapes.suspects if survey.tapes is not None else ():
        if suspect.slip_mm is not None:
            words = f"{size_mark(abs(suspect.slip_mm))} too {'long' if suspect.slip_mm > 0.0 else 'short'}?"
            start, end = (survey.point(name).xy for name in (suspect.start, suspect.end))
            sheet.label(middle_of(start, end), words, MIN_TYPE_MM, bold=True)
    more = survey.tapes.next_tape if survey.tapes is not None else None
    if more is not None:
        sheet.label(middle_of(survey.point(more.start).xy, survey.point(more.end).xy), "tape next", MIN_TYPE_MM)


def _points(sheet: Sheet, shown: list[SurveyedPoint], used: set[str], ground: set[str]) -> None:
    """Draw points: corners with their names, spots of the ground as crosses."""
    sheet.on("points")
    for point in shown:
        sign = Sign.SQUARE if _is_by_eye(point) else Sign.CROSS if point.name in ground else Sign.RING
        sheet.add(Symbol(point.xy, sign, 1.6))
        sheet.keep_clear(point.xy, 1.6)
    for point in shown:
        if point.name in used:
            sheet.label(point.xy, point.name, MIN_TYPE_MM, bold=True)


def _is_by_eye(point: SurveyedPoint) -> bool:
    """Return whether a point stands where a finger put it, on the sketch or on the plan."""
    return point.found_by is PlacedBy.SKETCH or (point.found_by is PlacedBy.GIVEN and point.sd_mm is not None)


def _names(sheet: Sheet, plan: Plan) -> None:
    """Write the names of what stands on the site, with the levels that bind."""
    site = plan.survey.site
    sheet.on("names")
    for placed in site.covers:
        under = f"{level_mark(placed.level_mm)}{' fixed' if placed.cover.fixed else ''}"
        sheet.label(placed.at, placed.cover.name, MIN_TYPE_MM, under=under)
    for gully in site.gullies:
        sheet.label(gully.at, gully.gully.name, MIN_TYPE_MM)
    for wall in site.walls:
        _wall_names(sheet, wall)
    for channel in site.channels:
        sheet.label_along((channel.start, channel.end), channel.name)
    for boundary in site.boundaries:
        sheet.label_along((boundary.start, boundary.end), f"boundary {boundary.name}")
    for tie in site.tie_ins:
        levels = f"{level_mark(tie.start_level_mm)} to {level_mark(tie.end_level_mm)}"
        sheet.label_along((tie.start, tie.end), tie.name, under=levels)
    label_services(sheet, plan)
    for tree in site.trees:
        sheet.label(tree.at, tree.tree.name, MIN_TYPE_MM)


def _wall_names(sheet: Sheet, wall: PlanWall) -> None:
    """Write the name of a wall with its damp-proof course, of its doors with thresholds, of its air bricks."""
    dpc = f"DPC {level_mark(wall.dpc_level_mm)}" if wall.is_house or wall.dpc_level_mm is not None else ""
    sheet.label_along((wall.start, wall.end), f"wall {wall.name}", under=dpc)
    for door in wall.openings:
        threshold = f"threshold {level_mark(door.threshold_level_mm)}"
        sheet.label(middle_of(door.start, door.end), door.name, MIN_TYPE_MM, under=threshold)
    for brick in wall.air_bricks:
        sheet.label(brick.at, brick.name, MIN_TYPE_MM, under=f"underside {level_mark(brick.underside_level_mm)}")
