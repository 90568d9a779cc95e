"""The falls with which an area follows an existing edge that falls along its length."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import FieldChange, Option
from pavewright.geometry import unit_vector
from pavewright.job import Hand
from pavewright.levels._formulas import steepest_of
from pavewright.levels.clashes import _words as words
from pavewright.levels.design import RuleKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.geometry import Plane
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.design import Bound, Falls
    from pavewright.survey import PlanArea

_ACROSS = 0.5
"""An edge lies across the main fall where it runs within 60 degrees of square to it. [-]"""
_MET_MM = 0.05
"""A limit that is missed by less is met. [mm]"""
_FLATTEST_ONE_IN, _STEEPEST_ONE_IN = 1000.0, 5.0
"""The cross falls that a job takes. [1 in n]"""


def cross_falls(
    area: PlanArea, falls: Falls, bound: Bound, limits: Sequence[Bound], figures: LevelFigures
) -> tuple[Option, ...]:
    """Return the cross fall that follows an edge across the main fall, where every limit is then met.

    The main fall stays where it may, or becomes the nearest one with which the edge and all else are met.
    """
    ends = [each for each in limits if each.rule == bound.rule]
    if bound.kind is not RuleKind.TIE_IN or len(ends) < 2:  # noqa: PLR2004 - a line has two ends
        return ()
    first, last = ends[0], ends[-1]
    mains = sorted(_mains(falls, first, last, limits), key=lambda main: (abs(main - falls.main), main))
    found = (_as_written(falls, main, first, last) for main in mains)
    kept = (each for each in found if each is not None and _may_be(area, each, figures) and _meets(each, first, limits))
    best = next(kept, None)
    if best is None or math.isclose(best.cross, falls.cross, abs_tol=1.0 / _FLATTEST_ONE_IN):
        return ()
    changes = [
        FieldChange(f"{area.path}.fall.cross_one_in", _tenth(best.cross)),
        FieldChange(f"{area.path}.fall.cross_to", (Hand.RIGHT if best.cross > 0.0 else Hand.LEFT).value),
    ]
    if best.main != falls.main:
        changes.append(FieldChange(f"{area.path}.fall.one_in", _tenth(best.main)))
    return (Option(words.cross_fall(best, falls, bound.thing), tuple(changes)),)


def _tenth(fall: float) -> float:
    return round(1.0 / abs(fall), 1)


def _as_written(falls: Falls, main: float, first: Bound, last: Bound) -> Falls | None:
    """Return falls as a job writes them, to a tenth of n; None where the edge does not lie across or needs none."""
    cross = _cross(falls, main, first, last)
    if cross is None or main <= 0.0 or not _STEEPEST_ONE_IN <= 1.0 / max(abs(cross), 1e-9) <= _FLATTEST_ONE_IN:
        return None
    written = main if main == falls.main else units.one_in_n_to_fall(_tenth(main))
    return replace(falls, main=written, cross=math.copysign(units.one_in_n_to_fall(_tenth(cross)), cross))


def _cross(falls: Falls, main: float, first: Bound, last: Bound) -> float | None:
    """Return the cross fall with which a plane of a main fall runs along the edge as the edge does.

    Source: definition, the slope of a plane along a line is its gradient times the direction of the line
    """
    (ux, uy), run = unit_vector(first.at, last.at), math.dist(first.at, last.at)
    (dx, dy), (rx, ry) = falls.direction, falls.right
    across = rx * ux + ry * uy
    if abs(across) < _ACROSS:
        return None
    return -((_level(last) - _level(first)) / run + main * (dx * ux + dy * uy)) / across


def _level(bound: Bound) -> float:
    return (bound.low_mm + bound.high_mm) / 2.0


def _plane(falls: Falls, first: Bound) -> Plane:
    return falls.plane(first.at, _level(first))


def _mains(falls: Falls, first: Bound, last: Bound, limits: Sequence[Bound]) -> Iterator[float]:
    """Give the main fall as it is, and those with which something else is just met, a little to either side."""
    yield falls.main
    flat, steep = (replace(falls, main=main, cross=_cross(falls, main, first, last) or 0.0) for main in (0.0, 0.1))
    for other, end in itertools.product(limits, ("low_mm", "high_mm")):
        level, at_flat = float(getattr(other, end)), _plane(flat, first).level_at(other.at)
        each = (_plane(steep, first).level_at(other.at) - at_flat) / 0.1
        if math.isinf(level) or abs(each) < 1.0:
            continue
        main = (level - at_flat) / each
        if main > 0.0:
            yield from (1.0 / (side(10.0 / main) / 10.0) for side in (math.floor, math.ceil))


def _may_be(area: PlanArea, falls: Falls, figures: LevelFigures) -> bool:
    """Return whether an area may fall so: neither too flat nor too steep."""
    fall = steepest_of(falls.main, falls.cross)
    least, most = figures.falls.min_fall.value, figures.falls.steepest(area.area.use).value
    return units.one_in_n_to_fall(least) <= fall <= units.one_in_n_to_fall(most)


def _meets(falls: Falls, first: Bound, limits: Sequence[Bound]) -> bool:
    """Return whether a surface through the edge keeps every limit."""
    plane = _plane(falls, first)
    return all(each.low_mm - _MET_MM <= plane.level_at(each.at) <= each.high_mm + _MET_MM for each in limits)
