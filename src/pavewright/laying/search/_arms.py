"""Arms: how wide a cut piece is left beside a corner where the outline turns inward, for every shift of a pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shapely.geometry import Polygon

_CURVE_DEG = 12.0
"""A corner that turns less than this is a point of a flattened arc. [deg]"""
_TINY_MM = 1e-6
_TINY = 1e-6
_SIDES = ((-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0))
"""Directions in which the sides of a unit face."""


def inner_turns(parts: Sequence[Polygon]) -> np.ndarray:
    """Return where the outline turns inward: true corners, and the outermost points of what is round.

    Returns:
        Place x, y; the direction x, y to what is left out there; cosine of half the angle that it takes; shape (r, 5).
    """
    found = [np.zeros((0, 5))]
    for part in parts:
        oriented = shapely.geometry.polygon.orient(part)
        for ring in (oriented.exterior, *oriented.interiors):
            points = np.array(ring.coords)[:-1]
            before, here = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
            before /= np.hypot(before[:, 0], before[:, 1])[:, None]
            here /= np.hypot(here[:, 0], here[:, 1])[:, None]
            cross = before[:, 0] * here[:, 1] - before[:, 1] * here[:, 0]
            turn = np.degrees(np.arctan2(cross, (before * here).sum(axis=1)))
            # what is left out lies to the right of both edges
            out = np.stack((before[:, 1] + here[:, 1], -before[:, 0] - here[:, 0]), axis=1)
            out /= np.maximum(np.hypot(out[:, 0], out[:, 1]), _TINY)[:, None]
            half = np.radians(180.0 + turn) / 2.0
            inward = turn <= -_CURVE_DEG
            if ring is not oriented.exterior:
                ends = [points[:, axis].argmin() for axis in (0, 1)] + [points[:, axis].argmax() for axis in (0, 1)]
                inward[ends] |= turn[ends] < 0.0
            found.append(np.column_stack((points, out, np.cos(half)))[inward])
    return np.vstack(found)


def arms(
    units: np.ndarray,
    turns: np.ndarray,
    min_width_mm: np.ndarray,
    shifts: np.ndarray,
    reach: tuple[float, float, float],
) -> np.ndarray:
    """Return how many arms are too narrow for each shift, those that joints take up left out; shape (m,).

    Args:
        units: Rectangles x1, y1, x2, y2 first, shape (n, 6). [mm]
        turns: Where the outline turns inward, shape (r, 5). [mm]
        min_width_mm: Narrowest arm of each unit, shape (n,). [mm]
        shifts: Shifts of all units, shape (m, 2). [mm]
        reach: How far shifts go along and across, and the trim that joints take up. [mm]
    """
    found = np.zeros(len(shifts))
    along, across, absorbed = reach
    for x, y, out_x, out_y, cosine in turns.tolist():
        near = (units[:, 0] < x) & (units[:, 2] + along > x) & (units[:, 1] < y) & (units[:, 3] + across > y)
        mine, least = units[near], min_width_mm[near]
        at = np.array((x, y)) - shifts
        apart = (
            at[:, 0, None] - mine[None, :, 0],
            at[:, 1, None] - mine[None, :, 1],
            mine[None, :, 2] - at[:, 0, None],
            mine[None, :, 3] - at[:, 1, None],
        )
        inside = np.logical_and.reduce([each > _TINY_MM for each in apart])
        for (nx, ny), width in zip(_SIDES, apart, strict=True):
            if nx * out_x + ny * out_y < cosine - _TINY:
                found += (inside & (width > absorbed) & (width < least[None, :])).sum(axis=1)
    return found
