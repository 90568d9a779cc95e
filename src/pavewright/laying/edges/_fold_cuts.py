"""Units across a fold: cut along it, laid whole where that shows no lip, or a stop where neither can be."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity, worded
from pavewright.laying._codes import Code
from pavewright.laying._types_parts import NO_FOLD_CUTS, FoldCuts
from pavewright.laying._words import pieces_of
from pavewright.laying.edges import _words as words
from pavewright.laying.pieces import frame_of, necks_mm, sizes
from pavewright.laying.setting import kept_parts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from shapely.geometry import Polygon

    from pavewright.geometry import FoldedSurface
    from pavewright.job import Job, Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.setting import Workshop
    from pavewright.survey import PlanArea

_JOINT_MM = 3.0
"""A fold this near to the edge of a unit lies in its joint. [mm]"""
_TRIES = 8
"""So many starts are tried along and across the courses, over the period of the pattern."""


@dataclass(frozen=True, slots=True)
class Across:
    """One unit across a fold.

    Attributes:
        cut: Whether it is cut: more than one part of it is wide enough to be laid.
        saw_mm: Length of the cuts along folds. [mm]
        width_mm: Min width of a part that is laid. [mm]
        neck_mm: Width of the narrowest part where one is too narrow to be laid, else None. [mm]
        lip_mm: Max height by which such parts stand out of the surface, each left on a wide part beside it. [mm]
    """

    cut: bool
    saw_mm: float
    width_mm: float
    neck_mm: float | None
    lip_mm: float


def across_fold(
    outline: Polygon, surface: FoldedSurface, folds: shapely.Geometry, limit_mm: float, absorbed_mm: float
) -> Across:
    """Return what folds make of a unit: a part too narrow to be laid stays on the wide part where it shows least.

    Source: definition, the lip is the height between the plane of the wide part and the surface
    """
    parts = _parted(outline, folds)
    if not parts:
        return Across(cut=True, saw_mm=_long(outline, folds), width_mm=math.inf, neck_mm=None, lip_mm=0.0)
    necks = necks_mm(parts, [limit_mm] * len(parts), absorbed_mm)
    wide = [part for part, neck in zip(parts, necks, strict=True) if neck is None]
    wide = wide or [max(parts, key=lambda part: part.area)]
    thin = [part for part in parts if part not in wide]
    groups: list[shapely.Geometry] = list(wide)
    lip = 0.0
    for part in thin:
        beside = [k for k, each in enumerate(wide) if part.boundary.intersection(each.boundary).length > _TOUCHING_MM]
        lips = {k: _lip_mm(part, wide[k], surface) for k in beside or range(len(wide))}
        home = min(lips, key=lambda k: lips[k])
        lip = max(lip, lips[home])
        groups[home] = shapely.union(groups[home], part)
    saw = (math.fsum(shapely.length(each) for each in groups) - outline.length) / 2.0
    found = [neck for neck in necks if neck is not None]
    width = min(_min_width_mm(each) for each in groups)
    return Across(len(groups) > 1, max(0.0, saw), width, min(found, default=None), lip)


_TOUCHING_MM = 1.0
"""Parts that share more of a side than this lie beside each other. [mm]"""


def _long(outline: Polygon, folds: shapely.Geometry) -> float:
    return float(outline.intersection(folds).length)


def _lip_mm(part: Polygon, wide: Polygon, surface: FoldedSurface) -> float:
    """Return how far a part stands out of the surface at most where it lies in the plane of another. [mm]."""
    body = wide.representative_point()
    plane = surface.facet_at((body.x, body.y)).plane
    corners = shapely.get_coordinates(part).tolist()
    return max(abs(plane.level_at((x, y)) - surface.level_at((x, y))) for x, y in corners)


def fold_lines(surface: FoldedSurface) -> shapely.Geometry:
    """Return the folds of a surface in plan; empty for one plane."""
    return shapely.MultiLineString([(fold.start, fold.end) for fold in surface.folds])


def cuts_along_folds(surface: FoldedSurface, pieces: tuple[Piece, ...], job: Job, known: LayingFigures) -> FoldCuts:
    """Return which pieces lie across a fold and how much is cut there: no flat unit follows a fold.

    Where too narrow a part would be left it is not cut off: it stays on the part beside it, if it then stands out by
    no more than one unit may over the next.
    """
    folds = fold_lines(surface)
    if shapely.is_empty(folds):
        return NO_FOLD_CUTS
    lip = known.step_between_units.value
    crossed = [piece for piece in _near(pieces, folds) if piece.shape.polygon.buffer(-_JOINT_MM).intersects(folds)]
    limits = {unit.name: sizes(unit, known) for unit in job.units}
    found = [
        (piece.number, across_fold(piece.shape.polygon, surface, folds, one.min_width_mm, one.absorbed_mm))
        for piece in crossed
        for one in (limits[piece.unit],)
    ]
    cut = [(number, each) for number, each in found if each.cut and each.lip_mm <= lip]
    uncut = [(number, each) for number, each in found if each.neck_mm is not None and each.lip_mm <= lip]
    wrong = [(number, each) for number, each in found if each.neck_mm is not None and each.lip_mm > lip]
    return FoldCuts(
        pieces=tuple(number for number, _ in cut),
        saw_m=units.mm_to_m(math.fsum(each.saw_mm for _, each in cut)),
        narrowest_mm=min((each.width_mm for _, each in cut if math.isfinite(each.width_mm)), default=0.0),
        uncut=tuple(number for number, _ in uncut),
        uncut_lip_mm=max((each.lip_mm for _, each in uncut), default=0.0),
        too_narrow=tuple(number for number, _ in wrong),
        neck_mm=min((each.neck_mm for _, each in wrong if each.neck_mm is not None), default=None),
        lip_mm=max((each.lip_mm for _, each in wrong), default=0.0),
    )


def _near(pieces: tuple[Piece, ...], folds: shapely.Geometry) -> list[Piece]:
    """Return the pieces whose boxes the folds touch: no other lies across one."""
    if not pieces:
        return []
    outlines = [piece.shape.outer for piece in pieces]
    starts = np.cumsum([0, *(len(outline) for outline in outlines[:-1])])
    points = np.array([point for outline in outlines for point in outline])
    low, high = np.minimum.reduceat(points, starts), np.maximum.reduceat(points, starts)
    shapely.prepare(folds)
    touched = shapely.intersects(folds, shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    return [pieces[number] for number in np.flatnonzero(touched)]


def _parted(outline: shapely.Polygon, folds: shapely.Geometry) -> list[Polygon]:
    """Return the parts that the folds leave of a unit; none where a fold ends inside it."""
    net = shapely.node(shapely.union_all([outline.boundary, outline.intersection(folds)]))
    parts = [
        part for part in shapely.get_parts(shapely.polygonize([net])) if outline.contains(part.representative_point())
    ]
    return parts if len(parts) > 1 else []


def _min_width_mm(part: shapely.Geometry) -> float:
    """Return the shorter side of the smallest box, however it lies, round a part. [mm]."""
    box = shapely.get_coordinates(shapely.oriented_envelope(part))
    return float(min(math.dist(box[0], box[1]), math.dist(box[1], box[2])))


def fold_findings(
    area: PlanArea,
    cuts: FoldCuts,
    pieces: tuple[Piece, ...],
    shops: Sequence[Workshop],
    surface: FoldedSurface,
    known: LayingFigures,
) -> tuple[Finding, ...]:
    """Return what is noticed where units lie across a fold: cut along it, laid whole, or neither."""
    at = {piece.number: piece for piece in pieces}
    found = [*_cut(area, cuts, at), *_uncut(area, cuts, at, known)]
    if cuts.too_narrow and cuts.neck_mm is not None:
        found.append(_stop(area, cuts, at, known).with_options((*_starts(cuts, at, shops, surface), *_OTHER_WAYS)))
    return tuple(found)


_OTHER_WAYS = (
    Option(words.lay_fold_as_course()),
    Option(words.fold_elsewhere()),
)


def _cut(area: PlanArea, cuts: FoldCuts, at: dict[int, Piece]) -> list[Finding]:
    if not cuts.pieces:
        return []
    return [
        Finding(
            Code.UNITS_CROSS_FOLD,
            Severity.NOTE,
            f"area {area.name}",
            words.units_cross_fold(area.name, cuts),
            float(len(cuts.pieces)),
            options=worded(words.joint_in_fold()),
            at_mm=at[cuts.pieces[0]].shape.centre_mm,
        )
    ]


def _uncut(area: PlanArea, cuts: FoldCuts, at: dict[int, Piece], known: LayingFigures) -> list[Finding]:
    if not cuts.uncut:
        return []
    figure = known.step_between_units
    return [
        Finding(
            Code.UNCUT_AT_FOLD,
            Severity.NOTE,
            pieces_of(area.name, cuts.uncut),
            words.uncut_at_fold(area.name, cuts, figure.value),
            cuts.uncut_lip_mm,
            figure.value,
            "mm",
            figure,
            at_mm=at[cuts.uncut[0]].shape.centre_mm,
        )
    ]


def _stop(area: PlanArea, cuts: FoldCuts, at: dict[int, Piece], known: LayingFigures) -> Finding:
    figure = known.step_between_units
    return Finding(
        Code.TOO_NARROW_AT_FOLD,
        Severity.STOP,
        pieces_of(area.name, cuts.too_narrow),
        words.too_narrow_at_fold(area.name, cuts, figure.value),
        cuts.lip_mm,
        figure.value,
        "mm",
        figure,
        at_mm=at[cuts.too_narrow[0]].shape.centre_mm,
    )


def _starts(
    cuts: FoldCuts, at: dict[int, Piece], shops: Sequence[Workshop], surface: FoldedSurface
) -> Iterator[Option]:
    """Give the smallest move of the start, really clipped, after which no part at a fold is too narrow."""
    zones = {at[number].zone for number in cuts.too_narrow}
    mine = [shop for shop in shops if {piece.number for piece in shop.pieces} >= set(cuts.too_narrow)]
    if len(zones) > 1 or not mine or not mine[0].counted:
        return
    shop = mine[0]
    wide, deep = shop.setting.layout.period_mm
    steps = [step / _TRIES for step in range(-_TRIES // 2, _TRIES // 2 + 1)]
    moves = sorted(
        ((round(x * wide), round(y * deep)) for x, y in itertools.product(steps, steps)),
        key=lambda move: (abs(move[0]) + abs(move[1]), move),
    )
    for along, across in moves[1:]:
        laying = shop.laying
        fields = {
            "shift_along_mm": round(laying.shift_along_mm + along, 2),
            "shift_across_mm": round(laying.shift_across_mm + across, 2),
        }
        changed = laying.model_copy(update=fields)
        counts = shop.tried(changed)
        if counts is None or counts[0] > shop.now[0] or _wrong(shop, changed, surface):
            continue
        yield Option(
            words.move_start(along, across, counts[2]),
            tuple(FieldChange(f"{shop.area.path}.laying.{field}", value) for field, value in fields.items()),
        )
        return


def _wrong(shop: Workshop, laying: Laying, surface: FoldedSurface) -> bool:
    """Return whether another way of laying leaves a part at a fold that can neither be cut off nor left on."""
    found = shop.setting_with(laying)
    if found is None:
        return True
    area, setting = found
    frame, folds = frame_of(area, shop.survey), fold_lines(surface)
    lip = shop.known.step_between_units.value
    kept, _ = kept_parts(setting, laying, shop.known)
    shapes = frame.out_of(shapely.MultiPolygon([each.part for each in kept]))
    near = shapely.get_parts(shapes)
    crossed = shapely.intersects(shapely.buffer(near, -_JOINT_MM), folds)
    for each, outline, is_crossed in zip(kept, near, crossed.tolist(), strict=True):
        if not is_crossed:
            continue
        one = sizes(setting.units[each.size], shop.known)
        met = across_fold(outline, surface, folds, one.min_width_mm, one.absorbed_mm)
        if met.neck_mm is not None and met.lip_mm > lip:
            return True
    return False
