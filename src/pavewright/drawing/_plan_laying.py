"""The laying plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import MEDIUM, THICK, THIN, Arrow, Path, Region, Symbol, Words
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, rings, site_points
from pavewright.drawing._svg import TYPE_WIDTH
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.laying import Piece
    from pavewright.pipeline import Plan

_MOST_LEADERS = 12
"""Pieces too small for their number get it beside them, unless there are more of them than this."""
_LARGEST_MM, _SMALLEST_MM = 2.8, 1.4
"""Height of the number of a piece on paper: no larger, and left out where it would have to be smaller. [mm]"""


def laying_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return every piece with its number; cut pieces hatched, slivers hatched twice, the starting corner marked."""
    sheet = Sheet(site_points(plan.survey), frame_mm)
    sheet.north(plan.survey.site.north_bearing_deg)
    sheet.scale_bar()
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            hatch = "none" if piece.kind is PieceKind.WHOLE else "sliver" if piece.sliver else "cut"
            sheet.add(Region(rings(piece.shape), hatch, THIN))
    draw_site(sheet, plan.survey.site)
    for laid in plan.laying.areas:
        area = plan.survey.site.area(laid.area)
        for ring in rings(area.gross):
            sheet.add(Path(ring, MEDIUM, closed=True))
        small = [piece for piece in laid.pieces if not _number(sheet, piece)]
        if len(small) <= _MOST_LEADERS:
            for piece in small:
                sheet.label(piece.shape.centre_mm, str(piece.number), 1.8, bold=True, away=6.0)
        _start(sheet, laid.pieces)
    return sheet.scene(
        "laying-plan",
        "Laying plan",
        "Every piece with its number in the order of laying; cut pieces hatched, slivers hatched twice; start marked.",
    )


def _number(sheet: Sheet, piece: Piece) -> bool:
    """Write the number of a piece inside it, and return whether there was room for it to be read."""
    text = str(piece.number)
    x1, y1, x2, y2 = piece.shape.bounds_mm
    wide, high = (x2 - x1) / sheet.scale, (y2 - y1) / sheet.scale
    turned = high > wide * 1.6 and wide < _LARGEST_MM * TYPE_WIDTH * len(text) * 1.2
    room_x, room_y = (high, wide) if turned else (wide, high)
    height = min(_LARGEST_MM, room_y * 0.6, room_x * 0.85 / (TYPE_WIDTH * len(text)))
    if height < _SMALLEST_MM:
        return False
    cut = piece.kind is PieceKind.CUT
    at = piece.shape.centre_mm
    sheet.add(Words(at, text, height, bold=cut, turn_deg=90.0 if turned else 0.0, white=cut))
    return True


def _start(sheet: Sheet, pieces: tuple[Piece, ...]) -> None:
    """Mark the first piece and the direction of the first course."""
    if not pieces:
        return
    first = pieces[0].shape.centre_mm
    sheet.add(Symbol((first[0], first[1] - sheet.mm(2.6)), "block", 1.8))
    along = [piece for piece in pieces if piece.course == 1]
    if len(along) > 1:
        toward = along[min(2, len(along) - 1)].shape.centre_mm
        low = sheet.mm(2.6)
        sheet.add(Arrow((first[0], first[1] - low), (toward[0], toward[1] - low), THICK))
