"""Patterns: units that a pattern cannot take, and borders and mixes that are half said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault
from pavewright.job._paving import Pattern

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._mixed_pack import MixedPack
    from pavewright.job._paving import Area, PavingUnit

_WOVEN = {Pattern.HERRINGBONE: "Herringbone", Pattern.BASKETWEAVE: "Basketweave"}
_LOOSE = 0.15
"""A joint that is wider than this part of the unit's width shows that the unit does not fit its own pattern."""


def pattern_faults(job: Job) -> Iterator[Fault]:
    """Give areas whose units, mixes or borders do not go with their pattern."""
    known = {unit.name: unit for unit in job.units}
    for number, area in enumerate(job.areas):
        laying, path = area.laying, f"areas.{number}.laying"
        unit = known.get(laying.unit)
        if unit is not None and laying.pattern in _WOVEN:
            yield from _woven(area, unit, path)
        if laying.course_units and laying.pattern not in {Pattern.COURSED, Pattern.MIXED}:
            words = f"{area.name} names units for coursed or mixed laying but is laid {laying.pattern.value}: keep one of the two."
            yield Fault(f"{path}.course_units", words)
        if laying.pattern in {Pattern.COURSED, Pattern.MIXED}:
            yield from _several(area, path)
        yield from _pack(area, path)
        yield from _thicknesses(area, known, path)


def _woven(area: Area, unit: PavingUnit, path: str) -> Iterator[Fault]:
    """Give units of which no whole number lies side by side in the length of one."""
    joint = area.laying.joint_mm
    side_by_side = round((unit.length_mm + joint) / (unit.width_mm + joint))
    name = _WOVEN[area.laying.pattern]
    if side_by_side < 2:  # noqa: PLR2004 - two at least make the weave
        words = (
            f"{name} wants units at least twice as long as wide; {unit.name} is {unit.length_mm:g} × {unit.width_mm:g}. "
            f"Choose another unit or pattern."
        )
        yield Fault(f"{path}.pattern", words)
        return
    pitch = max(unit.width_mm + joint, (unit.length_mm + joint) / side_by_side)
    widest = max(pitch - unit.width_mm, side_by_side * pitch - unit.length_mm)
    if widest > joint + _LOOSE * unit.width_mm:
        words = (
            f"{name} wants units whose length is a whole number of widths; {unit.name}, {unit.length_mm:g} × "
            f"{unit.width_mm:g}, would stand in joints of {widest:.0f} mm. Choose another unit or pattern."
        )
        yield Fault(f"{path}.pattern", words)


def _pack(area: Area, path: str) -> Iterator[Fault]:
    """Give mixed laying without a pack, a pack without mixed laying, and counts that are not one for each unit."""
    laying = area.laying
    if laying.pattern is not Pattern.MIXED:
        if laying.pack is not None:
            words = f"{area.name} has a mixed pack but is laid {laying.pattern.value}: keep one of the two."
            yield Fault(f"{path}.pack", words)
        return
    if laying.pack is None:
        yield Fault(
            f"{path}.pack", f"Mixed laying of {area.name} wants its pack: the module, and how many of each unit."
        )
    elif len(laying.pack.counts) != 1 + len(laying.course_units):
        words = (
            f"The pack of {area.name} has {len(laying.pack.counts)} counts for {1 + len(laying.course_units)} units: "
            f"give one for each, the unit of the area first."
        )
        yield Fault(f"{path}.pack.counts", words)
    else:
        yield from _sold(area.name, laying.pack, f"{path}.pack")


def _sold(name: str, pack: MixedPack, path: str) -> Iterator[Fault]:
    """Give packs that do not split as told, and what lies or is left told in a way that cannot be."""
    if any(count % pack.parts for count in pack.counts):
        words = f"The counts of the pack of {name} do not split into {pack.parts} equal parts: ask the seller again."
        yield Fault(f"{path}.parts", words)
    for number, stage in enumerate(pack.laid):
        if stage.yard and len(stage.yard) != len(pack.counts):
            words = (
                f"Count what is left in the yard for each of the {len(pack.counts)} sizes of {name}, in their order."
            )
            yield Fault(f"{path}.laid.{number}.yard", words)


def _several(area: Area, path: str) -> Iterator[Fault]:
    """Give mixes of one unit only, or that name one twice."""
    names = (area.laying.unit, *area.laying.course_units)
    if len(names) < 2:  # noqa: PLR2004 - one unit is no mix
        words = f"{area.laying.pattern.value.capitalize()} laying of {area.name} takes two units or more: name the others in course_units."
        yield Fault(f"{path}.course_units", words)
    if len(set(names)) < len(names):
        words = f"{area.name} names a unit twice for {area.laying.pattern.value} laying: name each once."
        yield Fault(f"{path}.course_units", words)


def _thicknesses(area: Area, known: dict[str, PavingUnit], path: str) -> Iterator[Fault]:
    """Give units of one area of different thickness: one bed carries them all."""
    unit, border = known.get(area.laying.unit), area.laying.border
    others = [(f"course_units.{place}", name) for place, name in enumerate(area.laying.course_units)]
    if border is not None and border.unit is not None:
        others.append(("border.unit", border.unit))
    for field, name in others:
        other = known.get(name)
        if unit is not None and other is not None and other.thickness_mm != unit.thickness_mm:
            words = (
                f"{other.name} is {other.thickness_mm:g} mm thick and {unit.name} {unit.thickness_mm:g}: units of one "
                f"area lie on one bed. Choose one thickness, or make the border an area of its own."
            )
            yield Fault(f"{path}.{field}", words)
