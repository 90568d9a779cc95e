"""What an edge saves where the user lets it be moved: each is tried within its freedom, the best is really laid."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from shapely.geometry import Polygon

from pavewright.geometry import Ring, shape_from_polygon, without
from pavewright.laying._quick import counts_in

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import LaidArea
    from pavewright.survey import PlanArea, Survey

_STEP_MM = 5.0
"""An edge is moved by whole steps. [mm]"""
_MAX_STEPS = 60
"""So many steps either way at most; wider freedom is tried in wider steps."""

_LAID = 3
"""So many of the best moves are really laid, until one leaves no more that cannot be cut."""


@dataclass(frozen=True, slots=True)
class MovedEdge:
    """An edge moved square to itself, and what that makes of the area.

    Attributes:
        start: Corner from which the edge leaves.
        end: Corner at its end.
        out_mm: How far it is moved out of the area; negative into it. [mm]
        cut: Number of cut pieces then.
        slivers: Number of cut pieces smaller than wanted.
        units_with_offcuts: Units needed with offcuts used again.
        area_m2: Area then. [m²]
    """

    start: str
    end: str
    out_mm: float
    cut: int
    slivers: int
    units_with_offcuts: int
    area_m2: float


def moved_edges(
    job: Job, area: PlanArea, survey: Survey, known: LayingFigures, now: LaidArea, lay: Callable[[PlanArea], LaidArea]
) -> tuple[tuple[MovedEdge, ...], int]:
    """Return the best move of every edge that may be moved and saves a cut, and how many moves were counted.

    Args:
        job: The job.
        area: The area; edges with a freedom are tried, one at a time, with their neighbours drawn out or cut short.
        survey: What was measured, adjusted.
        known: Figures of this room.
        now: The area as it is laid now.
        lay: Lays a changed area.
    """
    found: list[MovedEdge] = []
    tried = 0
    for edge in area.area.edges:
        if edge.freedom_mm == 0.0:
            continue
        steps = min(math.floor(edge.freedom_mm / _STEP_MM + 1e-9), _MAX_STEPS)
        step = edge.freedom_mm / steps if steps == _MAX_STEPS else _STEP_MM
        counted = []
        for out_mm in (number * step for number in range(-steps, steps + 1) if number):
            changed = _moved(area, edge.corner, out_mm)
            counts = counts_in(job, _counted_as(changed), survey, known) if changed is not None else None
            if changed is not None and counts is not None:
                counted.append((counts.cut, abs(out_mm), out_mm, changed))
        tried += len(counted)
        side = area.side_from(edge.corner)
        for _, _, out_mm, changed in sorted(counted, key=lambda each: each[:3])[:_LAID]:
            laid = lay(changed)
            if laid.cut < now.cut and laid.unlayable <= now.unlayable:
                needed, area_m2 = laid.units_with_offcuts, changed.laid_m2
                found.append(MovedEdge(side.start.name, side.end.name, out_mm, laid.cut, laid.slivers, needed, area_m2))
                break
    return tuple(found), tried


def _counted_as(area: PlanArea) -> PlanArea:
    """Return an area as it is counted: a piece with an inner corner as one."""
    laying = area.area.laying.model_copy(update={"split_corners": False, "fill_narrow": False})
    return replace(area, area=area.area.model_copy(update={"laying": laying}))


def moved_words(area: str, moved: tuple[MovedEdge, ...], cut: int, units: int, tried: int) -> str:
    """Return in words what the edges that may be moved save; empty where none may."""
    if not tried:
        return ""
    if not moved:
        return f" Edges of {area} that may be moved were tried at {tried} places: none saves a cut."
    said = [
        f"{one.start}–{one.end} {abs(one.out_mm):.0f} mm {'out' if one.out_mm > 0.0 else 'in'} saves {cut - one.cut} "
        f"cuts and {units - one.units_with_offcuts} units"
        for one in moved
    ]
    return f" Edges that may be moved were tried at {tried} places: {'; '.join(said)}. None of the rest saves more."


def _moved(area: PlanArea, corner: str, out_mm: float) -> PlanArea | None:
    """Return an area with a straight side moved out; None where a curve is met, or nothing sound is left."""
    corners = list(area.ring.corners)
    side = area.side_from(corner)
    names = [each.name for each in corners]
    start = names.index(side.start.name)
    end = (start + 1) % len(corners)
    around = [corners[start - 1], corners[start], corners[end], corners[(end + 1) % len(corners)]]
    if len(corners) < len(around) or any(each.rise_mm for each in around[:3]):
        return None
    a, b = np.array(around[1].xy), np.array(around[2].xy)
    forth = (b - a) / np.hypot(*(b - a))
    shift = np.array((forth[1], -forth[0])) * out_mm
    first, last = (
        _meet(around[0].xy, around[1].xy, a + shift, forth),
        _meet(around[3].xy, around[2].xy, b + shift, forth),
    )
    if first is None or last is None:
        return None
    corners[start], corners[end] = (
        replace(corners[start], x_mm=first[0], y_mm=first[1]),
        replace(corners[end], x_mm=last[0], y_mm=last[1]),
    )
    ring = Ring(tuple(corners))
    outline = Polygon(ring.points())
    removed = without(Polygon(area.ring.points()), area.shape.polygon)
    left = without(outline, removed)
    if not outline.is_valid or not isinstance(left, Polygon) or left.is_empty:
        return None
    shape = shape_from_polygon(left)
    return replace(area, ring=ring, shape=shape, gross=shape)


def _meet(start: XY, through: XY, at: np.ndarray, forth: np.ndarray) -> XY | None:
    """Return where the line of a neighbouring side meets the moved side; None where they hardly do."""
    along = np.array(through) - np.array(start)
    cross = float(along[0] * forth[1] - along[1] * forth[0])
    if abs(cross) < _SQUARE_PART * float(np.hypot(*along)):
        return None
    away = at - np.array(start)
    part = float(away[0] * forth[1] - away[1] * forth[0]) / cross
    if part <= 0.0:
        return None
    return float(start[0] + part * along[0]), float(start[1] + part * along[1])


_SQUARE_PART = 0.2
"""Sine of the smallest angle at which a neighbouring side is drawn out."""
