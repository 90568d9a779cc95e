"""What is noticed about units that were measured, before they are ordered or laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity, worded
from pavewright.job import Through
from pavewright.laying._codes import Code
from pavewright.laying.findings import _words_sizes as words
from pavewright.laying.sheets import measured_sizes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types_sheets import RunGrowth
    from pavewright.laying.setting import Setting
    from pavewright.survey import PlanArea


def size_findings(
    area: PlanArea, setting: Setting, growth: Sequence[RunGrowth], known: LayingFigures
) -> tuple[Finding, ...]:
    """Return findings on runs that grow, joints that cannot absorb it, sizes out of class and too few measured."""
    found: list[Finding] = []
    for grown in growth:
        unit = next(each for each in setting.units if each.name == grown.unit)
        found += _of_run(area, unit, grown, known)
    for unit in setting.units:
        found += _of_unit(unit, known)
    measured = [unit for unit in setting.units if unit.measured_lengths_mm or unit.measured_widths_mm]
    if measured and area.area.laying.pattern.traits.through is Through.NONE:
        said = words.growth_not_worked_out(area.name, area.area.laying.pattern)
        found.append(Finding(Code.GROWTH_NOT_WORKED_OUT, Severity.NOTE, f"area {area.name}", said))
    return tuple(found)


def _of_run(area: PlanArea, unit: PavingUnit, grown: RunGrowth, known: LayingFigures) -> list[Finding]:
    """Return the finding on a run: a joint that no longer fits its range, else growth beyond part of a joint."""
    joint = grown.absorbing_joint_mm
    least, most = unit.joint_min_mm, unit.joint_max_mm
    if grown.growth_mm and not least <= joint <= most:
        limit = least if joint < least else most
        message = words.growth_past_joints(area.name, unit, grown)
        return [
            Finding(
                Code.GROWTH_PAST_JOINTS, Severity.CHECK, f"area {area.name}", message, joint, limit, "mm",

            ).with_options(_options(area, grown, absorbs=False))
        ]  # fmt: skip
    part = known.growth_per_joint
    if abs(grown.growth_mm) <= part.value * grown.joint_mm:
        return []
    message = words.run_grows(area.name, unit, grown, part)
    return [
        Finding(
            Code.RUN_GROWS, Severity.CHECK, f"area {area.name}", message,
            abs(grown.growth_mm), part.value * grown.joint_mm, "mm", part,

        ).with_options(_options(area, grown, absorbs=True))
    ]  # fmt: skip


def _options(area: PlanArea, grown: RunGrowth, *, absorbs: bool) -> tuple[Option, ...]:
    joints = Option(
        words.absorbing_joints(grown.absorbing_joint_mm),
        (FieldChange(f"{area.path}.laying.joint_mm", round(grown.absorbing_joint_mm, 1)),),
    )
    return (*((joints,) if absorbs else ()), *worded(words.without_other_joints(grown)))


def _of_unit(unit: PavingUnit, known: LayingFigures) -> list[Finding]:
    """Return findings on the units measured themselves: too few, or outside their class."""
    found: list[Finding] = []
    wanted = known.units_to_measure
    for name, work_mm, sizes_mm in (
        ("length", unit.length_mm, unit.measured_lengths_mm),
        ("width", unit.width_mm, unit.measured_widths_mm),
    ):
        if not sizes_mm:
            continue
        if len(sizes_mm) < wanted.value:
            message = words.few_measured(name, len(sizes_mm), unit.name, int(wanted.value))
            found.append(
                Finding(
                    Code.FEW_MEASURED, Severity.NOTE, f"unit {unit.name}", message,
                    float(len(sizes_mm)), wanted.value, "units", wanted,
                )
            )  # fmt: skip
        found += _out_of_class(unit, name, work_mm, sizes_mm, known)
    return found


def _out_of_class(
    unit: PavingUnit, name: str, work_mm: float, sizes_mm: Sequence[float], known: LayingFigures
) -> list[Finding]:
    allowed = _tolerance_mm(unit, work_mm, known)
    if allowed is None:
        return []
    limit, source = allowed
    off = [size - work_mm for size in sizes_mm if abs(size - work_mm) > limit + _ROUNDING_MM]
    if not off:
        return []
    worst = max(off, key=abs)
    real = measured_sizes(sizes_mm)
    message = words.size_out_of_class(name, (len(off), real.measured), unit.name, worst, limit, source)
    return [
        Finding(
            Code.SIZE_OUT_OF_CLASS, Severity.CHECK, f"unit {unit.name}", message, abs(worst), limit, "mm",
            options=worded(words.with_units_out_of_class()),
        )
    ]  # fmt: skip


def _tolerance_mm(unit: PavingUnit, work_mm: float, known: LayingFigures) -> tuple[float, str] | None:
    """Return the size tolerance of a unit's class, either way, and where it is from; None where it has none. [mm]."""
    allowed = known.size_tolerance.get(unit.size_class) if unit.size_class is not None else None
    if allowed is None or work_mm > allowed.valid_to_mm:
        return None
    return allowed.short_mm if work_mm <= allowed.short_to_mm else allowed.long_mm, allowed.words


_ROUNDING_MM = 1e-9
"""A size at the limit is inside it whatever the last digit of a float says. [mm]"""
