"""Pieces too narrow to be cut and laid: the finding, and options that were tried before they are said."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.geometry import without
from pavewright.laying._codes import Code
from pavewright.laying._words import pieces_of
from pavewright.laying.findings import _words_narrow as words
from pavewright.laying.findings._narrow_ways import filled_facts, narrow_ways
from pavewright.laying.pieces import sizes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying._types import Piece
    from pavewright.laying.setting import Workshop
    from pavewright.survey import PlanArea


def narrow_findings(shop: Workshop) -> tuple[Finding, ...]:
    """Return a stop where pieces are too narrow somewhere to be cut and laid."""
    thin = [(piece.neck_mm, piece) for piece in shop.pieces if piece.neck_mm is not None]
    if not thin:
        return ()
    width, worst = min(thin, key=lambda each: (each[0], each[1].number))
    figure = shop.known.min_width[shop.job.unit(worst.unit).kind]
    limit = sizes(shop.job.unit(worst.unit), shop.known).min_width_mm
    return (
        Finding(
            Code.TOO_NARROW,
            Severity.STOP,
            pieces_of(shop.area.name, [piece.number for _, piece in thin]),
            words.too_narrow(shop.area.name, len(thin), worst, width, limit),
            width,
            limit,
            "mm",
            figure,
            at_mm=worst.shape.centre_mm,
        ).with_options((*narrow_ways(shop), *_frames(shop, thin, limit), _filled(shop, thin, limit))),
    )


def filled_findings(area: PlanArea, fills: int, filled_m2: float) -> tuple[Finding, ...]:
    """Return what mortar fills instead of pieces."""
    if not fills:
        return ()
    return (
        Finding(
            Code.FILLED_NARROW,
            Severity.CHECK,
            f"area {area.name}",
            words.filled_narrow(area.name, fills, filled_m2),
            float(fills),
        ),
    )


def _frames(shop: Workshop, thin: Sequence[tuple[float, Piece]], limit_mm: float) -> tuple[Option, ...]:
    """Return the wider frame that takes the place of the arms beside a cover, a gully or a post."""
    holes = shapely.MultiLineString([hole.coords for hole in shop.area.shape.polygon.interiors])
    if holes.is_empty:
        return ()
    beside = [each for _, each in thin if float(shapely.distance(each.shape.polygon, holes)) < _BESIDE_MM]
    if not beside:
        return ()
    wider = max(_wider_mm(piece, holes, limit_mm) for piece in beside)
    if wider <= 0.0:
        return ()
    return (Option(words.wider_frame([piece.number for piece in beside], math.ceil(wider))),)


_BESIDE_MM = 60.0
"""A piece so near to what stands in the area lies beside it: no gap round it is wider. [mm]"""


def _wider_mm(piece: Piece, holes: shapely.Geometry, limit_mm: float) -> float:
    """Return how far the narrow room of a piece reaches from what stands in the area. [mm]."""
    outline = piece.shape.polygon
    inner = outline.buffer(-limit_mm / 2.0).buffer(limit_mm / 2.0, join_style="mitre", mitre_limit=20.0)
    parts = [each for each in shapely.get_parts(without(outline, inner)) if each.area > each.length]
    narrow = [each for each in parts if float(shapely.distance(each, holes)) < _BESIDE_MM]
    points = [shapely.Point(point) for each in narrow for point in shapely.get_coordinates(each)]
    return max((float(shapely.distance(point, holes)) for point in points), default=0.0)


def _filled(shop: Workshop, thin: Sequence[tuple[float, Piece]], limit_mm: float) -> Option:
    """Return mortar in place of what is too narrow; last, because it shows."""
    gap = limit_mm + 2.0 * shop.laying.joint_mm
    said = words.fill_with_mortar(limit_mm, len(thin), gap)
    return Option(said, (FieldChange(f"{shop.area.path}.laying.fill_narrow", value=True),), filled_facts(shop))
