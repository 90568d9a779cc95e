"""Numbers of pieces: each as large as it can stand in its piece, clear of folds and movement joints."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._scene import Words
from pavewright.drawing._type import MIN_TYPE_MM, corners_of
from pavewright.geometry import without
from pavewright.laying import PieceKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.drawing._sheet import Sheet
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea, Piece
    from pavewright.pipeline import Plan

_HEIGHTS_MM = (3.2, MIN_TYPE_MM)
"""Heights of the number of a piece on paper, the first that fits is taken; left out where none does. [mm]"""
_OFF_LINE_MM = 0.6
"""How far a number keeps off the line of a fold or a movement joint on paper. [mm]"""
_AIR = 1.12
"""What room a number needs against its own size. [-]"""


def bay_joints(plan: Plan) -> list[tuple[XY, XY]]:
    """Return the movement joints that lie in straight joints."""
    return [ends for laid in plan.laying.areas for ends in laid.movement.placed]


def lines_across(sheet: Sheet, plan: Plan) -> shapely.Geometry:
    """Return the ground that folds and movement joints take on the sheet: no number stands on it."""
    folds = [(fold.start, fold.end) for finished in plan.levels.areas for fold in finished.surface.folds]
    return shapely.MultiLineString([*folds, *bay_joints(plan)]).buffer(sheet.mm(_OFF_LINE_MM))


def numbers(sheet: Sheet, laid: LaidArea, lines: shapely.Geometry, shown: Iterable[Piece] | None = None) -> list[Piece]:
    """Write numbers inside the pieces, whole ones all in one height, and return the pieces that have no room.

    Args:
        sheet: The sheet to write on.
        laid: The area.
        lines: What the numbers keep off.
        shown: The pieces of it that are shown; all of them where nothing is said.
    """
    pieces = sorted(
        laid.pieces if shown is None else shown, key=lambda piece: (piece.kind is not PieceKind.WHOLE, piece.number)
    )
    small = []
    heights: tuple[float, ...] = _HEIGHTS_MM
    longest = _fitting(sheet, laid, pieces[0], "8" * len(str(len(laid.pieces))), heights, lines) if pieces else None
    if longest is not None:
        heights = tuple(height for height in heights if height <= longest.height_mm)
    for piece in pieces:
        words = _fitting(sheet, laid, piece, str(piece.number), heights, lines)
        if words is None:
            small.append(piece)
            continue
        sheet.add(words)
        sheet.keep_clear_of(corners_of(words, sheet.scale))
    return small


def _fitting(
    sheet: Sheet, laid: LaidArea, piece: Piece, text: str, heights: tuple[float, ...], lines: shapely.Geometry
) -> Words | None:
    """Return a number as large as it can stand in a piece, along the course or across it; None without room.

    It keeps off the lines drawn through the piece: it stands in the largest part that they leave.
    """
    cut = piece.kind is PieceKind.CUT
    along = 90.0 - laid.bearing_deg
    turns = [turn - 180.0 * math.ceil((turn - 90.0) / 180.0) for turn in (along, along + 90.0)]
    room = piece.shape.polygon
    places = [piece.shape.centre_mm]
    crossed = bool(room.intersects(lines))
    if crossed:
        room = max(shapely.get_parts(without(room, lines)), key=lambda part: part.area, default=room)
        places = []
    if cut or crossed:
        widest = shapely.get_coordinates(shapely.maximum_inscribed_circle(room, 1.0))[0]
        places += [(float(room.centroid.x), float(room.centroid.y)), (float(widest[0]), float(widest[1]))]
    for height in heights:
        for turn in turns:
            for at in places:
                roomy = Words(at, text, height * _AIR, bold=cut, turn_deg=turn)
                if room.contains(shapely.Polygon(corners_of(roomy, sheet.scale))):
                    return Words(at, text, height, bold=cut, turn_deg=turn, white=cut)
    return None
