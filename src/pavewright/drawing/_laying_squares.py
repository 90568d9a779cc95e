"""The laying plan square by square of the site's grid, with numbers that are read at arm's length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.drawing._grid import SiteGrid, grid_of, square_name
from pavewright.drawing._laying_parts import Mapped, rings_of, within
from pavewright.drawing._piece_numbers import bay_joints, lines_across, numbers
from pavewright.drawing._plan_laying import BAY_JOINT, beside, draw_not_laid, not_laid_key
from pavewright.drawing._scene import DASHED, DOTTED, MEDIUM, THIN, Hatch, Path, Region
from pavewright.drawing._sheet import A4_FRAME, Sheet
from pavewright.drawing._site_parts import folds_of
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.pipeline import Plan

_HEIGHTS_MM = (6.4, 5.4, 4.8)
"""Heights of the type of numbers: figures of 3.5 mm are read at 0.7 m, and figures are 0.73 of their type. [mm]"""
_BESIDE_MM = 4.8
"""Height of numbers beside their pieces. [mm]"""


@dataclass(frozen=True, slots=True)
class LayingSquare:
    """A square of the laying plan.

    Attributes:
        name: Its name on the grid, such as B3.
        scene: The drawing.
        pieces: Area and number of each piece whose number stands on it.
        unnumbered: Those that have no room for their number.
    """

    name: str
    scene: Scene
    pieces: tuple[tuple[str, int], ...]
    unnumbered: tuple[tuple[str, int], ...]


def laying_squares(plan: Plan) -> tuple[LayingSquare, ...]:
    """Return the laying plan square by square, from the lower left corner row by row; none where nothing is laid."""
    grid = grid_of(plan)
    if grid is None or not any(laid.pieces for laid in plan.laying.areas):
        return ()
    mapped = tuple(Mapped.of(laid) for laid in plan.laying.areas)
    found = []
    for row in range(grid.rows):
        for column in range(grid.columns):
            window = shapely.box(*grid.box(column, row))
            if any(each.at_home(window) for each in mapped):
                found.append(_square(plan, mapped, window, grid, square_name(column, row)))
    return tuple(found)


def _square(plan: Plan, mapped: tuple[Mapped, ...], window: shapely.Polygon, grid: SiteGrid, name: str) -> LayingSquare:
    x1, y1, x2, y2 = window.bounds
    sheet = Sheet(((x1, y1), (x2, y2)), A4_FRAME, _key(plan))
    sheet.on("pieces")
    for each in mapped:
        for piece, seen in each.seen(window):
            hatch = Hatch.NONE if piece.kind is PieceKind.WHOLE else Hatch.CUT
            for shape in shapely.get_parts(seen):
                if isinstance(shape, shapely.Polygon):
                    sheet.add(Region(rings_of(shape), hatch, THIN))
    draw_not_laid(sheet, plan, window)
    sheet.on("grid").add(Path(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), DOTTED, closed=True))
    sheet.on("outline")
    for area in plan.survey.site.areas:
        sheet.add(*within(area.gross.polygon.boundary, window))
    lines = [((fold.start, fold.end), DASHED) for fold in folds_of(plan)]
    lines += [(ends, BAY_JOINT) for ends in bay_joints(plan)]
    for ends, pen in lines:
        sheet.on("falls").add(*(Path(path.points, pen) for path in within(shapely.LineString(ends), window)))
    sheet.lines_done()
    sheet.on("numbers")
    across = lines_across(sheet, plan)
    homes = [(each.laid, each.at_home(window)) for each in mapped]
    small = [(laid, piece) for laid, pieces in homes for piece in numbers(sheet, laid, across, pieces, _HEIGHTS_MM)]
    written = beside(sheet, plan, [(piece.shape.centre_mm, str(piece.number)) for _, piece in small], _BESIDE_MM)
    lost = tuple((laid.area, piece.number) for (laid, piece), there in zip(small, written, strict=True) if not there)
    sheet.left_out = 0
    if lost:
        many = f"{len(lost)} pieces have" if len(lost) > 1 else "1 piece has"
        sheet.notes.append(f"{many} no room for a number here: see the list of pieces.")
    sheet.notes.append(f"Square {name} of the grid on the laying plan, {units.mm_to_m(grid.pitch_mm):g} m each way.")
    about = f"Square {name} of the laying plan: every piece with its number in the order of laying; cut pieces hatched."
    sheet.tell_assumed(plan.survey.assumed)
    scene = sheet.scene(
        f"laying-square-{name.lower()}", f"Laying, square {name}", about, plan.survey.site.north_bearing_deg
    )
    return LayingSquare(
        name, scene, tuple((laid.area, piece.number) for laid, pieces in homes for piece in pieces), lost
    )


def _key(plan: Plan) -> tuple[KeyItem, ...]:
    return (
        (Hatch.WHITE, "whole"),
        (Hatch.CUT, "cut"),
        (MEDIUM, "edge"),
        *(((DASHED, "fold: cut along it"),) if folds_of(plan) else ()),
        *(((BAY_JOINT, "movement joint"),) if bay_joints(plan) else ()),
        *not_laid_key(plan),
    )
