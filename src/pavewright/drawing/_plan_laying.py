"""The laying plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._foot import Bold
from pavewright.drawing._grid import grid_of
from pavewright.drawing._piece_numbers import bay_joints, lines_across, numbers
from pavewright.drawing._scene import (
    DASHED,
    HAIR,
    MEDIUM,
    THICK,
    THIN,
    Arrow,
    Hatch,
    Path,
    Region,
    Sign,
    Stroke,
    Symbol,
)
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, folds_of, outlines, rings, site_key, site_points
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.geometry import joined, shape_from_polygon, shared, unit_vector, without
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea, Piece
    from pavewright.pipeline import Plan

BAY_JOINT = Stroke(0.6, (3.0, 1.0))
MAX_LEADERS = 24
"""Pieces too small for their number get it beside them, unless there are more of them than this."""
_EVERY = 5
"""Every fifth course has its number beside it."""
_COURSE_OFF_MM = (8.0, 10.0, 4.0)
"""How far before the beginning of a course its number stands on paper. [mm]"""
_BESIDE = ((0.0, -2.5), (-16.0, 2.5))
"""Where the mark of the start is tried, along the course and across it from the starting corner, on paper. [mm]"""
_STRIP = ((-1.6, -1.6), (14.0, -1.6), (14.0, 1.6), (-1.6, 1.6))
"""What the mark of the start takes on paper, along the course and across it. [mm]"""


def laying_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME, *, for_customer: bool = False) -> Scene:
    """Return every piece with its number; cut pieces hatched, slivers hatched twice, the starting corner marked.

    Args:
        plan: The plan.
        frame_mm: Room on paper. [mm]
        for_customer: Whether a customer sees it: pieces smaller than the trade accepts are cut pieces like others.
    """
    site = plan.survey.site
    sheet = Sheet(site_points(plan.survey), frame_mm, _key(plan, for_customer=for_customer), grid_of(plan))
    sheet.on("pieces")
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            small = piece.sliver and not for_customer
            hatch = Hatch.NONE if piece.kind is PieceKind.WHOLE else Hatch.SLIVER if small else Hatch.CUT
            sheet.add(Region(rings(piece.shape), hatch, THIN))
    draw_not_laid(sheet, plan)
    draw_site(sheet, site)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    sheet.on("pieces").add(
        *(Region(rings(zone.shape), Hatch.NONE, THICK) for laid in plan.laying.areas for zone in laid.zones)
    )
    folds = folds_of(plan)
    sheet.on("falls").add(*(Path((fold.start, fold.end), DASHED) for fold in folds))
    sheet.on("movement").add(*(Path(ends, BAY_JOINT) for ends in bay_joints(plan)))
    sheet.lines_done()
    _name_steps(sheet, plan)
    sheet.on("numbers")
    lines = lines_across(sheet, plan)
    too_small = [piece for laid in plan.laying.areas for piece in numbers(sheet, laid, lines)]
    for laid in plan.laying.areas:
        _start(sheet, plan, laid)
    sheet.on("numbers")
    _small(sheet, plan, too_small)
    for laid in plan.laying.areas:
        _courses(sheet, plan, laid)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene(
        "laying-plan",
        "Laying plan",
        "Every piece with its number in the order of laying; cut pieces hatched; "
        f"{'' if for_customer else 'slivers hatched twice; '}start marked.",
        site.north_bearing_deg,
    )


def _key(plan: Plan, *, for_customer: bool) -> tuple[KeyItem, ...]:
    return (
        (Hatch.WHITE, "whole"),
        (Hatch.CUT, "cut"),
        *(() if for_customer else ((Hatch.SLIVER, "sliver: smaller than accepted"),)),
        (Sign.BLOCK, "start, arrow along the courses"),
        (Bold("c5"), "fifth course, and so on"),
        *(((DASHED, "fold: cut along it"),) if folds_of(plan) else ()),
        *(((BAY_JOINT, "movement joint"),) if bay_joints(plan) else ()),
        *not_laid_key(plan),
        *site_key(plan.survey.site),
    )


def not_laid_key(plan: Plan) -> tuple[KeyItem, ...]:
    """Return the part of the key for gaps filled with mortar and of flights of steps."""
    return (
        *(((Hatch.FILLED, "gap filled with mortar"),) if any(laid.fills for laid in plan.laying.areas) else ()),
        *(
            ((Hatch.UNDER, "steps: no paving under them"),)
            if any(laid.under_steps for laid in plan.laying.areas)
            else ()
        ),
    )


def draw_not_laid(sheet: Sheet, plan: Plan, window: shapely.Polygon | None = None) -> None:
    """Draw gaps that mortar fills and the room of flights of steps, where no units are laid."""
    sheet.on("not-laid")
    for laid in plan.laying.areas:
        for hatch, stroke, shapes in (
            (Hatch.FILLED, HAIR, laid.fills),
            (Hatch.UNDER, MEDIUM, [each.shape for each in laid.under_steps]),
        ):
            for shape in shapes:
                seen = shape.polygon if window is None else shared(shape.polygon, window)
                for part in shapely.get_parts(seen):
                    if isinstance(part, shapely.Polygon) and not part.is_empty:
                        sheet.add(Region(rings(shape_from_polygon(part)), hatch, stroke))


def _name_steps(sheet: Sheet, plan: Plan) -> None:
    """Write the name of every flight where it stands, before the pieces take the room."""
    sheet.on("not-laid")
    for laid in plan.laying.areas:
        for each in laid.under_steps:
            sheet.label(each.shape.centre_mm, each.steps, MIN_TYPE_MM)


def _small(sheet: Sheet, plan: Plan, pieces: list[Piece]) -> None:
    """Write the numbers of pieces that are too small for them beside them where they are few; else say how many."""
    if len(pieces) > MAX_LEADERS:
        sheet.notes.append(f"{len(pieces)} small pieces bear no number here: see the parts of this plan.")
        return
    beside(sheet, plan, [(piece.shape.centre_mm, str(piece.number)) for piece in pieces], MIN_TYPE_MM)


def beside(sheet: Sheet, plan: Plan, numbers: list[tuple[XY, str]], height_mm: float) -> list[bool]:
    """Write numbers beside their pieces, each with a leader, and return which of them had room.

    They had better stand off the paving: a number in a piece is read as the number of that piece.
    """
    for at, _ in numbers:
        sheet.keep_clear(at, _END_MM)
    paved = joined([area.gross.polygon for area in plan.survey.site.areas])
    off = max(shapely.get_parts(without(shapely.box(*sheet.field), paved)), key=lambda part: part.area, default=None)
    return [sheet.label(at, number, height_mm, bold=True, led=True, home=off) for at, number in numbers]


_END_MM = 0.8
"""No other leader comes nearer to the end of a leader on paper. [mm]"""


def _directions(laid: LaidArea) -> tuple[XY, XY]:
    """Return the direction in which a course is laid, and the one in which courses follow each other."""
    turn = math.radians(laid.bearing_deg)
    along = math.sin(turn), math.cos(turn)
    across = -along[1], along[0]
    inside = _inside(laid)
    centres = {(piece.course, piece.place): piece.shape.centre_mm for piece in inside}
    pairs = [(centres[key], centres.get((key[0], key[1] + 1))) for key in centres]
    step = next(((a, b) for a, b in pairs if b is not None), None)
    if step is not None and _dot(along, step[0], step[1]) < 0.0:
        along = -along[0], -along[1]
    first, last = inside[0].shape.centre_mm, inside[-1].shape.centre_mm
    if _dot(across, first, last) < 0.0:
        across = -across[0], -across[1]
    return along, across


def _along_border(laid: LaidArea) -> tuple[XY, XY]:
    """Return the direction in which a border begins, and the one into the area."""
    whole = [piece for piece in laid.pieces if piece.border and piece.kind is PieceKind.WHOLE]
    first, after = (whole or laid.pieces)[:2]
    along = unit_vector(first.shape.centre_mm, after.shape.centre_mm)
    return along, (-along[1], along[0])


def _inside(laid: LaidArea) -> list[Piece]:
    """Return the pieces of the pattern, without a border; all where there is nothing but a border."""
    return [piece for piece in laid.pieces if not piece.border] or list(laid.pieces)


def _dot(direction: XY, start: XY, end: XY) -> float:
    return direction[0] * (end[0] - start[0]) + direction[1] * (end[1] - start[1])


def laid_directions(laid: LaidArea) -> tuple[XY, XY]:
    """Return the direction in which laying begins, and the one in which it goes on: of a border where there is one."""
    return _along_border(laid) if laid.border_courses else _directions(laid)


def _start(sheet: Sheet, plan: Plan, laid: LaidArea) -> None:
    """Mark the corner where laying starts and the direction of the first course, beside the paving."""
    if not laid.pieces:
        return
    along, across = laid_directions(laid)
    first = next((piece for piece in laid.pieces if not piece.zone), laid.pieces[0]).shape.outer
    corner = min(first, key=lambda at: _dot(along, (0.0, 0.0), at) + _dot(across, (0.0, 0.0), at))

    def beside(forth_mm: float, off_mm: float) -> XY:
        forth, off = sheet.mm(forth_mm), sheet.mm(off_mm)
        return (
            corner[0] + along[0] * forth + across[0] * off,
            corner[1] + along[1] * forth + across[1] * off,
        )

    # under the first course, or before it where other paving lies under it, or further off
    outer = plan.survey.site.area(laid.area).gross.outer
    back = max(_dot(along, point, corner) for point in outer) / sheet.scale
    for shift, off in (*_BESIDE, (-back - 16.0, 2.5), (-back - 16.0, -2.5)):
        strip = tuple(beside(shift + forth, off + side) for forth, side in _STRIP)
        if all(not area.gross.polygon.intersects(shapely.Polygon(strip)) for area in plan.survey.site.areas):
            sheet.on("start").add(Region((strip,), Hatch.WHITE))
            sheet.add(Arrow(beside(shift, off), beside(shift + 13.5, off), THICK))
            sheet.add(Symbol(beside(shift, off), Sign.BLOCK, 2.0))
            sheet.keep_clear_of(strip)
            sheet.label(beside(shift, off), f"start {laid.area}", 2.4, bold=True)
            return
    sheet.on("start").add(Symbol(corner, Sign.BLOCK, 2.0))
    sheet.label(corner, f"start {laid.area}", 2.4, bold=True)


def _courses(sheet: Sheet, plan: Plan, laid: LaidArea) -> None:
    """Write every fifth course's number at its beginning, clear of a wall that may stand there."""
    if not laid.pieces:
        return
    along, _ = _directions(laid)
    for piece in _inside(laid):
        if piece.place == 1 and piece.course % _EVERY == 0:
            at = piece.shape.centre_mm
            back = max(_dot(along, corner, at) for corner in piece.shape.outer)
            if laid.border_courses:
                back = _to_outline(plan, laid, along, at)
            places = [
                (at[0] - along[0] * (back + sheet.mm(off)), at[1] - along[1] * (back + sheet.mm(off)))
                for off in _COURSE_OFF_MM
            ]
            sheet.on("courses").write_if_free(places, f"c{piece.course}", 2.0)


def _to_outline(plan: Plan, laid: LaidArea, along: XY, at: XY) -> float:
    """Return how far it is from a place back against a direction to where its area ends. [mm]."""
    gross = plan.survey.site.area(laid.area).gross
    x1, y1, x2, y2 = gross.bounds_mm
    far = math.hypot(x2 - x1, y2 - y1)
    ray = shapely.LineString((at, (at[0] - along[0] * far, at[1] - along[1] * far)))
    ends = shapely.get_coordinates(shapely.intersection(ray, gross.polygon.exterior))
    return min((math.hypot(x - at[0], y - at[1]) for x, y in ends), default=0.0)
