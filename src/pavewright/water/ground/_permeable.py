"""Paving that lets water through into the ground: what has to be known of it, and whether its stone holds the rain."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright import units
from pavewright.buildup import open_stone_under
from pavewright.findings import Finding, Severity
from pavewright.job import PermeableBase, Soil, WaterTable
from pavewright.water._codes import Code
from pavewright.water._figures import FarFrom, water_figures
from pavewright.water._types_parts import PitVerdict
from pavewright.water.ground import _words_permeable as words
from pavewright.water.ground._open_stone import Rains, stone_need, strips_up, thinnest
from pavewright.water.rain import storms

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job import Ground, Job, Rain
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment
    from pavewright.water.ground._open_stone import StoneNeed
    from pavewright.water.ground._words_permeable import Said

CLAY = frozenset({Soil.HEAVY_CLAY, Soil.SILTY_CLAY})


def letting_through(job: Job, rules: Rulebook) -> frozenset[str]:
    """Return the areas that are built permeable of units that let the rain through, as their maker says."""
    built = open_stone_under(job, rules)
    said = {each.name for each in job.areas if each.permeable is not None and each.permeable.lets_through}
    return frozenset(said & built.keys())


def permeable_findings(
    job: Job, survey: Survey, levels: Levels, caught: Iterable[Catchment], rules: Rulebook
) -> list[Finding]:
    """Return what stops areas that are built permeable, what is not known of them, and whether their stone holds."""
    figures, found = water_figures(rules), list[Finding]()
    others = _from_others(caught)
    for name, stone_mm in open_stone_under(job, rules).items():
        area, finished = survey.site.area(name), levels.area(name)
        entered = area.area.permeable or PermeableBase()
        ratio = _ratio(area, entered, others.get(name, 0.0))
        found += _of_ground(name, job.site.ground, entered, figures)
        found += _of_surface(name, finished, ratio, figures)
        found += _of_units(name, entered)
        found += _of_house(area, survey, figures)
        rains = _rains(job.site.rain, entered, ratio, figures)
        if job.site.rain is None:
            found.append(_stop(Code.PERMEABLE_RAIN, name, words.rain(name)))
        need = None
        if rains is not None and finished.surface.is_plane:
            need = stone_need(stone_mm, *_fall(area, finished), rains)
            found += _of_stone(name, need, figures)
        said, options = words.run_off(name, need)
        found.append(Finding(Code.PERMEABLE_RUN_OFF, Severity.NOTE, f"area {name}", said, options=options))
    return found


def stone_for(
    area: PlanArea, finished: FinishedArea, rain: Rain | None, caught: Iterable[Catchment], rules: Rulebook
) -> StoneNeed | None:
    """Return the thinnest open stone that holds the storms of an area; None where that is not known or none does.

    Args:
        area: The area, permeable or not.
        finished: Its surface.
        rain: Of the place.
        caught: What drains where as planned.
        rules: The rulebook.
    """
    figures, entered = water_figures(rules), area.area.permeable or PermeableBase()
    ratio = _ratio(area, entered, _from_others(caught).get(area.name, 0.0))
    rains = _rains(rain, entered, ratio, figures)
    if rains is None or not finished.surface.is_plane:
        return None
    return thinnest(figures.soakaway_deepest_mm.value, *_fall(area, finished), rains)


def _from_others(caught: Iterable[Catchment]) -> dict[str, float]:
    """Return the paving of other areas whose water comes on to each area. [m²]."""
    found: dict[str, float] = {}
    for each in caught:
        found[each.area] = found.get(each.area, 0.0) + each.from_others_m2
    return found


def _ratio(area: PlanArea, entered: PermeableBase, others_m2: float) -> float | None:
    return None if entered.sealed_m2 is None else (entered.sealed_m2 + others_m2) / area.shape.area_m2


def _rains(rain: Rain | None, entered: PermeableBase, ratio: float | None, figures: WaterFigures) -> Rains | None:
    """Return what falls and how fast it goes; None where one of them is not known."""
    rate = entered.infiltration_m_per_s
    if rain is None or rate is None or ratio is None:
        return None
    falling = storms(rain, figures.storms)
    return Rains(ratio, rate, figures.permeable_void_percent.value, falling, figures.half_empty_h.value)


def _fall(area: PlanArea, finished: FinishedArea) -> tuple[float, tuple[tuple[float, float], ...]]:
    plane = finished.plane
    return plane.fall, strips_up(area.shape.polygon, math.degrees(math.atan2(plane.slope_y, plane.slope_x)))


def _of_ground(name: str, ground: Ground, entered: PermeableBase, figures: WaterFigures) -> Iterator[Finding]:
    rate, limit = entered.infiltration_m_per_s, figures.min_infiltration_m_per_s
    if ground.soil in CLAY:
        yield _stop(Code.PERMEABLE_CLAY, name, words.clay(name))
    if ground.water_table is WaterTable.HIGH:
        yield _stop(Code.PERMEABLE_WATER_TABLE, name, words.water_table(name))
    if ground.water_table is WaterTable.UNKNOWN:
        yield _check(Code.PERMEABLE_WATER_TABLE_UNKNOWN, name, words.water_table_unknown(name))
    if rate is None:
        yield _stop(Code.PERMEABLE_NOT_TESTED, name, words.not_tested(name))
    elif rate < limit.value:
        yield _stop(Code.PERMEABLE_TIGHT, name, words.tight(name, rate, limit))


def _of_surface(name: str, finished: FinishedArea, ratio: float | None, figures: WaterFigures) -> Iterator[Finding]:
    most, steepest = figures.permeable_sealed_ratio, figures.permeable_steepest_percent
    percent = units.ALL_PERCENT * finished.plane.fall
    if not finished.surface.is_plane:
        yield _stop(Code.PERMEABLE_FOLDED, name, words.folded(name))
    elif percent > steepest.value:
        yield _stop(Code.PERMEABLE_STEEP, name, words.steep(name, percent, steepest))
    if ratio is None:
        yield _stop(Code.PERMEABLE_SEALED_UNKNOWN, name, words.sealed_unknown(name))
    elif ratio > most.value:
        yield _stop(Code.PERMEABLE_SEALED, name, words.sealed(name, ratio, most))


def _of_units(name: str, entered: PermeableBase) -> Iterator[Finding]:
    if entered.lets_through is None:
        yield _check(Code.PERMEABLE_UNITS_UNKNOWN, name, words.units_unknown(name))
    elif not entered.lets_through:
        yield _stop(Code.PERMEABLE_UNITS, name, words.units_refused(name))


def _of_house(area: PlanArea, survey: Survey, figures: WaterFigures) -> Iterator[Finding]:
    """Give a check where the house stands near, or where nobody measured it: the ground is spread, not a pit."""
    limit = figures.soakaway_from_m[FarFrom.BUILDING]
    lines = [LineString([wall.start, wall.end]) for wall in survey.site.walls if wall.is_house]
    near = min((float(area.gross.polygon.distance(line)) for line in lines), default=None)
    if near is None or units.mm_to_m(near) < limit.value:
        yield _check(Code.PERMEABLE_HOUSE, area.name, words.house(area.name, near, limit))


def _of_stone(name: str, need: StoneNeed, figures: WaterFigures) -> Iterator[Finding]:
    slow, place = figures.half_empty_h, f"area {name}"
    if not need.holds:
        said, options = words.too_shallow(name, need)
        code, has, wants = Code.PERMEABLE_TOO_SHALLOW, need.counted_mm, need.wanted_mm
        figure = figures.permeable_void_percent
        yield Finding(code, Severity.STOP, place, said, has, wants, "mm", figure, options=options)
    if need.half_empty_h > slow.value:
        yield _check(Code.PERMEABLE_SLOW, name, words.slow(name, need, slow))
    if need.verdict is PitVerdict.FOR_THESE_STORMS:
        yield _check(Code.PERMEABLE_FOR_THESE_STORMS, name, words.for_these_storms(name, need))


def _stop(code: Code, name: str, said: Said) -> Finding:
    return Finding(code, Severity.STOP, f"area {name}", said[0], options=said[1])


def _check(code: Code, name: str, said: Said) -> Finding:
    return Finding(code, Severity.CHECK, f"area {name}", said[0], options=said[1])
