"""Numbers of pieces: each as large as it can stand in its piece, clear of folds and movement joints."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.drawing._scene import Words
from pavewright.drawing._site_parts import folds_of
from pavewright.drawing._type import DIGITS, MIN_TYPE_MM, corners_of, width_of
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
    folds = [(fold.start, fold.end) for fold in folds_of(plan)]
    return shapely.MultiLineString([*folds, *bay_joints(plan)]).buffer(sheet.mm(_OFF_LINE_MM))


def numbers(
    sheet: Sheet,
    laid: LaidArea,
    lines: shapely.Geometry,
    shown: Iterable[Piece] | None = None,
    heights: tuple[float, ...] = _HEIGHTS_MM,
) -> list[Piece]:
    """Write numbers inside the pieces, whole ones all in one height, and return the pieces that have no room.

    Args:
        sheet: The sheet to write on.
        laid: The area.
        lines: What the numbers keep off.
        shown: The pieces of it that are shown; all of them where nothing is said.
        heights: Heights of the type on paper, the first that fits is taken. [mm]
    """
    pieces = sorted(
        laid.pieces if shown is None else shown, key=lambda piece: (piece.kind is not PieceKind.WHOLE, piece.number)
    )
    if not pieces:
        return []
    rooms = _rooms(pieces, lines)
    (longest,) = _written(laid, pieces[:1], ["8" * len(str(len(laid.pieces)))], rooms[:1], heights, sheet.scale)
    if longest is not None:
        heights = tuple(height for height in heights if height <= longest.height_mm)
    texts = [str(piece.number) for piece in pieces]
    before = shapely.STRtree([shapely.box(*box) for box in sheet.boxes()])
    small = []
    for piece, words in zip(pieces, _written(laid, pieces, texts, rooms, heights, sheet.scale), strict=True):
        if words is None or _is_on(words, before, sheet.scale):
            small.append(piece)
            continue
        sheet.add(words)
        sheet.keep_clear_of(corners_of(words, sheet.scale))
    return small


@dataclass(frozen=True, slots=True)
class _Room:
    """Where the number of a piece may stand: the ground that is free, and the places tried in it."""

    free: shapely.Geometry
    places: tuple[XY, ...]


def _rooms(pieces: list[Piece], lines: shapely.Geometry) -> list[_Room]:
    """Return the room of each piece: the largest part that the lines drawn through it leave."""
    shapely.prepare(lines)
    crossed = shapely.intersects(lines, [piece.shape.polygon for piece in pieces]).tolist()
    found = []
    for piece, is_crossed in zip(pieces, crossed, strict=True):
        free = piece.shape.polygon
        places = [] if is_crossed else [piece.shape.centre_mm]
        if is_crossed:
            free = max(shapely.get_parts(without(free, lines)), key=lambda part: part.area, default=free)
        if is_crossed or piece.kind is PieceKind.CUT:
            widest = shapely.get_coordinates(shapely.maximum_inscribed_circle(free, 1.0))[0]
            places += [(float(free.centroid.x), float(free.centroid.y)), (float(widest[0]), float(widest[1]))]
        found.append(_Room(free, tuple(places)))
    return found


def _written(
    laid: LaidArea,
    pieces: list[Piece],
    texts: list[str],
    rooms: list[_Room],
    heights: tuple[float, ...],
    scale: float,
) -> list[Words | None]:
    """Return numbers as large as they can stand in their pieces, along the course or across; None without room."""
    along = 90.0 - laid.bearing_deg
    turns = [turn - 180.0 * math.ceil((turn - 90.0) / 180.0) for turn in (along, along + 90.0)]
    cut = [piece.kind is PieceKind.CUT for piece in pieces]
    wide = np.array([width_of(text, 1.0, bold=bold) for text, bold in zip(texts, cut, strict=True)])
    found: list[Words | None] = [None] * len(pieces)
    waiting = list(range(len(pieces)))
    tries = range(max((len(room.places) for room in rooms), default=0))
    for height, turn, number in itertools.product(heights, turns, tries):
        able = [k for k in waiting if number < len(rooms[k].places)]
        if not able:
            continue
        places = [rooms[k].places[number] for k in able]
        roomy = _boxes(np.array(places), wide[able] * height * _AIR * scale, DIGITS * height * _AIR * scale, turn)
        fits = shapely.contains([rooms[k].free for k in able], roomy)
        for k, at, fit in zip(able, places, fits.tolist(), strict=True):
            if fit:
                found[k] = Words(at, texts[k], height, bold=cut[k], turn_deg=turn, white=cut[k])
        waiting = [k for k in waiting if found[k] is None]
    return found


def _is_on(words: Words, before: shapely.STRtree, scale: float) -> bool:
    """Return whether words stand on what was written before all numbers."""
    box = shapely.Polygon(corners_of(words, scale))
    return len(before.geometries) > 0 and before.query(box, predicate="intersects").size > 0


def _boxes(at: np.ndarray, wide_mm: np.ndarray, tall_mm: float, turn_deg: float) -> np.ndarray:
    """Return a box about each place, shape (n, 2) in and (n,) polygons out, as words in digits take it."""
    turn = math.radians(turn_deg)
    along, up = np.array((math.cos(turn), math.sin(turn))), np.array((-math.sin(turn), math.cos(turn)))
    half, rise = wide_mm[:, None] / 2.0 * along, tall_mm / 2.0 * up
    rings = np.stack([at - half - rise, at + half - rise, at + half + rise, at - half + rise], axis=1)
    return np.asarray(shapely.polygons(rings))
