"""Necks: which cut pieces have an arm, a web or a whole width too narrow to be cut and laid, by their true shape."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

if TYPE_CHECKING:
    from collections.abc import Sequence

_QUARTER = 4
"""Sides of a quarter of the disc that is run along the inside of a piece."""
_POINT = 20.0
"""A corner sharper than this many times its half width is an arm, not a point: under about 6 degrees."""
_HALVINGS = 7
"""So often the width of a neck is halved in: to less than a hundredth of the limit."""


def narrow(parts: np.ndarray, limit_mm: np.ndarray, absorbed_mm: float) -> np.ndarray:
    """Return which parts are narrower somewhere than their limit, of shape (n,).

    Each part is set in by half the limit and let out again, corners kept. It is narrow where nothing is left of it,
    where it falls apart, or where more of it stays away than joints take up. A tapered point is none: it is trimmed.

    Args:
        parts: Polygons, of shape (n,). [mm]
        limit_mm: Least width of each, of shape (n,). [mm]
        absorbed_mm: Trim that the joints take up. [mm]

    Source: definition, opening of a shape by a disc
    """
    if not len(parts):
        return np.zeros(0, dtype=bool)
    inner = shapely.buffer(parts, -limit_mm / 2.0, quad_segs=_QUARTER)
    found = shapely.is_empty(inner) | (shapely.get_num_geometries(inner) > 1)
    open_yet = np.flatnonzero(~found)
    away = _left_out(parts[open_yet], inner[open_yet], limit_mm[open_yet])
    found[open_yet] = ~shapely.is_empty(shapely.buffer(away, -absorbed_mm / 2.0, quad_segs=_QUARTER))
    answer: np.ndarray = found
    return answer


_ROUNDED_MM = 1e-3
"""An offset is let out by this, far below what a saw can tell, where it crosses itself. [mm]"""


def _left_out(parts: np.ndarray, inner: np.ndarray, limit_mm: np.ndarray) -> np.ndarray:
    """Return what of each part is not met when it is set in and let out again, of shape (n,)."""
    again = shapely.buffer(inner, limit_mm / 2.0, join_style="mitre", mitre_limit=_POINT)
    try:
        left: np.ndarray = shapely.difference(parts, again)
    except shapely.errors.GEOSException:
        left = np.array([_left_of(part, out) for part, out in zip(parts, again, strict=True)], dtype=object)
    return left


def _left_of(part: Polygon, out: shapely.Geometry) -> shapely.Geometry:
    """Return what of one part is not met, let out a little more where corners all but coincide; all of it at last."""
    for more_mm in (0.0, _ROUNDED_MM, 10.0 * _ROUNDED_MM):
        try:
            return shapely.difference(shapely.buffer(part, 0.0), shapely.buffer(out, more_mm))
        except shapely.errors.GEOSException:
            continue
    return part


def necks_mm(parts: Sequence[Polygon], limit_mm: Sequence[float], absorbed_mm: float) -> list[float | None]:
    """Return the narrowest width of each part that is narrower than its limit; None for every other. [mm].

    Args:
        parts: Polygons. [mm]
        limit_mm: Least width of each. [mm]
        absorbed_mm: Trim that the joints take up. [mm]
    """
    shapes, limits = np.array(parts, dtype=object), np.array(limit_mm, dtype=float)
    found: list[float | None] = [None] * len(parts)
    thin = np.flatnonzero(narrow(shapes, limits, absorbed_mm))
    low, high = np.zeros(len(thin)), limits[thin].copy()
    for _ in range(_HALVINGS if len(thin) else 0):
        middle = (low + high) / 2.0
        is_narrow = narrow(shapes[thin], middle, absorbed_mm)
        low, high = np.where(is_narrow, low, middle), np.where(is_narrow, middle, high)
    for place, width in zip(thin.tolist(), high.tolist(), strict=True):
        found[place] = width
    return found


def widened(part: Polygon, limit_mm: float, absorbed_mm: float) -> tuple[Polygon, ...]:
    """Return what may be laid of a part that is narrow somewhere: its parts without necks and arms, or none.

    Args:
        part: A part of a unit. [mm]
        limit_mm: Least width of a piece. [mm]
        absorbed_mm: Trim that the joints take up. [mm]
    """
    inner = shapely.get_parts(shapely.buffer(part, -limit_mm / 2.0, quad_segs=_QUARTER))
    let_out = shapely.buffer(inner, limit_mm / 2.0, join_style="mitre", mitre_limit=_POINT)
    kept = [
        piece
        for each in let_out
        for piece in shapely.get_parts(shapely.intersection(each, part))
        if isinstance(piece, Polygon) and piece.area > 0.0
    ]
    still = narrow(np.array(kept, dtype=object), np.full(len(kept), limit_mm), absorbed_mm)
    return tuple(piece for piece, is_narrow in zip(kept, still.tolist(), strict=True) if not is_narrow)
