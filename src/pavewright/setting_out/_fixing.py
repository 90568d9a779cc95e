"""Tapes that fix corners: two to each, that cross at an angle that fixes it."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import distance, unit_vector
from pavewright.setting_out._types import TapeCheck, TapeKind
from pavewright.setting_out.errors import FixedBy

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY, Corner
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.setting_out.errors import WorkStep
    from pavewright.survey import PlanArea


@dataclass(frozen=True, slots=True)
class Station:
    """A peg or corner from which a tape is pulled."""

    name: str
    at: XY


def station_of(corner: Corner) -> Station:
    """Return a corner as a station."""
    return Station(corner.name, corner.xy)


def tape_check(area: PlanArea, kind: TapeKind, start: Station, end: Station, tail: str = "") -> TapeCheck:
    """Return a tape from a station to another."""
    length = distance(start.at, end.at)
    words = f"{start.name} to {end.name}: {units.metres_text(length)} m{tail}"
    return TapeCheck(f"{start.name}–{end.name}", area.name, kind, start.name, end.name, start.at, end.at, length, words)


def fixing(
    area: PlanArea, ends: tuple[Station, Station], around: Surroundings, figures: SetOutFigures
) -> tuple[list[TapeCheck], tuple[Corner, ...]]:
    """Return two tapes that fix each corner, and the corners that have none.

    They run from the ends of the base line where they can, else from corners that are fixed already; the two cross at
    an angle that fixes the corner.
    """
    low = math.radians(figures.tape_angle_deg)
    known = list(ends)
    open_corners = [corner for ring in (area.ring, *area.holes) for corner in ring.corners]
    open_corners = [corner for corner in open_corners if all(distance(corner.xy, end.at) > 1.0 for end in ends)]
    found: list[TapeCheck] = []
    going = True
    while going and open_corners:
        going = False
        for corner in tuple(open_corners):
            pair = _pair_that_fixes(known, corner.xy, low, around)
            if pair is None:
                continue
            found += [tape_check(area, TapeKind.DIAGONAL, each, station_of(corner)) for each in pair]
            known.append(station_of(corner))
            open_corners.remove(corner)
            going = True
    sides = {frozenset((side.start.xy, side.end.xy)) for side in area.sides}
    return [each for each in found if frozenset((each.start_at, each.end_at)) not in sides], tuple(open_corners)


def of_the_order(
    area: PlanArea, ends: tuple[Station, Station], steps: Sequence[WorkStep]
) -> tuple[list[TapeCheck], tuple[Corner, ...]]:
    """Return the tapes that the order of work fixes and proves corners by, and the corners that no two tapes do.

    A corner that is squared off the base line and proved by no tape has no two.
    """
    corners = [corner for ring in (area.ring, *area.holes) for corner in ring.corners]
    found: dict[frozenset[XY], TapeCheck] = {}
    proved = {end.at for end in ends}
    for step in steps:
        if step.fixed_by is FixedBy.BASE:
            continue
        here = Station(step.place, step.at)
        taped = step.fixed_by is FixedBy.TWO_TAPES
        others = [*map(Station, step.stations, step.stations_at)] if taped else []
        others += [Station(check.start, check.start_at) for check in step.checks]
        for other in others:
            found.setdefault(frozenset((other.at, here.at)), tape_check(area, TapeKind.DIAGONAL, other, here))
        if others:
            proved.add(step.at)
    lost = tuple(corner for corner in corners if all(distance(corner.xy, place) > 1.0 for place in proved))
    sides = {frozenset((side.start.xy, side.end.xy)) for side in area.sides}
    return [check for pair, check in found.items() if pair not in sides], lost


def _pair_that_fixes(
    known: list[Station], at: XY, flattest_rad: float, around: Surroundings
) -> tuple[Station, Station] | None:
    """Return the first two stations from which a place is seen and whose tapes cross at an angle that fixes it.

    Where the first two do, as from the ends of a base line, no other one is looked at.
    """
    waiting = iter(known)
    seen: list[Station] = []

    def station(number: int) -> Station | None:
        while len(seen) <= number:
            found = next((each for each in waiting if around.between(each.at, at) is None), None)
            if found is None:
                return None
            seen.append(found)
        return seen[number]

    for i in itertools.count():
        if (first := station(i)) is None:
            return None
        for j in itertools.count(i + 1):
            if (second := station(j)) is None:
                break
            if flattest_rad <= _angle(first, second, at) <= math.pi - flattest_rad:
                return first, second
    return None


def _angle(first: Station, second: Station, at: XY) -> float:
    """Return the angle at a place between two stations."""
    if min(distance(first.at, at), distance(second.at, at)) == 0.0:
        return 0.0
    ax, ay = unit_vector(at, first.at)
    bx, by = unit_vector(at, second.at)
    return math.acos(max(-1.0, min(1.0, ax * bx + ay * by)))
