"""Levels of a folded surface at least cost of cut and fill, every rule kept."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.levels.design._facet_rows import FallRange, shape_rows, site_rows, unknowns
from pavewright.levels.design._linear import Programme, solve

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    from pavewright.geometry import XY, FoldedSurface, TriangulatedSurface
    from pavewright.levels.design._arrangements import Arrangement
    from pavewright.levels.design._bounds import Bound
    from pavewright.levels.design._facet_rows import Unknowns
    from pavewright.levels.design._rule import Rule

SAMPLE_MM = 250.0
"""Distance of the places at which cut and fill are calculated while the levels are sought. [mm]"""
_ROUNDS = 8
"""More turns of the directions than any surface was seen to need."""
_BETTER = 1e-7
"""A gain smaller than this part of the cost ends the turning."""


@dataclass(frozen=True)
class Earth:
    """Ground under an area and what moving it costs.

    Attributes:
        places: East, north, level of the ground with its topsoil off, and area in square metres of each sample, shape
            (n, 4), float64.
        thickness_mm: Build-up under the finished level. [mm]
        cut_price: Price of a cubic metre dug, any currency. [minor units]
        fill_price: Price of a cubic metre filled. [minor units]
        topsoil_mm: Topsoil that is dug everywhere; None where its depth is not known, and it is left out. [mm]
    """

    places: np.ndarray
    thickness_mm: float
    cut_price: float
    fill_price: float
    topsoil_mm: float | None = None


@dataclass(frozen=True)
class Task:
    """What a surface has to meet.

    Attributes:
        arrangement: How it is folded.
        limits: What the site fixes.
        falls: Falls allowed.
        earth: The ground; None where it is not known: the surface then lies as high as it may.
    """

    arrangement: Arrangement
    limits: tuple[Bound, ...]
    falls: FallRange
    earth: Earth | None = None

    @property
    def is_held(self) -> bool:
        """Whether anything fixes how high the surface lies: a limit on either side, or the ground."""
        ends = (end for bound in self.limits for end in (bound.low_mm, bound.high_mm))
        return self.earth is not None or any(math.isfinite(end) for end in ends)


@dataclass(frozen=True)
class Designed:
    """A surface that keeps every rule.

    Attributes:
        arrangement: How it is folded.
        surface: Its facets.
        cost: Price of cut and fill under it; None where the ground is not known. [minor units]
        cut_m3: Soil dug, from the samples. [m³]
        fill_m3: Soil filled, from the samples. [m³]
        rounds: Linear programmes solved until the directions stood.
    """

    arrangement: Arrangement
    surface: FoldedSurface
    cost: float | None
    cut_m3: float
    fill_m3: float
    rounds: int


def design(task: Task, start: tuple[XY, ...] | None = None) -> Designed | None:
    """Return the cheapest surface that keeps every rule; None where none does.

    The least fall is asked along a direction of each facet, which is a plane condition that lies inside the true one.
    After each optimum a facet's direction becomes that of its own steepest fall: the optimum stays allowed, so that the
    cost never rises, and three to six rounds suffice.

    Args:
        task: What the surface has to meet.
        start: Directions to begin with; those of the arrangement if not given.

    Valid for: facets without holes; falls up to a few per cent, so that plan lengths hold.
    Source: definition, linear programme in levels and slopes; the least fall re-linearised
    """
    directions = start or tuple(facet.direction for facet in task.arrangement.facets)
    best: tuple[float, np.ndarray, Unknowns] | None = None
    rounds = 0
    while rounds < _ROUNDS:
        rounds += 1
        programme, columns = programme_of(task, directions)
        found = solve(programme)
        if found is None:
            break
        cost = float(np.dot(programme.cost, found))
        better = best is None or cost < best[0] - _BETTER * max(1.0, abs(best[0]))
        if best is None or cost < best[0]:
            best = cost, found, columns
        if not better or not task.arrangement.may_turn:
            break
        directions = own_directions(found, columns, directions)
    if best is None:
        return None
    _, found, columns = best
    surface = columns.surface(task.arrangement, found)
    cost_of, cut, fill = _earthworks(surface, task.earth)
    return Designed(task.arrangement, surface, cost_of, cut, fill, rounds)


def programme_of(task: Task, directions: tuple[XY, ...], leave: Rule | None = None) -> tuple[Programme, Unknowns]:
    """Return the linear programme of a task, without the rule of one thing if that is named."""
    programme = Programme()
    levels = [level for bound in task.limits for level in (bound.low_mm, bound.high_mm) if math.isfinite(level)]
    columns = unknowns(programme, task.arrangement, sum(levels) / len(levels) if levels else 0.0)
    shape_rows(programme, task.arrangement, columns, task.falls, directions)
    site_rows(programme, task.arrangement, columns, task.limits, leave)
    if task.earth is not None:
        _earth_rows(programme, task, columns, task.earth)
    else:
        sign = -1.0 if any(math.isfinite(bound.high_mm) for bound in task.limits) else 1.0
        for facet, column in zip(task.arrangement.facets, columns.first, strict=True):
            programme.cost[column] = sign * units.mm2_to_m2(facet.polygon.area)
    return programme, columns


def _earth_rows(programme: Programme, task: Task, columns: Unknowns, earth: Earth) -> None:
    """Add what is filled and what is dug at each sample, with its price."""
    owner = task.arrangement.facets_under(earth.places[:, :2])
    fill, cut = earth.fill_price, earth.cut_price
    for (px, py, ground, weight), facet in zip(earth.places.tolist(), owner.tolist(), strict=True):
        up = programme.column(fill * weight / units.MM_PER_M, 0.0)
        down = programme.column(cut * weight / units.MM_PER_M, 0.0)
        terms = columns.level(facet, (px, py))
        terms[up], terms[down] = -1.0, 1.0
        wanted = ground + earth.thickness_mm - columns.datum_mm
        programme.row(None, terms, wanted, wanted)


def own_directions(found: np.ndarray, columns: Unknowns, before: tuple[XY, ...]) -> tuple[XY, ...]:
    """Return the direction of the steepest fall of each facet; the one before where a facet is level."""
    turned = []
    for column, old in zip(columns.first, before, strict=True):
        ax, ay = float(found[column + 1]), float(found[column + 2])
        steep = math.hypot(ax, ay)
        turned.append((-ax / steep, -ay / steep) if steep > 0.0 else old)
    return tuple(turned)


def _earthworks(surface: FoldedSurface, earth: Earth | None) -> tuple[float | None, float, float]:
    if earth is None:
        return None, 0.0, 0.0
    levels = surface.levels_at(earth.places[:, 0], earth.places[:, 1])
    up = levels - earth.thickness_mm - earth.places[:, 2]
    stripped = float(np.sum(earth.places[:, 3])) * (earth.topsoil_mm or 0.0)
    cut = units.mm_to_m(float(np.dot(np.maximum(-up, 0.0), earth.places[:, 3])) + stripped)
    fill = units.mm_to_m(float(np.dot(np.maximum(up, 0.0), earth.places[:, 3])))
    return cut * earth.cut_price + fill * earth.fill_price, cut, fill


def samples(polygon: Polygon, ground: TriangulatedSurface, step_mm: float = SAMPLE_MM) -> np.ndarray:
    """Return places of an area with the ground level and the part of its area that each stands for, shape (n, 4).

    Past the outermost spot levels the ground runs on from the nearest triangle.
    """
    min_x, min_y, max_x, max_y = polygon.bounds
    across = max(2, math.ceil((max_x - min_x) / step_mm))
    up = max(2, math.ceil((max_y - min_y) / step_mm))
    x = min_x + (np.arange(across) + 0.5) * (max_x - min_x) / across
    y = min_y + (np.arange(up) + 0.5) * (max_y - min_y) / up
    xs, ys = (grid.ravel() for grid in np.meshgrid(x, y))
    inside = shapely.contains_xy(polygon, xs, ys)
    xs, ys = xs[inside], ys[inside]
    levels = ground.levels_beyond(xs, ys)
    share = units.mm2_to_m2(polygon.area) / len(xs)
    return np.column_stack([xs, ys, levels, np.full(len(xs), share)])
