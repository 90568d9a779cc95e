"""The laying plan in parts, as large as it takes for every piece to bear its number."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.drawing._piece_numbers import lines_across, numbers
from pavewright.drawing._plan_laying import MAX_LEADERS, draw_not_laid, not_laid_key
from pavewright.drawing._scene import DASHED, MEDIUM, THIN, Hatch, Path, Region
from pavewright.drawing._sheet import Sheet
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea, Piece
    from pavewright.pipeline import Plan

_SCALES = (50, 25, 20, 10)
"""Scales of the parts, the first with room for every number inside its piece or beside it is taken."""
_MAX_BESIDE = 60
"""So many numbers may stand beside their pieces on one part."""
_EXACT = 1e-6
"""A part of a window this small is none. [-]"""
_WINDOW_MM = (150.0, 170.0)
"""What a part shows, on paper. [mm]"""
_FRAME_MM = (270.0, 150.0)
"""Room on an A4 sheet that lies; one that stands is found from it. [mm]"""
_KEY: tuple[KeyItem, ...] = ((Hatch.WHITE, "whole"), (Hatch.CUT, "cut"), (DASHED, "fold: cut along it"))


@dataclass(frozen=True, slots=True)
class LayingPart:
    """A part of the laying plan.

    Attributes:
        scene: The drawing.
        unnumbered: Area and number of each piece that has no room for its number even here.
    """

    scene: Scene
    unnumbered: tuple[tuple[str, int], ...]


def laying_parts(plan: Plan) -> tuple[LayingPart, ...]:
    """Return the laying plan in parts on A4; none where the whole plan on A4 has room for every number."""
    areas = plan.laying.areas
    if not any(laid.pieces for laid in areas) or not _cramped(plan):
        return ()
    shapes = [piece.shape.polygon for laid in areas for piece in laid.pieces]
    whole = shapely.box(*shapely.total_bounds(shapes).tolist())
    parts = list(_parts(plan, whole, whole.bounds[:2], 0))
    return tuple(
        replace(part, scene=replace(part.scene, name=f"laying-part-{number}", title=f"{part.scene.title} {number}"))
        for number, part in enumerate(parts, start=1)
    )


def _cramped(plan: Plan) -> bool:
    """Return whether the whole plan on A4 leaves more pieces without a number than get it beside them."""
    sheet = Sheet([at for area in plan.survey.site.areas for at in area.gross.outer], _FRAME_MM, _KEY)
    lines = lines_across(sheet, plan)
    return sum(len(numbers(sheet, laid, lines)) for laid in plan.laying.areas) > MAX_LEADERS


def _parts(plan: Plan, over: shapely.Polygon, origin: XY, finer: int) -> Iterator[LayingPart]:
    """Give the parts over a place; one that has not room for its numbers is parted again at the next scale."""
    scale = _SCALES[finer]
    x1, y1, x2, y2 = over.bounds
    wide, high = (size * scale for size in _WINDOW_MM)
    columns, rows = math.ceil((x2 - x1) / wide - _EXACT), math.ceil((y2 - y1) / high - _EXACT)
    for row in range(max(1, rows)):
        for column in range(max(1, columns)):
            at = x1 + column * wide, y1 + row * high
            window = shapely.box(*at, min(at[0] + wide, max(x2, x1 + 1.0)), min(at[1] + high, max(y2, y1 + 1.0)))
            if not any(_at_home(list(laid.pieces), window) for laid in plan.laying.areas):
                continue
            last = finer + 1 == len(_SCALES)
            made = None if not last and _too_many(plan, window) else _part(plan, window, origin)
            if made is None or (made.unnumbered and not last):
                yield from _parts(plan, window, origin, finer + 1)
            else:
                yield made


def _too_many(plan: Plan, window: shapely.Polygon) -> bool:
    """Return whether more pieces of a window lack room for their number than leaders can be drawn to."""
    x1, y1, x2, y2 = window.bounds
    sheet = Sheet(((x1, y1), (x2, y2)), _FRAME_MM, _KEY)
    homes = [(laid, _at_home(list(laid.pieces), window)) for laid in plan.laying.areas]
    lines = lines_across(sheet, plan)
    return sum(len(numbers(sheet, laid, lines, pieces)) for laid, pieces in homes if pieces) > _MAX_BESIDE


def _part(plan: Plan, window: shapely.Polygon, origin: XY) -> LayingPart:
    x1, y1, x2, y2 = window.bounds
    key = _KEY if any(each.surface.folds for each in plan.levels.areas) else _KEY[:-1]
    key = (*key, *not_laid_key(plan))
    sheet = Sheet(((x1, y1), (x2, y2)), _FRAME_MM, key)
    shown = [(laid, _inside(laid, window)) for laid in plan.laying.areas]
    sheet.on("pieces")
    for _, pieces in shown:
        for piece in pieces:
            hatch = Hatch.NONE if piece.kind is PieceKind.WHOLE else Hatch.CUT
            for shape in shapely.get_parts(shapely.intersection(piece.shape.polygon, window)):
                if isinstance(shape, shapely.Polygon):
                    sheet.add(Region(_rings(shape), hatch, THIN))
    draw_not_laid(sheet, plan, window)
    sheet.on("outline")
    for area in plan.survey.site.areas:
        sheet.add(*_within(area.gross.polygon.boundary, window))
    folds = (fold for finished in plan.levels.areas for fold in finished.surface.folds)
    for fold in folds:
        for path in _within(shapely.LineString((fold.start, fold.end)), window):
            sheet.on("falls").add(Path(path.points, DASHED))
    sheet.lines_done()
    sheet.on("numbers")
    lines = lines_across(sheet, plan)
    homes = [(laid, _at_home(pieces, window)) for laid, pieces in shown]
    beside = [(laid, piece) for laid, pieces in homes for piece in numbers(sheet, laid, lines, pieces)]
    lost = tuple(
        (laid.area, piece.number)
        for laid, piece in beside
        if not sheet.label(piece.shape.centre_mm, str(piece.number), MIN_TYPE_MM, bold=True, led=True)
    )
    sheet.left_out = 0
    ends = [
        units.mm_to_m(each - zero)
        for each, zero in zip((x1, x2, y1, y2), (*origin[:1] * 2, *origin[1:] * 2), strict=True)
    ]
    sheet.notes.append(
        f"From the lower left corner of the paving: {ends[0]:.2f} to {ends[1]:.2f} m to the right, "
        f"{ends[2]:.2f} to {ends[3]:.2f} m up."
    )
    about = "Part of the laying plan: every piece with its number in the order of laying."
    north = plan.survey.site.north_bearing_deg
    return LayingPart(sheet.scene("laying-part", "Laying plan, part", about, north), lost)


def _inside(laid: LaidArea, window: shapely.Polygon) -> list[Piece]:
    return [piece for piece in laid.pieces if piece.shape.polygon.intersects(window)]


def _at_home(pieces: list[Piece], window: shapely.Polygon) -> list[Piece]:
    """Return the pieces whose middle lies in a window: each has its number on one part only."""
    x1, y1, x2, y2 = window.bounds
    middles = [(piece, piece.shape.centre_mm) for piece in pieces]
    return [piece for piece, (x, y) in middles if x1 <= x < x2 and y1 <= y < y2]


def _rings(shape: shapely.Polygon) -> tuple[tuple[XY, ...], ...]:
    return tuple(
        tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)
    )


def _within(line: shapely.Geometry, window: shapely.Polygon) -> list[Path]:
    parts = shapely.get_parts(shapely.line_merge(shapely.intersection(line, window)))
    return [
        Path(tuple((float(x), float(y)) for x, y in part.coords), MEDIUM)
        for part in parts
        if isinstance(part, shapely.LineString)
    ]
