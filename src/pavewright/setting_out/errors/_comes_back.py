"""How a lost peg comes back: by two tapes from places that stay."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry import distance
from pavewright.setting_out.errors._expected import crossing_rad
from pavewright.setting_out.errors._spread import Readings, Spread, two_tapes_spread
from pavewright.setting_out.errors._types import ComesBack, FixedPlace, FixedThing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.geometry import XY
    from pavewright.setting_out.errors._tool_errors import ToolErrors
    from pavewright.survey import SitePlan

_SAME_MM = 1.0
"""Two places this near are one. [mm]"""
_NEAREST = 12
"""Of the places that stay, no more than so many are looked at for one peg, the nearest of them."""


def fixed_places(site: SitePlan) -> tuple[FixedPlace, ...]:
    """Return what stays on a site: ends of walls, jambs of doors and corners of obstacles, each place once."""
    found: list[FixedPlace] = []
    for place in _all_fixed(site):
        if all(distance(place.at, other.at) > _SAME_MM for other in found):
            found.append(place)
    return tuple(found)


def _all_fixed(site: SitePlan) -> Iterator[FixedPlace]:
    for wall in site.walls:
        yield FixedPlace(FixedThing.WALL_START, wall.name, 0, wall.start)
        yield FixedPlace(FixedThing.WALL_END, wall.name, 0, wall.end)
        for door in wall.openings:
            yield FixedPlace(FixedThing.JAMB_LEFT, door.name, 0, door.start)
            yield FixedPlace(FixedThing.JAMB_RIGHT, door.name, 0, door.end)
    for each in site.obstacles:
        for number, at in enumerate(each.outline, start=1):
            yield FixedPlace(FixedThing.OBSTACLE, each.obstacle.name, number, at)


def comes_back(
    peg: str,
    area: str,
    at: XY,
    fixed: tuple[FixedPlace, ...],
    tools: ToolErrors,
    angles_rad: tuple[float, float],
    is_clear: Callable[[XY, XY], bool],
) -> ComesBack | None:
    """Return the two tapes that bring a peg back nearest to where it stood; None where no two cross steeply enough.

    Args:
        peg: Name of the peg.
        area: Name of its area.
        at: Where it stands. [mm]
        fixed: Places that stay.
        tools: The tools at hand.
        angles_rad: The flattest angle that fixes a place, and the flattest that does it well. [rad]
        is_clear: Whether nothing stands between two places.
    """
    low, well = angles_rad
    near = sorted(fixed, key=lambda each: distance(each.at, at))[:_NEAREST]
    seen = [each for each in near if _SAME_MM < distance(each.at, at) <= tools.tape_length_mm and is_clear(each.at, at)]
    pairs = [
        (one, other, angle)
        for k, one in enumerate(seen)
        for other in seen[k + 1 :]
        if low <= (angle := crossing_rad(one.at, other.at, at)) <= math.pi - low
    ]
    if not pairs:
        return None
    errors = [_radial_mm(one.at, other.at, at, tools) for one, other, _ in pairs]
    radial = min(errors)
    one, other, angle = pairs[errors.index(radial)]
    return ComesBack(
        peg=peg,
        area=area,
        at=at,
        first=one,
        second=other,
        tapes_mm=(distance(one.at, at), distance(other.at, at)),
        cut_deg=math.degrees(angle),
        is_steep=well <= angle <= math.pi - well,
        radial_mm=radial,
    )


def _radial_mm(one: XY, other: XY, at: XY, tools: ToolErrors) -> float:
    """Return how far off a place comes back by two tapes from places without an error of their own. [mm]."""
    return two_tapes_spread(Readings(tools), _still(one), _still(other), at).radial_mm


def _still(at: XY) -> Spread:
    return Spread(at, np.zeros((2, 1)))
