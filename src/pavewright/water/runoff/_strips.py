"""A paved area cut into strips along the fall, each with the piece of edge that it reaches first."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.geometry import XY

_APART_MM = 1e-6
"""Cuts closer together than this are one. [mm]"""


@dataclass(frozen=True, slots=True)
class Strip:
    """What drains to one straight piece of edge.

    Attributes:
        polygon: The strip, on the site. [mm]
        foot: Middle of the piece of edge that it reaches. [mm]
        foot_start: One end of that piece. [mm]
        foot_end: Its other end. [mm]
    """

    polygon: Polygon
    foot: XY
    foot_start: XY
    foot_end: XY


def strips(domain: Polygon, downhill: XY, cut_at: Iterable[XY]) -> tuple[Strip, ...]:
    """Return strips that tile a polygon exactly, each draining to one piece of its edge.

    The polygon is turned so that water runs down the page, then cut at every corner and at every stated point, so that
    each strip has one straight piece of edge below it. Water that meets an inner edge stops there.

    Args:
        domain: Polygon with holes. [mm]
        downhill: Direction of the steepest fall, length one.
        cut_at: Points where what stands at the edge begins or ends. [mm]

    Valid for: one plane, not level.
    Source: definition, on a plane every drop follows the steepest fall
    """
    cos, sin = -downhill[1], -downhill[0]
    turn = np.array(((cos, sin), (-sin, cos)))
    rings = [shapely.get_coordinates(ring) @ turn for ring in (domain.exterior, *domain.interiors)]
    edges = np.vstack([np.hstack((ring[:-1], ring[1:])) for ring in rings])
    left = edges[:, 0] > edges[:, 2]
    edges[left] = edges[left][:, [2, 3, 0, 1]]
    corners = np.concatenate((edges[:, 0], edges[:, 2]))
    extra = np.array(list(cut_at), dtype=np.float64).reshape(-1, 2) @ turn
    lines = np.unique(np.concatenate((corners, extra[:, 0])))
    lines = lines[(lines >= corners.min()) & (lines <= corners.max())]
    back = turn.T
    found: list[Strip] = []
    for low, high in itertools.pairwise(lines.tolist()):
        if high - low < _APART_MM:
            continue
        found.extend(_between(edges, low, high, back))
    return tuple(found)


def _between(edges: np.ndarray, low: float, high: float, back: np.ndarray) -> list[Strip]:
    """Return the strips between two cuts: edges crossing both come in pairs, one below and one above the paving."""
    middle = (low + high) / 2.0  # no corner lies between two cuts, so that the edges over the middle come in pairs
    spanning = edges[(edges[:, 0] < middle) & (edges[:, 2] > middle)]
    slopes = (spanning[:, 3] - spanning[:, 1]) / (spanning[:, 2] - spanning[:, 0])
    at_low = spanning[:, 1] + slopes * (low - spanning[:, 0])
    at_high = spanning[:, 1] + slopes * (high - spanning[:, 0])
    order = np.argsort(at_low + at_high, kind="stable")
    found = []
    for below, above in zip(order[0::2], order[1::2], strict=True):
        ring = np.array(((low, at_low[below]), (high, at_high[below]), (high, at_high[above]), (low, at_low[above])))
        polygon = Polygon(ring @ back)
        if polygon.area <= 0.0:
            continue
        feet = ring[:2] @ back
        start, end = _xy(feet[0]), _xy(feet[1])
        found.append(Strip(polygon, ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0), start, end))
    return found


def _xy(point: np.ndarray) -> XY:
    return float(point[0]), float(point[1])


def direction_is_level(fall: float) -> bool:
    """Return whether a surface is too nearly level for water to know where to run.

    Args:
        fall: Fall of the surface. [rise over run]
    """
    return math.isclose(fall, 0.0, abs_tol=1e-9)
