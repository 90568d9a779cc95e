"""The rows of a folded surface: joins, falls, drainage, valleys, and what the site fixes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import Facet, FoldedSurface, Plane, distance
from pavewright.levels.design._arrangements import touches
from pavewright.levels.design._rule import DRAINS, FACETS_MEET, MIN_FALL, ONE_RISER, STEEPEST, VALLEY_FALL

if TYPE_CHECKING:
    import numpy as np

    from pavewright.geometry import XY
    from pavewright.levels.design._arrangements import Arrangement
    from pavewright.levels.design._bounds import Bound
    from pavewright.levels.design._linear import Programme
    from pavewright.levels.design._rule import Rule

_SIDES = 64
"""Sides of the polygon that stands for the circle of slopes allowed; it lies inside the circle.

With 64 a slope is up to 0.12 % flatter than it might be; with 16 it was up to 1.9 %."""
_KEEPS_WAY = 0.5
"""Part of the least fall that stays in the direction first chosen: a turn of 60 degrees at most."""


@dataclass(frozen=True, slots=True)
class FallRange:
    """Falls allowed, rise over run: least and steepest of a facet, least along a valley.

    Attributes:
        least: Least fall of a facet. [rise over run]
        steepest: Steepest fall of a facet. [rise over run]
        valley: Least fall along a valley. [rise over run]
    """

    least: float
    steepest: float
    valley: float


@dataclass(frozen=True, slots=True)
class Unknowns:
    """Where the columns of the facets stand: level at the middle, and slopes in mm to the metre.

    Attributes:
        first: Column of the level of each facet.
        middles: Middle of each facet. [mm]
        datum_mm: Level that is taken off all levels, so that columns stay small. [mm]
    """

    first: tuple[int, ...]
    middles: tuple[XY, ...]
    datum_mm: float

    def level(self, facet: int, at: XY) -> dict[int, float]:
        """Return the level of a facet at a place as a sum over columns, less the datum. [mm]."""
        x0, y0 = self.middles[facet]
        column = self.first[facet]
        return {
            column: 1.0,
            column + 1: units.mm_to_m(at[0] - x0),
            column + 2: units.mm_to_m(at[1] - y0),
        }

    def surface(self, arrangement: Arrangement, found: np.ndarray) -> FoldedSurface:
        """Return the surface that the solved columns give."""
        facets = []
        for facet, column, middle in zip(arrangement.facets, self.first, self.middles, strict=True):
            level, along_x, along_y = (float(value) for value in found[column : column + 3])
            plane = Plane(level + self.datum_mm, middle, along_x / units.MM_PER_M, along_y / units.MM_PER_M)
            facets.append(Facet(facet.outline, plane))
        return FoldedSurface(tuple(facets))


def unknowns(programme: Programme, arrangement: Arrangement, datum_mm: float) -> Unknowns:
    """Add three columns for each facet."""
    first, middles = [], []
    for facet in arrangement.facets:
        middles.append(facet.middle)
        first.append(programme.column())
        programme.column()
        programme.column()
    return Unknowns(tuple(first), tuple(middles), datum_mm)


def shape_rows(
    programme: Programme,
    arrangement: Arrangement,
    columns: Unknowns,
    falls: FallRange,
    directions: tuple[XY, ...],
) -> None:
    """Add joins, least and greatest falls, what drains where, and the falls of valleys."""
    if arrangement.steps:
        _steps(programme, arrangement, columns)
    else:
        _joins(programme, arrangement, columns)
    circle = falls.steepest * units.MM_PER_M * math.cos(math.pi / _SIDES)
    for number, (facet, (dx, dy)) in enumerate(zip(arrangement.facets, directions, strict=True)):
        column = columns.first[number]
        least = falls.least * units.MM_PER_M
        programme.row(MIN_FALL, {column + 1: -dx, column + 2: -dy}, least, math.inf, yields=1.0)
        for side in range(_SIDES):
            turn = 2.0 * math.pi * side / _SIDES
            terms = {column + 1: math.cos(turn), column + 2: math.sin(turn)}
            programme.row(STEEPEST, terms, -math.inf, circle, yields=math.cos(math.pi / _SIDES))
        # it may turn, but not so far that it no longer runs to where it has to drain
        ox, oy = facet.direction
        programme.row(MIN_FALL, {column + 1: -ox, column + 2: -oy}, least * _KEEPS_WAY, math.inf, yields=_KEEPS_WAY)
        for target in facet.target:
            low = columns.level(number, target)
            for corner in facet.outline:
                if corner not in facet.target:
                    programme.row(DRAINS, _less(columns.level(number, corner), low), 0.0, math.inf)
    for start, end in arrangement.valleys:
        number = _facet_on(arrangement, start, end)
        run_m = units.mm_to_m(distance(start, end))
        drop = _less(columns.level(number, start), columns.level(number, end))
        programme.row(VALLEY_FALL, drop, falls.valley * units.MM_PER_M * run_m, math.inf, yields=run_m)


def _joins(programme: Programme, arrangement: Arrangement, columns: Unknowns) -> None:
    """Make facets equal at every corner of one that lies on the edge of another."""
    for number, other, corner in arrangement.joins:
        terms = columns.level(number, corner) | {
            column: -value for column, value in columns.level(other, corner).items()
        }
        programme.row(FACETS_MEET, terms, 0.0, 0.0)


def _steps(programme: Programme, arrangement: Arrangement, columns: Unknowns) -> None:
    """Let the first facet stand above the second by one riser, the same at both ends of the line between them."""
    for start, end, least, most in arrangement.steps:
        rises = [_less(columns.level(0, at), columns.level(1, at)) for at in (start, end)]
        for rise in rises:
            programme.row(ONE_RISER, rise, least, most)
        programme.row(ONE_RISER, _less(*rises), 0.0, 0.0)


def _facet_on(arrangement: Arrangement, start: XY, end: XY) -> int:
    """Return the number of a facet that has both ends of a line on its edge."""
    for number, facet in enumerate(arrangement.facets):
        if touches(start, facet) and touches(end, facet):
            return number
    return 0


def _less(first: dict[int, float], second: dict[int, float]) -> dict[int, float]:
    return {column: first.get(column, 0.0) - second.get(column, 0.0) for column in {**first, **second}}


def site_rows(
    programme: Programme,
    arrangement: Arrangement,
    columns: Unknowns,
    limits: tuple[Bound, ...],
    leave: Rule | None = None,
) -> None:
    """Add what the site fixes: each thing as a lowest and a highest level at its place, but for the one left out."""
    for bound in limits:
        if bound.rule == leave:
            continue
        terms = columns.level(arrangement.facet_under(bound.at), bound.at)
        give = 0.0 if bound.locked else 1.0
        low, high = bound.low_mm - columns.datum_mm, bound.high_mm - columns.datum_mm
        programme.row(bound.rule, terms, low, high, yields=give)
