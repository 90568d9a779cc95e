"""The order of work: which corner is fixed next and how, so that each comes out as near as the tools allow."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset, distance, point_along
from pavewright.setting_out.errors._checks import best_checks
from pavewright.setting_out.errors._expected import Stationed, crossing_rad, expected_error
from pavewright.setting_out.errors._spread import Readings, base_spreads, square_spread, two_tapes_spread
from pavewright.setting_out.errors._types import FixedBy, WorkStep

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.geometry import XY
    from pavewright.setting_out.errors._spread import Spread
    from pavewright.setting_out.errors._tool_errors import ToolErrors

_STATIONS = 10
"""Of the places that are fixed already, no more than so many are looked at for one corner, the nearest of them."""
_TRIED = 6
"""Of the pairs of places, so many are worked out in full: those that look best by their angle."""
_MANY = 40
"""Of an outline of more corners, one that can be fixed already is not looked at anew for every further one."""
_SAME_MM = 1.0
"""Two places this near are one. [mm]"""

Named = tuple[str, "XY"]
"""A place with its name."""


@dataclass(frozen=True)
class _Way:
    """One way to fix a corner."""

    fixed_by: FixedBy
    stations: tuple[Stationed, Stationed]
    tapes_mm: tuple[float, ...]
    cut_deg: float | None
    spread: Spread


@dataclass
class Ground:
    """What an order of work is found on.

    Attributes:
        tools: The tools at hand.
        flattest_rad: Two tapes that cross flatter do not fix a place. [rad]
        percent: Share of checks without a slip that lie within the limit of a check. [%]
        is_clear: Whether nothing stands between two places.
        readings: The readings so far.
        known: What is fixed already, the two ends of the base line first.
        looked: Pairs of places with whether a tape reaches from one to the other.
    """

    tools: ToolErrors
    flattest_rad: float
    percent: float
    is_clear: Callable[[XY, XY], bool]
    readings: Readings
    known: list[Stationed] = field(default_factory=list)
    looked: dict[tuple[XY, XY], bool] = field(default_factory=dict)

    def clear(self, one: XY, other: XY) -> bool:
        """Return whether one tape reaches from one place to another; each pair is looked at once."""
        if (one, other) not in self.looked:
            length = distance(one, other)
            self.looked[one, other] = _SAME_MM < length <= self.tools.tape_length_mm and self.is_clear(one, other)
        return self.looked[one, other]

    def seen(self, at: XY) -> list[Stationed]:
        """Return the places that are fixed and from which a tape reaches, the ends of the base line and the nearest."""
        ends, others = self.known[:2], self.known[2:]
        near = sorted(others, key=lambda each: distance(each.spread.at, at))[: _STATIONS - len(ends)]
        return [each for each in (*ends, *near) if self.clear(each.spread.at, at)]

    def fixes(self, one: Stationed, other: Stationed, at: XY) -> bool:
        """Return whether two tapes cross at a place steeply enough to fix it."""
        return self.flattest_rad <= crossing_rad(one.spread.at, other.spread.at, at) <= math.pi - self.flattest_rad


def order_of_work(area: str, base: tuple[Named, Named], corners: Sequence[Named], ground: Ground) -> list[WorkStep]:
    """Return the steps from a base line to every corner that can be fixed, the surest corner first.

    Each corner is fixed by two tapes from places that are fixed already, or squared off the base line, whichever comes
    out nearer; and the tape that proves it is the one that shows a slip best.

    Args:
        area: Name of the area.
        base: The two ends of its base line, each with its name.
        corners: The corners, each with its name.
        ground: The tools and what stands in their way; what is fixed is added to it.
    """
    spreads = base_spreads(ground.readings, base[0][1], base[1][1])
    ends = (Stationed(base[0][0], spreads[0]), Stationed(base[1][0], spreads[1]))
    ground.known = list(ends)
    steps = [_base_step(area, ends, ground.percent)]
    left = [corner for corner in corners if all(distance(corner[1], end.spread.at) > _SAME_MM for end in ends)]
    best = [_best_of(corner[1], ground, _pairs(corner[1], ground), square=True) for corner in left]
    while left:
        ways = [(way.spread.radial_mm, number) for number, way in enumerate(best) if way is not None]
        if not ways:
            break
        number = min(ways)[1]
        corner, way = left.pop(number), best.pop(number)
        assert way is not None  # noqa: S101 - only ways that are there were counted
        fresh = Stationed(corner[0], replace(_again(way, corner[1], ground), at=corner[1]))
        steps.append(_step(len(steps) + 1, area, way, fresh, ground))
        ground.known.append(fresh)
        best = [
            found if found is not None and len(corners) > _MANY else _with(fresh, found, each[1], ground)
            for each, found in zip(left, best, strict=True)
        ]
    return steps


def _base_step(area: str, ends: tuple[Stationed, Stationed], percent: float) -> WorkStep:
    start, end = (each.spread.at for each in ends)
    return WorkStep(
        number=1,
        area=area,
        place=ends[1].name,
        at=end,
        fixed_by=FixedBy.BASE,
        stations=(ends[0].name, ends[1].name),
        stations_at=(start, end),
        tapes_mm=(distance(start, end),),
        cut_deg=None,
        error=expected_error(ends[1].spread, start, end, percent),
    )


def _step(number: int, area: str, way: _Way, fresh: Stationed, ground: Ground) -> WorkStep:
    start, end = (each.spread.at for each in ground.known[:2])
    others = [each for each in ground.seen(fresh.spread.at) if each not in way.stations]
    if way.fixed_by is FixedBy.SQUARE:
        others = ground.seen(fresh.spread.at)
    checks, finds = best_checks(ground.readings, fresh, others, ground.percent)
    return WorkStep(
        number=number,
        area=area,
        place=fresh.name,
        at=fresh.spread.at,
        fixed_by=way.fixed_by,
        stations=(way.stations[0].name, way.stations[1].name),
        stations_at=(way.stations[0].spread.at, way.stations[1].spread.at),
        tapes_mm=way.tapes_mm,
        cut_deg=way.cut_deg,
        error=expected_error(fresh.spread, start, end, ground.percent),
        checks=checks,
        finds_mm=finds,
    )


def _pairs(at: XY, ground: Ground) -> list[tuple[Stationed, Stationed]]:
    """Return the pairs of places whose tapes fix a corner."""
    seen = ground.seen(at)
    return [(one, other) for k, one in enumerate(seen) for other in seen[k + 1 :] if ground.fixes(one, other, at)]


def _with(fresh: Stationed, found: _Way | None, at: XY, ground: Ground) -> _Way | None:
    """Return the best way to fix a corner now that one more place is fixed."""
    if not ground.clear(fresh.spread.at, at):
        return found
    pairs = [(one, fresh) for one in ground.seen(at) if one is not fresh and ground.fixes(one, fresh, at)]
    other = _best_of(at, ground, pairs, square=False)
    if found is None or other is None:
        return found or other
    return other if other.spread.radial_mm < found.spread.radial_mm else found


def _best_of(at: XY, ground: Ground, pairs: list[tuple[Stationed, Stationed]], *, square: bool) -> _Way | None:
    """Return the way that brings a corner nearest to where it belongs; None where there is none."""
    likely = sorted(pairs, key=lambda pair: _looks_mm(pair, at))[:_TRIED]
    ways = [_two_tapes(at, pair, ground.readings.copy()) for pair in likely]
    if square and (squared := _squared(at, ground, ground.readings.copy())) is not None:
        ways.append(squared)
    return min(ways, key=lambda way: way.spread.radial_mm, default=None)


def _looks_mm(pair: tuple[Stationed, Stationed], at: XY) -> float:
    """Return about how far off two tapes bring a corner, by their angle alone. [mm]."""
    one, other = pair
    sine = math.sin(crossing_rad(one.spread.at, other.spread.at, at))
    return (1.0 + math.hypot(one.spread.radial_mm, other.spread.radial_mm)) / sine


def _two_tapes(at: XY, pair: tuple[Stationed, Stationed], readings: Readings) -> _Way:
    one, other = pair
    return _Way(
        FixedBy.TWO_TAPES,
        pair,
        (distance(one.spread.at, at), distance(other.spread.at, at)),
        math.degrees(crossing_rad(one.spread.at, other.spread.at, at)),
        two_tapes_spread(readings, one.spread, other.spread, at),
    )


def _squared(at: XY, ground: Ground, readings: Readings) -> _Way | None:
    """Return a corner squared off the base line; None where something stands in the way."""
    start, end = ground.known[0].spread, ground.known[1].spread
    along, off = along_and_offset(start.at, end.at, at)
    foot = point_along(start.at, end.at, along, 0.0)
    within = -_SAME_MM <= along <= distance(start.at, end.at) + _SAME_MM
    if not within or abs(off) < _SAME_MM or not ground.clear(foot, at):
        return None
    spread = square_spread(readings, (start, end), along, off)
    return _Way(FixedBy.SQUARE, (ground.known[0], ground.known[1]), (along, off), None, spread)


def _again(way: _Way, at: XY, ground: Ground) -> Spread:
    """Return a corner as fixed at last, its readings counted among all the others."""
    if way.fixed_by is FixedBy.SQUARE:
        ends = ground.known[0].spread, ground.known[1].spread
        return square_spread(ground.readings, ends, *way.tapes_mm)
    return two_tapes_spread(ground.readings, way.stations[0].spread, way.stations[1].spread, at)
