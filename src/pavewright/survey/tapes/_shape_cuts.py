"""First places from a tape with a square corner, or with a line on which the point stands."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset, distance, point_along
from pavewright.survey.tapes._two_tapes import TwoTapes

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.geometry import XY
    from pavewright.job import TapePlan


def shape_cuts(
    name: str, plan: TapePlan, places: Mapping[str, XY], taped_mm: Mapping[str, float]
) -> Iterator[tuple[str, TwoTapes]]:
    """Give the places of a point from one tape and one shape, each with the point from which the tape runs.

    Args:
        name: The point.
        plan: The tape plan, for its square corners and lines.
        places: Points that are placed already. [mm]
        taped_mm: Lengths taped to the point, by the placed point from which they run. [mm]
    """
    for corner in plan.square_corners:
        other = corner.second if corner.first == name else corner.first if corner.second == name else None
        if other is not None and other in places and corner.at in places and corner.at in taped_mm:
            at, length = places[corner.at], taped_mm[corner.at]
            left = point_along(at, places[other], 0.0, length)
            yield corner.at, TwoTapes(left, point_along(at, places[other], 0.0, -length), 90.0)
    for each in plan.points_on_lines:
        if each.point != name or each.line_from not in places or each.line_to not in places:
            continue
        start, end = places[each.line_from], places[each.line_to]
        for source, length in taped_mm.items():
            along, off = along_and_offset(start, end, places[source])
            if abs(off) <= length and distance(start, end) > 0.0:
                reach = math.sqrt(length * length - off * off)
                angle = math.degrees(math.acos(min(1.0, abs(off) / length)))
                places_along = [along + reach, along - reach]
                between = [place for place in places_along if 0.0 <= place <= distance(start, end)]
                # said to stand on a wall, it stands between the ends of the wall where only one place does
                first, second = (between * 2)[:2] if len(between) == 1 else places_along
                yield source, TwoTapes(point_along(start, end, first, 0.0), point_along(start, end, second, 0.0), angle)
