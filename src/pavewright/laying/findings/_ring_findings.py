"""What is noticed about rings: joints that open wider than their unit takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.laying._codes import Code
from pavewright.laying.findings import _words_curves as words
from pavewright.laying.pieces import frame_of
from pavewright.laying.setting import first_radius_mm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying.patterns import RingCourse
    from pavewright.laying.setting import Workshop

_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""
_MAX_UNITS = 8
"""So many units beside the first may be laid in courses and rings."""


def ring_findings(shop: Workshop) -> tuple[Finding, ...]:
    """Return a finding where joints of rings open wider than their unit takes."""
    rings = shop.setting.rings
    if rings is None:
        return ()
    wide = [(number, course) for number, course in enumerate(rings.courses, start=1) if course.beyond_mm > _ROUNDING_MM]
    if not wide:
        return ()
    number, worst = max(wide, key=lambda each: each[1].beyond_mm)
    unit = shop.setting.units[worst.unit.size]
    return (
        Finding(
            Code.RING_JOINT,
            Severity.CHECK,
            f"area {shop.area.name}",
            words.ring_joint(shop.area.name, len(wide), number, worst, unit),
            worst.outer_joint_mm,
            unit.joint_max_mm,
            "mm",
        ).with_options((*_other_units(shop), *_larger(shop), _wedges(worst))),
    )


def _other_units(shop: Workshop) -> Iterator[Option]:
    """Give units of the job with which all rings keep their joints."""
    laying = shop.laying
    named = {laying.unit, *laying.course_units}
    first = shop.job.unit(laying.unit)
    if len(laying.course_units) >= _MAX_UNITS:
        return
    for unit in shop.job.units:
        if unit.name in named or unit.thickness_mm != first.thickness_mm:
            continue
        more = (*laying.course_units, unit.name)
        found = shop.setting_with(laying.model_copy(update={"course_units": more}))
        rings = None if found is None else found[1].rings
        if rings is not None and all(course.beyond_mm <= _ROUNDING_MM for course in rings.courses):
            path = f"{shop.area.path}.laying.course_units.{len(laying.course_units)}"
            yield Option(words.unit_in_tight_rings(unit.name), (FieldChange(path, unit.name),))


def _larger(shop: Workshop) -> Iterator[Option]:
    """Give the first radius from which on all rings keep their joints."""
    setting = shop.setting
    start = frame_of(shop.area, shop.survey).start
    rings = setting.rings
    now = shop.laying.centre_radius_mm or (rings.courses[0].inner_mm if rings is not None and rings.courses else 0.0)
    radius = first_radius_mm(shop.laying, setting.units, setting.region, start, now)
    if radius is None:
        yield Option(words.no_ring_holds())
        return
    change = FieldChange(f"{shop.area.path}.laying.centre_radius_mm", radius)
    yield Option(words.begin_rings_at(radius), (change,))


def _wedges(worst: RingCourse) -> Option:
    """Give the taper that keeps the joints of the worst ring as wide outside as inside."""
    narrower = worst.outer_joint_mm - worst.inner_joint_mm
    inside = max(worst.unit.round_mm - narrower, 0.0)
    return Option(words.cut_to_wedges(worst.unit.round_mm, inside))
