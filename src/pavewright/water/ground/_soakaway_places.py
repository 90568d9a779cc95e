"""Where soakaways lie: their distance to houses, roads, boundaries, each other, and groundwater."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import distance
from pavewright.job import Beyond, Neighbour, WaterTable
from pavewright.water import _words_drains as words
from pavewright.water._codes import Code
from pavewright.water._figures import FarFrom

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.geometry import XY
    from pavewright.job import Outfall, Site
    from pavewright.rules import Figure
    from pavewright.survey import SitePlan, Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types_parts import PitSize


def soakaway_places(site: Site, sizes: Iterable[PitSize], survey: Survey, figures: WaterFigures) -> list[Finding]:
    """Return what is too near to a soakaway whose middle is on the plan, and groundwater that may reach any of them.

    A pit whose size is not known reaches no further than its middle.
    """
    reach = {size.outfall: _reach(size) for size in sizes}
    placed = [
        (outfall, reach.get(outfall.name, (0.0, 0.0)), survey.point(outfall.soakaway.point).xy)
        for outfall in site.outfalls
        if outfall.soakaway is not None and outfall.soakaway.point is not None
    ]
    found: list[Finding] = []
    for outfall, pit, at in placed:
        found += _to_lines(outfall, pit, at, survey.site, figures)
    apart = figures.soakaways_apart_m
    for (one, pit, at), (other, other_pit, there) in itertools.combinations(placed, 2):
        near, far = (reach + more for reach, more in zip(pit, other_pit, strict=True))
        reported = _too_near(one, f"soakaway {other.name}", distance(at, there), (near, far), apart, at)
        found += reported
    if site.ground.water_table is WaterTable.HIGH:
        found += [_wet(outfall, figures) for outfall in site.outfalls if outfall.soakaway is not None]
    return found


def _to_lines(
    outfall: Outfall, reach: tuple[float, float], at: XY, plan: SitePlan, figures: WaterFigures
) -> Iterator[Finding]:
    """Give what is said of one soakaway and the lines of the site."""
    lines = [
        (f"wall {wall.name} of the house", wall.start, wall.end, FarFrom.BUILDING)
        for wall in plan.walls
        if wall.is_house
    ]
    lines += [
        (
            f"boundary {line.name}",
            line.start,
            line.end,
            FarFrom.ROAD if line.neighbour is Neighbour.HIGHWAY else FarFrom.BOUNDARY,
        )
        for line in plan.boundaries
        if line.neighbour is not Neighbour.OWN
    ]
    lines += [
        (f"edge {tie.name}", tie.start, tie.end, FarFrom.ROAD if tie.beyond is Beyond.HIGHWAY else FarFrom.BOUNDARY)
        for tie in plan.tie_ins
        if tie.beyond in {Beyond.HIGHWAY, Beyond.NEIGHBOUR}
    ]
    for what, start, end, kind in lines:
        gap = Point(at).distance(LineString([start, end]))
        limit = figures.soakaway_from_m[kind]
        yield from _too_near(outfall, what, gap, reach, limit, at, stops=kind is FarFrom.BUILDING)


def _reach(pit: PitSize) -> tuple[float, float]:
    """Return the shortest and the longest reach of a pit from its middle. [mm]."""
    return min(pit.length_mm, pit.width_mm) / 2.0, math.hypot(pit.length_mm, pit.width_mm) / 2.0


def _too_near(
    outfall: Outfall,
    what: str,
    gap_mm: float,
    reach_mm: tuple[float, float],
    limit: Figure,
    at: XY,
    *,
    stops: bool = False,
) -> list[Finding]:
    """Return a finding where a pit is too near however it is turned, or may be.

    How the pit is turned is not known: from its middle it reaches half its shorter side and no more than half
    its diagonal.
    """
    widest, closest = (max(units.mm_to_m(gap_mm - each), 0.0) for each in reach_mm)
    if closest >= limit.value:
        return []
    certain = widest < limit.value
    value = widest if certain else closest
    said, options = words.too_near(outfall.name, value, None if certain else widest, what, limit)
    severity = Severity.STOP if stops and certain else Severity.CHECK
    code = Code.SOAKAWAY_TOO_NEAR
    place = f"outfall {outfall.name}, {what}"
    return [Finding(code, severity, place, said, value, limit.value, "m", limit, options=options, at_mm=at)]


def _wet(outfall: Outfall, figures: WaterFigures) -> Finding:
    figure = figures.soakaway_above_groundwater_m
    said, options = words.in_groundwater(outfall.name, figure)
    place, code = f"outfall {outfall.name}", Code.SOAKAWAY_IN_GROUNDWATER
    return Finding(code, Severity.CHECK, place, said, limit=figure.value, unit="m", figure=figure, options=options)


def house_ground(survey: Survey, figures: WaterFigures) -> list[Finding]:
    """Return a note on the fall of the ground beside a house, where the place has a rule about it."""
    figure = figures.ground_from_house_one_in
    if figure is None or not any(wall.is_house for wall in survey.site.walls):
        return []
    return [Finding(Code.GROUND_FROM_HOUSE, Severity.NOTE, "house", words.ground_from_house(figure), figure=figure)]
