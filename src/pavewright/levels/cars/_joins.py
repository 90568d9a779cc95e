"""Where two areas for cars meet: a change of gradient between them grounds a car as a fold within one does."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.geometry import unit_vector
from pavewright.job import Use
from pavewright.levels.cars._along import Drive, grounds
from pavewright.levels.cars._judge import car_of
from pavewright.levels.cars._way import CarWay, Profile
from pavewright.levels.edges import away_from, shared_edges

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.findings import Finding
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea

_INTO_MM = 100.0
"""The plane of an area at an edge is taken this far within it. [mm]"""


def join_findings(
    areas: tuple[PlanArea, ...], surfaces: Mapping[str, FoldedSurface], figures: LevelFigures, within_mm: float
) -> tuple[Finding, ...]:
    """Return a finding for every edge between two areas for cars over which a car grounds, going square over it."""
    driven = [area for area in areas if area.area.use is not Use.FOOT]
    return tuple(
        replace(finding, place=f"area {first.name}, area {second.name}")
        for first, second in itertools.combinations(driven, 2)
        for edge in shared_edges(first, second, within_mm)
        for finding in _over(first, surfaces[first.name], surfaces[second.name], edge.start, edge.end, figures)
    )


def _over(
    area: PlanArea, surface: FoldedSurface, other: FoldedSurface, start: XY, end: XY, figures: LevelFigures
) -> list[Finding]:
    middle = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
    if unit_vector(start, end) == (0.0, 0.0):
        return []
    dx, dy = away_from(start, end, area.gross.centre_mm)
    here = surface.facet_at((middle[0] + dx * _INTO_MM, middle[1] + dy * _INTO_MM)).plane
    there = other.facet_at((middle[0] - dx * _INTO_MM, middle[1] - dy * _INTO_MM)).plane
    level = here.level_at(middle)
    car = car_of(figures)
    # so far both areas are followed at the gradient that they have at the edge
    reach = car.wheelbase_mm + 2.0 * car.overhang_mm
    down, up = here.fall_along((dx, dy)), there.fall_along((-dx, -dy))
    levels = Profile((0.0, reach, 2.0 * reach), (level - down * reach, level, level - up * reach), (0, 2))
    way = CarWay(
        (middle[0] + dx * reach, middle[1] + dy * reach),
        (middle[0] - dx * reach, middle[1] - dy * reach),
        None,
        None,
    )
    return grounds(Drive(area, surface, car, figures), way, levels)
