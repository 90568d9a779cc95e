"""Strings across an area: one way over every grid place, both ways on a large one, two on a round one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString, Point

from pavewright.geometry import distance, shared, unit_vector
from pavewright.setting_out._pegs import Place, pin_past
from pavewright.setting_out._types import PegRole, Stands

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.geometry import XY
    from pavewright.levels import FinishedArea
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.setting_out._types import Peg
    from pavewright.survey import PlanArea, SitePlan

_MIN_RUN_MM = 500.0
"""A string shorter than this is not put up. [mm]"""
_TWO = 2
"""Two strings at least carry the levels of an area."""


def lines_across(
    area: PlanArea, finished: FinishedArea, base: Base, pegs: list[Peg], tied: int, figures: SetOutFigures
) -> list[tuple[XY, XY]]:
    """Return the lines across an area along which strings run, each by a place on it and its direction.

    Args:
        area: The area.
        finished: Its finished surface.
        base: Its base line.
        pegs: Its pegs so far.
        tied: How many strings it has along its sides and folds.
        figures: The figures of setting out.
    """
    along = unit_vector(base.start, base.end)
    grid = [peg for peg in pegs if peg.role is PegRole.GRID]
    rows = [(peg.at, along) for peg in {round(peg.offset_mm): peg for peg in grid}.values()]
    columns = [(peg.at, _square(along)) for peg in {round(peg.along_mm): peg for peg in grid}.values()]
    if grid:
        both = tied < _TWO or _is_large(area, base, figures)
        return rows + columns if both else min(columns, rows, key=len)
    if tied >= _TWO:
        return []
    middle = area.gross.polygon.representative_point()
    fall = finished.main_direction
    return [((float(middle.x), float(middle.y)), way) for way in (fall, _square(fall))]


def _square(way: XY) -> XY:
    return -way[1], way[0]


def _is_large(area: PlanArea, base: Base, figures: SetOutFigures) -> bool:
    measured = [base.measures(point) for point in area.gross.outer]
    return all(max(values) - min(values) > figures.grid_over_mm for values in zip(*measured, strict=True))


def places_across(
    line: tuple[XY, XY],
    area: PlanArea,
    finished: FinishedArea,
    site: SitePlan,
    around: Surroundings,
    figures: SetOutFigures,
    out_mm: float,
) -> Iterator[tuple[Place, ...]]:
    """Give, for each run of a line across an area, the places that carry its string, in order along it.

    Its ends are pins outside the dig where they can be, else marks or places at the edge; it is tied to every fold that
    it crosses, for it carries the levels of one plane alone.
    """
    at, (ux, uy) = line
    far = float(area.gross.polygon.exterior.length)
    ray = LineString([(at[0] - far * ux, at[1] - far * uy), (at[0] + far * ux, at[1] + far * uy)])
    for part in shapely.get_parts(shared(ray, area.gross.polygon)):
        if part.length < _MIN_RUN_MM:
            continue
        ends = sorted(((float(x), float(y)) for x, y in part.coords), key=lambda each: each[0] * ux + each[1] * uy)
        first, last = ends[0], ends[-1]
        folds = sorted(_on_folds(part, finished), key=lambda each: distance(first, each))
        inner = [
            Place(PegRole.GRID, each, "on a fold, under a string across")
            for each in folds
            if min(distance(each, end) for end in (first, last)) > _MIN_RUN_MM / _TWO
        ]
        yield (
            _end(first, (-ux, -uy), area, site, around, figures, out_mm),
            *inner,
            _end(last, (ux, uy), area, site, around, figures, out_mm),
        )


def _on_folds(part: LineString, finished: FinishedArea) -> Iterable[XY]:
    """Give the places where a run crosses folds."""
    lines = [LineString([fold.start, fold.end]) for fold in finished.surface.folds]
    crossed = [line.intersection(part) for line in lines if line.crosses(part)]
    return [(float(each.x), float(each.y)) for each in crossed if isinstance(each, Point)]


def _end(
    edge: XY,
    way: XY,
    area: PlanArea,
    site: SitePlan,
    around: Surroundings,
    figures: SetOutFigures,
    out_mm: float,
) -> Place:
    pin = pin_past(edge, way, area, site, around, figures, out_mm)
    if pin is None:
        return Place(PegRole.GRID, edge, "at the edge, end of a string across")
    return Place(PegRole.PROFILE, pin, "in line with a string across", Stands.PIN)
