"""What lies under a flight of steps: no unit is laid there, and the area below is laid up to the foot of the flight."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from pavewright.findings import Finding, Severity
from pavewright.geometry import point_along, shape_from_polygon, shared, without
from pavewright.laying._codes import Code
from pavewright.laying._types_parts import UnderSteps
from pavewright.laying.edges import _words as words

if TYPE_CHECKING:
    from pavewright.levels import Levels, Steps
    from pavewright.survey import PlanArea

_LITTLE_MM2 = 100.0
"""A flight that touches an area by less than a fingernail does not stand on it. [mm²]"""


def footprint(steps: Steps) -> Polygon:
    """Return what a flight takes in plan, from its top nosing out to the face of its lowest riser. [mm].

    Source: definition, one going fewer than risers, over the width of the side
    """
    out_mm = (steps.risers - 1) * steps.going_mm
    wide_mm = math.dist(steps.start, steps.end)
    far = [point_along(steps.start, steps.end, along, -out_mm) for along in (wide_mm, 0.0)]
    return Polygon((steps.start, steps.end, *far))


def clear_of_steps(area: PlanArea, levels: Levels | None) -> tuple[PlanArea, tuple[UnderSteps, ...]]:
    """Return what of an area is to be laid beside the flights that stand on it, and what lies under each.

    Where a flight parts an area in two the area is laid whole, and nothing is said to lie under the flight.
    """
    found = []
    for steps in levels.steps if levels is not None else ():
        if steps.lower_area != area.name or steps.risers < _STANDING:
            continue
        under = shared(footprint(steps), area.shape.polygon)
        left = without(area.shape.polygon, under)
        if isinstance(under, Polygon) and isinstance(left, Polygon) and under.area > _LITTLE_MM2 and not left.is_empty:
            found.append(UnderSteps(steps.name, shape_from_polygon(under)))
            area = replace(area, shape=shape_from_polygon(left))
    return area, tuple(found)


_STANDING = 2
"""A flight of one riser takes no room below."""


def steps_findings(area: PlanArea, under: tuple[UnderSteps, ...], levels: Levels | None) -> tuple[Finding, ...]:
    """Return what lies under each flight, and a check where a flight stands on units that were laid after all."""
    clear = {each.steps for each in under}
    found = [
        Finding(
            Code.UNDER_STEPS,
            Severity.NOTE,
            f"steps {each.steps}",
            words.under_steps(area.name, each),
            each.shape.area_m2,
            unit="m2",
            at_mm=each.shape.centre_mm,
        )
        for each in under
    ]
    for steps in levels.steps if levels is not None else ():
        stands = steps.lower_area == area.name and steps.risers >= _STANDING and steps.name not in clear
        if stands and shared(footprint(steps), area.shape.polygon).area > _LITTLE_MM2:
            found.append(
                Finding(
                    Code.UNITS_UNDER_STEPS,
                    Severity.CHECK,
                    f"steps {steps.name}",
                    words.units_under_steps(steps.name, area.name),
                )
            )
    return tuple(found)
