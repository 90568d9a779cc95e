"""How quantities and hours move with levels in the ground: the rooms are asked again, a little deeper."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerKey
from pavewright.cost import labour
from pavewright.earthworks import Spread
from pavewright.pipeline._risk_types import Cause, CauseKey
from pavewright.quantities import take_off

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.cost import TaskKey
    from pavewright.earthworks import Earthworks
    from pavewright.pipeline._types import Plan
    from pavewright.quantities import ItemKey
    from pavewright.rules import Rulebook

_STEP_MM = 10.0
"""The rooms are asked with levels so far off; their answers are linear in them. [mm]"""
_MAX_APART = 8
"""Levels of more areas than these move together, all of them as one."""


@dataclass(frozen=True, slots=True)
class Slopes:
    """What one level does, for each millimetre that it is off.

    Attributes:
        key: The level.
        items: What is needed of each item, with allowance. [unit of the item per mm]
        hours: Person-hours of each task. [h/mm]
        away_m3: What leaves, in the ground. [m³/mm]
    """

    key: CauseKey
    items: Mapping[ItemKey, float]
    hours: Mapping[TaskKey, float]
    away_m3: float


def level_slopes(made: Plan, rules: Rulebook) -> tuple[Slopes, ...]:
    """Return what the levels of the dig and of the tops of layers do, each by itself.

    The finished paving stays where it is. A dig that is too deep is filled by the lowest layer; a layer whose top is
    too high takes from the one above it. The bed takes up what is left.

    Args:
        made: A plan with everything up to its price.
        rules: The rulebook.
    """
    groups: list[tuple[int, ...]] = [(number,) for number in range(len(made.build_ups.areas))]
    if len(groups) > _MAX_APART:
        groups = [tuple(range(len(made.build_ups.areas)))]
    found = []
    for group in groups:
        area = group[0] if len(group) == 1 or len(groups) > 1 else None
        depth = max(len(_solid(made.build_ups.areas[number])) for number in group)
        for top in range(1, depth):
            ups = [_top_higher(up, top) if number in group else up for number, up in enumerate(made.build_ups.areas)]
            changed = replace(made.build_ups, areas=tuple(ups))
            found.append(_slopes(made, rules, CauseKey(Cause.LAYER, area, top), changed, made.earthworks))
        if made.earthworks.areas:
            ups = [_deeper(up) if number in group else up for number, up in enumerate(made.build_ups.areas)]
            changed = replace(made.build_ups, areas=tuple(ups))
            dug = _dug_deeper(made.earthworks, {made.build_ups.areas[number].area for number in group})
            found.append(_slopes(made, rules, CauseKey(Cause.FORMATION, area), changed, dug))
    return tuple(found)


def _solid(up: AreaBuildUp) -> list[int]:
    """Return the places of the layers that have a thickness, the units left out, from above."""
    return [place for place, layer in enumerate(up.layers) if layer.key is not LayerKey.UNIT and layer.thickness_mm > 0]


def _thicker(up: AreaBuildUp, by_mm: Mapping[int, float]) -> AreaBuildUp:
    layers = tuple(
        replace(layer, thickness_mm=max(0.0, layer.thickness_mm + by_mm.get(place, 0.0)))
        for place, layer in enumerate(up.layers)
    )
    return replace(up, layers=layers)


def _top_higher(up: AreaBuildUp, top: int) -> AreaBuildUp:
    """Return a build-up in which the top of a layer is higher: it is thicker, and the one above it thinner."""
    solid = _solid(up)
    return _thicker(up, {solid[top]: _STEP_MM, solid[top - 1]: -_STEP_MM}) if top < len(solid) else up


def _deeper(up: AreaBuildUp) -> AreaBuildUp:
    solid = _solid(up)
    return _thicker(up, {solid[-1]: _STEP_MM}) if solid else up


def _dug_deeper(earthworks: Earthworks, names: set[str]) -> Earthworks:
    """Return the earthworks with some areas dug deeper; what is dug more leaves as the rest does."""
    areas, more = [], 0.0
    for area in earthworks.areas:
        extra = units.mm_to_m(_STEP_MM) * area.dig_m2 if area.area in names else 0.0
        more += extra
        areas.append(replace(area, volumes=replace(area.volumes, cut_m3=area.volumes.cut_m3 + extra)))
    times = 1.0 + more / earthworks.away_m3 if earthworks.away_m3 > 0.0 else 1.0
    return replace(
        earthworks,
        areas=tuple(areas),
        cut_m3=earthworks.cut_m3 + more,
        away_m3=earthworks.away_m3 + more,
        loose_m3=_times(earthworks.loose_m3, times),
        tonnes=_times(earthworks.tonnes, times),
    )


def _times(spread: Spread, times: float) -> Spread:
    return Spread(spread.low * times, spread.likely * times, spread.high * times)


def _slopes(made: Plan, rules: Rulebook, key: CauseKey, build_ups: BuildUps, earthworks: Earthworks) -> Slopes:
    """Return what changes where the rooms are asked with another build-up and dig."""
    job, survey, laying, water = made.job, made.survey, made.laying, made.water
    quantities = take_off(job, survey, made.levels, laying, build_ups, earthworks, water, rules)
    tasks = labour(job, survey, laying, build_ups, earthworks, water, quantities, rules)
    before = {item.key: item.gross for item in made.quantities.items}
    hours = {task.key: task.person_hours for task in made.cost.labour}
    return Slopes(
        key,
        {item.key: (item.gross - before.get(item.key, 0.0)) / _STEP_MM for item in quantities.items},
        {task.key: (task.person_hours - hours.get(task.key, 0.0)) / _STEP_MM for task in tasks},
        (earthworks.away_m3 - made.earthworks.away_m3) / _STEP_MM,
    )
