"""Other ways to lay an area: unit of the same material, pattern, joint, border, start."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from pavewright.findings import FieldChange
from pavewright.job import BorderCorner, BorderKind, Pattern, Taken, Use
from pavewright.laying import joints_to_try
from pavewright.proposals._variations import Slot, SlotKind, StartAsked, Variation, VariationFacts, VariationKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.firm import FirmBook
    from pavewright.job import Area, Job, PavingUnit

_STAGGERS = (0.5, 1 / 3)
"""Running bond by a half and by a third: the two that are laid."""
_JOINTS = 6
_TURNS = 3
_RANKS = 3
_MOST_COURSES = 3


def laid_ways(job: Job, book: FirmBook | None, number: int) -> Iterator[Variation]:
    """Give other ways to lay an area.

    Args:
        job: The job with its book.
        book: The firm's book: its list holds the other sizes.
        number: Place of the area in the job.
    """
    area = job.areas[number]
    laying = area.laying
    if laying.unit is None or (laying.pack is not None and laying.pack.laid):
        return
    if laying.pattern.traits.taken is Taken.ONE:
        yield from _units(job, book, number)
        yield from _patterns(job, area, number)
    yield from _joints(job, area, number)
    yield from _borders(area, number)
    if laying.pattern not in {Pattern.MIXED, Pattern.RINGS}:
        yield from _starts(area, number)


def _units(job: Job, book: FirmBook | None, number: int) -> Iterator[Variation]:
    """Give units of the same kind and material in other sizes: those of the job, then those of the firm's list."""
    area = job.areas[number]
    drawn = job.unit(area.laying.unit)
    own = {each.name for each in job.units}
    listed = () if book is None or book.currency != job.identity.currency else book.units
    for unit in (*job.units, *(each for each in listed if each.name not in own)):
        if unit.name == drawn.name or not _is_alike(unit, drawn):
            continue
        at = f"areas.{number}.laying"
        changes = [FieldChange(f"{at}.unit", unit.name)]
        joint = min(max(area.laying.joint_mm, unit.joint_min_mm), unit.joint_max_mm)
        if joint != area.laying.joint_mm:
            changes.append(FieldChange(f"{at}.joint_mm", joint))
        facts = VariationFacts(VariationKind.UNIT, area.name, name=unit.name, other=drawn.name)
        brought = "" if unit.name in own else unit.model_dump_json(exclude_defaults=True)
        yield Variation(Slot(SlotKind.UNIT, number), facts, tuple(changes), unit=brought)


def _is_alike(unit: PavingUnit, drawn: PavingUnit) -> bool:
    """Return whether two units are the same stuff in two sizes: of one kind and face, and written as one material."""
    traits = ("kind", "material", "riven", "veined", "low_absorption")
    sizes = ("length_mm", "width_mm", "thickness_mm")
    same = all(getattr(unit, each) == getattr(drawn, each) for each in traits)
    return same and any(getattr(unit, each) != getattr(drawn, each) for each in sizes)


def _patterns(job: Job, area: Area, number: int) -> Iterator[Variation]:
    """Give other patterns of one unit; where wheels run, one that locks is not given up."""
    laying, unit = area.laying, job.unit(area.laying.unit)
    for pattern in Pattern:
        traits = pattern.traits
        if traits.taken is not Taken.ONE:
            continue
        if area.use is not Use.FOOT and laying.pattern.traits.locks and not traits.locks:
            continue
        if traits.woven and not _weaves(unit, laying.joint_mm):
            continue
        for stagger in _STAGGERS if traits.staggered else (laying.stagger,):
            if pattern is laying.pattern and math.isclose(stagger, laying.stagger, abs_tol=0.01):
                continue
            changes = [FieldChange(f"areas.{number}.laying.pattern", pattern.value)]
            if traits.staggered:
                changes.append(FieldChange(f"areas.{number}.laying.stagger", stagger))
            value = stagger if traits.staggered else None
            facts = VariationFacts(VariationKind.PATTERN, area.name, option=pattern.value, value=value)
            yield Variation(Slot(SlotKind.PATTERN, number), facts, tuple(changes))


def _weaves(unit: PavingUnit, joint_mm: float) -> bool:
    """Return whether a whole number of widths makes the length of a unit, two at least."""
    side_by_side = (unit.length_mm + joint_mm) / (unit.width_mm + joint_mm)
    return round(side_by_side) >= 2 and abs(side_by_side - round(side_by_side)) * unit.width_mm <= unit.joint_max_mm  # noqa: PLR2004


def _joints(job: Job, area: Area, number: int) -> Iterator[Variation]:
    """Give other joints that every unit of the laying takes, spread over what they take."""
    laying = area.laying
    found = joints_to_try(job, laying)[1:]
    for joint in _spread(found, _JOINTS):
        facts = VariationFacts(VariationKind.JOINT, area.name, value=joint, was=laying.joint_mm)
        yield Variation(Slot(SlotKind.JOINT, number), facts, (FieldChange(f"areas.{number}.laying.joint_mm", joint),))


def _spread(found: Sequence[float], most: int) -> list[float]:
    """Return some of a list, spread over the whole of it."""
    if len(found) <= most:
        return list(found)
    return [found[round(place * (len(found) - 1) / (most - 1))] for place in range(most)]


def _borders(area: Area, number: int) -> Iterator[Variation]:
    """Give other borders; none where there is no border."""
    border = area.laying.border
    if border is None:
        return

    def way(kind: VariationKind, field: str, value: Any, option: str = "") -> Variation:  # noqa: ANN401 - any field
        amount = float(value) if isinstance(value, int) else None
        facts = VariationFacts(kind, area.name, option=option, value=amount)
        change = FieldChange(f"areas.{number}.laying.border.{field}", value)
        return Variation(Slot(SlotKind.BORDER, number), facts, (change,))

    for courses in (border.courses - 1, border.courses + 1):
        if 1 <= courses <= _MOST_COURSES:
            yield way(VariationKind.BORDER_COURSES, "courses", courses)
    for kind in BorderKind:
        if kind is not border.kind:
            yield way(VariationKind.BORDER_KIND, "kind", kind.value, kind.value)
    for corner in BorderCorner:
        if corner is not border.corner:
            yield way(VariationKind.BORDER_CORNER, "corner", corner.value, corner.value)
    yield way(VariationKind.BORDER_STRETCH, "stretch_joints", not border.stretch_joints)


def _starts(area: Area, number: int) -> Iterator[Variation]:
    """Give starts that are searched for together with everything else that is varied."""
    for turn in range(_TURNS):
        for rank in range(_RANKS if turn == 0 else 1):
            kind = VariationKind.DIRECTION if turn else VariationKind.START
            facts = VariationFacts(kind, area.name)
            yield Variation(Slot(SlotKind.START, number), facts, start=StartAsked(turn, rank))
