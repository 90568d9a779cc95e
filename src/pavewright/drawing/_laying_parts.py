"""The laying plan in parts, as large as it takes for every piece to bear its number."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.drawing._piece_numbers import lines_across, numbers
from pavewright.drawing._plan_laying import MAX_LEADERS, beside, draw_not_laid, not_laid_key
from pavewright.drawing._scene import DASHED, MEDIUM, THIN, Hatch, Path, Region
from pavewright.drawing._sheet import Sheet
from pavewright.drawing._site_parts import folds_of
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
    mapped = tuple(Mapped.of(laid) for laid in areas)
    whole = shapely.box(*shapely.total_bounds(np.concatenate([each.shapes for each in mapped])).tolist())
    parts = list(_parts(plan, mapped, whole, whole.bounds[:2], 0))
    return tuple(
        replace(part, scene=replace(part.scene, name=f"laying-part-{number}", title=f"{part.scene.title} {number}"))
        for number, part in enumerate(parts, start=1)
    )


@dataclass(frozen=True, eq=False)
class Mapped:
    """An area as laid, with the shapes of its pieces and their middles for looking up many at once.

    Attributes:
        laid: The area.
        shapes: Shapes of its pieces in their order, shape (n,).
        middles: Their middles, shape (n, 2), float64. [mm]
    """

    laid: LaidArea
    shapes: np.ndarray
    middles: np.ndarray

    @classmethod
    def of(cls, laid: LaidArea) -> Mapped:
        """Return an area so."""
        shapes = np.array([piece.shape.polygon for piece in laid.pieces], dtype=object)
        middles = np.array([piece.shape.centre_mm for piece in laid.pieces], dtype=np.float64)
        return cls(laid, shapes, middles.reshape(-1, 2))

    def at_home(self, window: shapely.Polygon) -> list[Piece]:
        """Return the pieces whose middle lies in a window: each has its number on one part only."""
        x1, y1, x2, y2 = window.bounds
        x, y = self.middles[:, 0], self.middles[:, 1]
        return self._taken((x1 <= x) & (x < x2) & (y1 <= y) & (y < y2))

    def seen(self, window: shapely.Polygon) -> list[tuple[Piece, shapely.Geometry]]:
        """Return the pieces of which something is seen in a window, each with what is seen of it."""
        shapely.prepare(window)
        touched = shapely.intersects(window, self.shapes)
        return list(zip(self._taken(touched), shapely.intersection(self.shapes[touched], window), strict=True))

    def _taken(self, where: np.ndarray) -> list[Piece]:
        return [self.laid.pieces[number] for number in np.flatnonzero(where)]


def _cramped(plan: Plan) -> bool:
    """Return whether the whole plan on A4 leaves more pieces without a number than get it beside them."""
    sheet = Sheet([at for area in plan.survey.site.areas for at in area.gross.outer], _FRAME_MM, _KEY)
    lines = lines_across(sheet, plan)
    return sum(len(numbers(sheet, laid, lines)) for laid in plan.laying.areas) > MAX_LEADERS


def _parts(
    plan: Plan, mapped: tuple[Mapped, ...], over: shapely.Polygon, origin: XY, finer: int
) -> Iterator[LayingPart]:
    """Give the parts over a place; one that has not room for its numbers is split again at the next scale."""
    scale = _SCALES[finer]
    x1, y1, x2, y2 = over.bounds
    wide, high = (size * scale for size in _WINDOW_MM)
    columns, rows = math.ceil((x2 - x1) / wide - _EXACT), math.ceil((y2 - y1) / high - _EXACT)
    for row in range(max(1, rows)):
        for column in range(max(1, columns)):
            at = x1 + column * wide, y1 + row * high
            window = shapely.box(*at, min(at[0] + wide, max(x2, x1 + 1.0)), min(at[1] + high, max(y2, y1 + 1.0)))
            if not any(each.at_home(window) for each in mapped):
                continue
            last = finer + 1 == len(_SCALES)
            made = None if not last and _too_many(plan, mapped, window) else _part(plan, mapped, window, origin)
            if made is None or (made.unnumbered and not last):
                yield from _parts(plan, mapped, window, origin, finer + 1)
            else:
                yield made


def _too_many(plan: Plan, mapped: tuple[Mapped, ...], window: shapely.Polygon) -> bool:
    """Return whether more pieces of a window lack room for their number than leaders can be drawn to."""
    x1, y1, x2, y2 = window.bounds
    sheet = Sheet(((x1, y1), (x2, y2)), _FRAME_MM, _KEY)
    homes = [(each.laid, each.at_home(window)) for each in mapped]
    lines = lines_across(sheet, plan)
    return sum(len(numbers(sheet, laid, lines, pieces)) for laid, pieces in homes if pieces) > _MAX_BESIDE


def _part(plan: Plan, mapped: tuple[Mapped, ...], window: shapely.Polygon, origin: XY) -> LayingPart:
    x1, y1, x2, y2 = window.bounds
    key = _KEY if folds_of(plan) else _KEY[:-1]
    key = (*key, *not_laid_key(plan))
    sheet = Sheet(((x1, y1), (x2, y2)), _FRAME_MM, key)
    sheet.on("pieces")
    for each in mapped:
        for piece, seen in each.seen(window):
            hatch = Hatch.NONE if piece.kind is PieceKind.WHOLE else Hatch.CUT
            for shape in shapely.get_parts(seen):
                if isinstance(shape, shapely.Polygon):
                    sheet.add(Region(rings_of(shape), hatch, THIN))
    draw_not_laid(sheet, plan, window)
    sheet.on("outline")
    for area in plan.survey.site.areas:
        sheet.add(*within(area.gross.polygon.boundary, window))
    folds = folds_of(plan)
    for fold in folds:
        for path in within(shapely.LineString((fold.start, fold.end)), window):
            sheet.on("falls").add(Path(path.points, DASHED))
    sheet.lines_done()
    sheet.on("numbers")
    lines = lines_across(sheet, plan)
    homes = [(each.laid, each.at_home(window)) for each in mapped]
    small = [(laid, piece) for laid, pieces in homes for piece in numbers(sheet, laid, lines, pieces)]
    written = beside(sheet, plan, [(piece.shape.centre_mm, str(piece.number)) for _, piece in small], MIN_TYPE_MM)
    lost = tuple(
        (laid.area, piece.number) for (laid, piece), is_there in zip(small, written, strict=True) if not is_there
    )
    sheet.left_out = 0
    sheet.notes.append(_lies(window, origin))
    about = "Part of the laying plan: every piece with its number in the order of laying."
    north = plan.survey.site.north_bearing_deg
    sheet.tell_assumed(plan.survey.assumed)
    return LayingPart(sheet.scene("laying-part", "Laying plan, part", about, north), lost)


def _lies(window: shapely.Polygon, origin: XY) -> str:
    """Say where a part lies on the paving."""
    x1, y1, x2, y2 = window.bounds
    ends = [
        units.mm_to_m(each - zero)
        for each, zero in zip((x1, x2, y1, y2), (*origin[:1] * 2, *origin[1:] * 2), strict=True)
    ]
    return (
        f"From the lower left corner of the paving: {ends[0]:.2f} to {ends[1]:.2f} m to the right, "
        f"{ends[2]:.2f} to {ends[3]:.2f} m up."
    )


def rings_of(shape: shapely.Polygon) -> tuple[tuple[XY, ...], ...]:
    """Return the rings of a shape, the outer first. [mm]."""
    return tuple(
        tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)
    )


def within(line: shapely.Geometry, window: shapely.Polygon) -> list[Path]:
    """Return what is seen of a line in a window."""
    parts = shapely.get_parts(shapely.line_merge(shapely.intersection(line, window)))
    return [
        Path(tuple((float(x), float(y)) for x, y in part.coords), MEDIUM)
        for part in parts
        if isinstance(part, shapely.LineString)
    ]
