"""What the dig found that nobody knew, as volumes: soft spots, buried concrete, drains."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from pavewright import units
from pavewright.earthworks import _words as words
from pavewright.earthworks._codes import Code
from pavewright.earthworks._types_found import FoundDig
from pavewright.findings import Finding, Severity
from pavewright.job.on_site import FoundKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.earthworks._figures import EarthworkFigures
    from pavewright.job import Job
    from pavewright.job.on_site import DigFound
    from pavewright.rules import Figure


def found_digs(job: Job, build_ups: BuildUps, known: EarthworkFigures) -> tuple[FoundDig, ...]:
    """Return what was found as volumes; a dig that is deeper as a whole stands in the build-up of its area already."""
    return tuple(
        _one(number, each, build_ups.area(each.area), known)
        for number, each in enumerate(job.dig_found)
        if each.kind is not FoundKind.DEEPER
    )


def _one(number: int, found: DigFound, up: AreaBuildUp, known: EarthworkFigures) -> FoundDig:
    """Return one find as a volume, within the dig of its area."""
    length_m = units.mm_to_m(found.length_mm or 0.0)
    figures: tuple[Figure, ...] = ()
    deep_m = units.mm_to_m(found.depth_mm)
    if found.kind is FoundKind.DRAIN:
        plan_m2 = length_m * units.mm_to_m(known.found_trench.value)
        plan = f"{length_m:.2f} m × {known.found_trench.value:g} mm"
        figures = (known.found_trench,)
    else:
        plan_m2 = min(_plan_m2(found, up), up.dig_shape.area_m2)
        plan = f"{plan_m2:.2f} m²"
    whole = plan_m2 * deep_m
    is_concrete = found.kind is FoundKind.CONCRETE
    below = 0.0 if is_concrete else whole
    note = words.found_note(broken=is_concrete)
    return FoundDig(
        number=number,
        kind=found.kind,
        area=found.area,
        plan_m2=plan_m2,
        dig_m3=below,
        fill_m3=below,
        broken_m3=whole if is_concrete else 0.0,
        length_m=length_m,
        new_pipe=found.new_pipe,
        open_stone=up.is_permeable,
        working=Working(words.found_sum(found.name, plan, found.depth_mm), whole, "m³", figures, note),
    )


def _plan_m2(found: DigFound, up: AreaBuildUp) -> float:
    """Return how much of the ground a find takes up: of an outline what lies within the dig."""
    if not found.outline:
        return found.area_m2 or 0.0
    drawn = Polygon([(each.x_mm, each.y_mm) for each in found.outline]).buffer(0.0)
    return units.mm2_to_m2(float(drawn.intersection(up.dig_shape.polygon).area))


def found_findings(job: Job, found: Iterable[FoundDig], build_ups: BuildUps) -> list[Finding]:
    """Return what has to be looked at: an outline that leaves the dig, a drain that nobody knows."""
    findings = []
    for each in found:
        entered = job.dig_found[each.number]
        place = f"area {each.area}, {entered.name}"
        if each.kind is FoundKind.DRAIN:
            findings.append(Finding(Code.FOUND_DRAIN, Severity.CHECK, place, words.found_drain(entered.name)))
            continue
        asked = _asked_m2(entered)
        if each.plan_m2 < asked and not math.isclose(each.plan_m2, asked):
            dug = build_ups.area(each.area).dig_shape.area_m2
            said = words.found_outside(entered.name, each.plan_m2, asked)
            findings.append(Finding(Code.FOUND_OUTSIDE, Severity.CHECK, place, said, asked, dug, "m²"))
    return findings


def _asked_m2(found: DigFound) -> float:
    """Return how large a find is said to be, within the dig or not. [m²]."""
    if not found.outline:
        return found.area_m2 or 0.0
    return units.mm2_to_m2(float(Polygon([(each.x_mm, each.y_mm) for each in found.outline]).buffer(0.0).area))
