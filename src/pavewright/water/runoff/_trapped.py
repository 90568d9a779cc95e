"""Free edges past which the ground stands higher: water cannot leave there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString

from pavewright.findings import Finding, Severity
from pavewright.levels import TakerKind
from pavewright.water import _words_runs as words
from pavewright.water._codes import Code

if TYPE_CHECKING:
    from pavewright.levels import Levels
    from pavewright.survey import Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment

_PLACES = (0.1, 0.3, 0.5, 0.7, 0.9)
"""Where along an edge the ground is looked at, as parts of its length."""


def trapped_findings(
    caught: tuple[Catchment, ...], survey: Survey, levels: Levels, figures: WaterFigures
) -> list[Finding]:
    """Return a finding for every free edge that takes water although the ground beyond it stands higher on the whole.

    The ground is read a stated distance past the edge from the spot levels; without them nothing is said.
    """
    if survey.ground is None:
        return []
    beyond = figures.look_beyond_mm.value
    limit = figures.ground_over_edge_mm
    found = []
    for each in caught:
        if each.kind is not TakerKind.FREE_EDGE or each.area_m2 < figures.min_area_m2.value:
            continue
        area, surface = survey.site.area(each.area), levels.area(each.area).surface
        side = next((side for side in area.sides if side.name == each.to), None)
        if side is None:
            continue
        outside = shapely.offset_curve(LineString([*side.points(), side.end.xy]), -beyond)
        path = LineString([*side.points(), side.end.xy])
        higher = []
        for share in _PLACES:
            out, edge = outside.interpolate(share, normalized=True), path.interpolate(share, normalized=True)
            ground = survey.ground.level_beyond((float(out.x), float(out.y)))
            higher.append(ground - surface.level_at((float(edge.x), float(edge.y))))
        middle = sorted(higher)[len(higher) // 2]
        if middle > limit.value:
            said, options = words.edge_below_ground(each, middle)
            code, place = Code.EDGE_BELOW_GROUND, f"area {each.area}, {each.to}"
            found.append(
                Finding(
                    code,
                    Severity.STOP,
                    place,
                    said,
                    middle,
                    limit.value,
                    "mm",
                    limit,
                    options=options,
                    at_mm=each.at,
                )
            )
    return found
