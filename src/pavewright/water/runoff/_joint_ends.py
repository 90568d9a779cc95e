"""Where water that two areas send to each other runs out at the low end of their joint."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.job import Beyond
from pavewright.levels import NO_DRAIN, Taker, TakerKind
from pavewright.water import _words_runs as words
from pavewright.water._codes import Code
from pavewright.water.runoff._receivers import SHARED_MM, taker_at_edge

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY
    from pavewright.survey import PlanArea, SitePlan
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment

_LOOK_MM = 400.0
"""Edges this near to the low end of a joint say what stands there. [mm]"""
_MIN_PIECE_MM = 100.0
"""A shorter piece of edge says nothing. [mm]"""
_LEVEL_MM = 1.0
"""A place this much below the low end of a joint is a low place before it. [mm]"""


@dataclass(frozen=True, slots=True)
class JointEnd:
    """The low end of a joint between two areas.

    Attributes:
        at: Where it is. [mm]
        fall: Fall of the joint to it, rise over run. [rise over run]
        taker: What stands there and lets the water out.
    """

    at: XY
    fall: float
    taker: Taker


def joint_end(
    area: PlanArea, other: PlanArea, level_at: Callable[[XY], float], site: SitePlan, figures: WaterFigures
) -> JointEnd | None:
    """Return the low end of the joint between two areas where water can run out of it; None where it cannot.

    It cannot where the joint is as good as level, has a low place before its end, or ends at a wall or a kerb. Where
    the edges at the end differ, the one that has to be asked about first counts.
    """
    line = _joint(area, other)
    if line is None:
        return None
    points: list[XY] = [(float(x), float(y)) for x, y in line.coords]
    low, high = sorted((points[0], points[-1]), key=level_at)
    drop = level_at(high) - level_at(low)
    if drop <= figures.puddle_at_drain_mm.value or min(level_at(each) for each in points) < level_at(low) - _LEVEL_MM:
        return None
    within = figures.meets_within_mm.value
    takers = [*_takers_at(low, area, line, site, within), *_takers_at(low, other, line, site, within)]
    takers = [each for each in takers if each.name not in {area.name, other.name} or each.kind is not _NEXT]
    if not takers or any(each.kind not in NO_DRAIN for each in takers):
        return None
    return JointEnd(low, drop / line.length, min(takers, key=_asked_first))


_NEXT = TakerKind.NEXT_AREA


def _joint(area: PlanArea, other: PlanArea) -> LineString | None:
    """Return the piece of an area's outline that another one shares; None where there is none, or several."""
    near = area.gross.polygon.exterior.intersection(other.gross.polygon.buffer(SHARED_MM))
    lines = list(shapely.get_parts(shapely.line_merge(near)))
    longest = [line for line in lines if isinstance(line, LineString) and line.length > _MIN_PIECE_MM]
    return longest[0] if len(longest) == 1 and not longest[0].is_ring else None


def _takers_at(low: XY, area: PlanArea, joint: LineString, site: SitePlan, within_mm: float) -> list[Taker]:
    """Return what stands at the edges of an area that meet the low end of a joint, the joint itself left out."""
    near = area.gross.polygon.exterior.intersection(Point(low).buffer(_LOOK_MM))
    free = shapely.line_merge(near.difference(joint.buffer(2.0 * SHARED_MM)))
    pieces = [each for each in shapely.get_parts(free) if isinstance(each, LineString)]
    return [taker_at_edge(each, area, site, within_mm) for each in pieces if each.length > _MIN_PIECE_MM]


_ASKED = (Beyond.HIGHWAY, Beyond.NEIGHBOUR, Beyond.NOT_KNOWN, Beyond.OWN_PAVING)


def _asked_first(taker: Taker) -> int:
    if taker.beyond in _ASKED:
        return _ASKED.index(taker.beyond)
    return len(_ASKED) + (0 if taker.kind is _NEXT else 1)


def runs_out(end: JointEnd, made: list[Catchment], figures: WaterFigures) -> Finding:
    """Say that what two areas send to their joint runs out at its low end, all in one place."""
    figure = figures.valley_fall_one_in
    min_fall = units.one_in_n_to_fall(figure.value)
    said, options = words.joint_runs_out(made, end.fall, min_fall)
    place = f"joint of {' and '.join(each.area for each in made)}"
    return Finding(
        Code.JOINT_RUNS_OUT,
        Severity.CHECK,
        place,
        said,
        end.fall,
        min_fall,
        "-",
        figure,
        options=options,
        at_mm=end.at,
    )
