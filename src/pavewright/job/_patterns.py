"""Patterns: units that a pattern cannot take, and borders and mixes that are half said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault
from pavewright.job._pattern_traits import Pattern, Taken

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.job._document import Job
    from pavewright.job._mixed_pack import MixedPack
    from pavewright.job._paving import Laying
    from pavewright.job._paving_units import PavingUnit

_LOOSE = 0.15
"""A joint that is wider than this part of the unit's width shows that the unit does not fit its own pattern."""


def pattern_faults(job: Job) -> Iterator[Fault]:
    """Give areas and zones whose units, mixes or borders do not go with their pattern."""
    known: dict[str | None, PavingUnit] = {unit.name: unit for unit in job.units}
    for number, area in enumerate(job.areas):
        path = f"areas.{number}.laying"
        yield from _laying(area.name, area.laying, area.laying, known, path)
        for place, zone in enumerate(area.zones):
            yield from _laying(
                f"{zone.name} in {area.name}", zone.laying, area.laying, known, f"areas.{number}.zones.{place}.laying"
            )


def _laying(
    name: str, laying: Laying, of_area: Laying, known: Mapping[str | None, PavingUnit], path: str
) -> Iterator[Fault]:
    """Give what does not go together in one laying."""
    unit = known.get(laying.unit)
    if unit is not None and laying.pattern.traits.woven:
        yield from _woven(laying, unit, path)
    if laying.course_units and laying.pattern.traits.taken is Taken.ONE:
        words = (
            f"{name} names units for coursed or mixed laying but is laid {laying.pattern.value}: keep one of the two."
        )
        yield Fault(f"{path}.course_units", words)
    if laying.pattern.traits.taken is Taken.SEVERAL:
        yield from _several(name, laying, path)
    if laying.pattern is Pattern.RINGS and laying.origin is None:
        yield Fault(f"{path}.origin", f"Rings of {name} run about a point: name it as their origin.")
    if laying.bedding is not of_area.bedding:
        yield Fault(f"{path}.bedding", f"{name} lies on the bed of its area: give it the same bedding.")
    yield from _pack(name, laying, path)
    yield from _thicknesses(name, laying, known.get(of_area.unit), known, path)


def _woven(laying: Laying, unit: PavingUnit, path: str) -> Iterator[Fault]:
    """Give units of which no whole number lies side by side in the length of one."""
    joint = laying.joint_mm
    side_by_side = round((unit.length_mm + joint) / (unit.width_mm + joint))
    name = laying.pattern.traits.words.capitalize()
    if side_by_side < 2:  # noqa: PLR2004 - two at least make the weave
        words = (
            f"{name} needs units at least twice as long as wide; {unit.name} is {unit.length_mm:g} × {unit.width_mm:g}. "
            f"Choose another unit or pattern."
        )
        yield Fault(f"{path}.pattern", words)
        return
    pitch = max(unit.width_mm + joint, (unit.length_mm + joint) / side_by_side)
    widest = max(pitch - unit.width_mm, side_by_side * pitch - unit.length_mm)
    if widest > joint + _LOOSE * unit.width_mm:
        words = (
            f"{name} needs units whose length is a whole number of widths; {unit.name}, {unit.length_mm:g} × "
            f"{unit.width_mm:g}, would stand in joints of {widest:.0f} mm. Choose another unit or pattern."
        )
        yield Fault(f"{path}.pattern", words)


def _pack(name: str, laying: Laying, path: str) -> Iterator[Fault]:
    """Give mixed laying without a pack, a pack without mixed laying, and counts that are not one for each unit."""
    if laying.pattern is not Pattern.MIXED:
        if laying.pack is not None:
            words = f"{name} has a mixed pack but is laid {laying.pattern.value}: keep one of the two."
            yield Fault(f"{path}.pack", words)
        return
    if laying.pack is None:
        yield Fault(f"{path}.pack", f"Mixed laying of {name} needs its pack: the module, and how many of each unit.")
    elif len(laying.pack.counts) != 1 + len(laying.course_units):
        words = (
            f"The pack of {name} has {len(laying.pack.counts)} counts for {1 + len(laying.course_units)} units: "
            f"give one for each, the unit of the area first."
        )
        yield Fault(f"{path}.pack.counts", words)
    else:
        yield from _sold(name, laying.pack, f"{path}.pack")


def _sold(name: str, pack: MixedPack, path: str) -> Iterator[Fault]:
    """Give packs that do not split as stated, and what lies or is left given in a way that cannot be."""
    if any(count % pack.parts for count in pack.counts):
        words = f"The counts of the pack of {name} do not split into {pack.parts} equal parts: ask the seller again."
        yield Fault(f"{path}.parts", words)
    for number, stage in enumerate(pack.laid):
        if stage.yard and len(stage.yard) != len(pack.counts):
            words = (
                f"Count what is left in the yard for each of the {len(pack.counts)} sizes of {name}, in their order."
            )
            yield Fault(f"{path}.laid.{number}.yard", words)


def _several(name: str, laying: Laying, path: str) -> Iterator[Fault]:
    """Give mixes of one unit only, or that name one twice."""
    names = (laying.unit, *laying.course_units)
    if len(names) < 2:  # noqa: PLR2004 - one unit is no mix
        words = f"{laying.pattern.value.capitalize()} laying of {name} takes two units or more: name the others in course_units."
        yield Fault(f"{path}.course_units", words)
    if len(set(names)) < len(names):
        words = f"{name} names a unit twice for {laying.pattern.value} laying: name each once."
        yield Fault(f"{path}.course_units", words)


def _thicknesses(
    owner: str, laying: Laying, first: PavingUnit | None, known: Mapping[str | None, PavingUnit], path: str
) -> Iterator[Fault]:
    """Give units of another thickness than the first of the area: one bed carries them all."""
    others = [("unit", laying.unit)]
    others += [(f"course_units.{place}", name) for place, name in enumerate(laying.course_units)]
    if laying.border is not None and laying.border.unit is not None:
        others.append(("border.unit", laying.border.unit))
    for field, name in others:
        other = known.get(name)
        if first is not None and other is not None and other.thickness_mm != first.thickness_mm:
            words = (
                f"{other.name} in {owner} is {other.thickness_mm:g} mm thick and {first.name} {first.thickness_mm:g}: units "
                f"of one area lie on one bed. Choose one thickness, or make it an area of its own."
            )
            yield Fault(f"{path}.{field}", words)
