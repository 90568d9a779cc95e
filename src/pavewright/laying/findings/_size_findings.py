"""What is noticed about units that were measured, before they are ordered or laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import FieldChange, Finding, Option, Severity, worded
from pavewright.job import Through
from pavewright.laying._codes import Code
from pavewright.laying._types_sheets import Way
from pavewright.laying.sheets import measured_sizes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types_sheets import RunGrowth
    from pavewright.laying.setting import Setting
    from pavewright.survey import PlanArea

_DIRECTIONS = {Way.ALONG: "along the courses", Way.ACROSS: "across the courses"}


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
        words = (
            f"How far {area.name} grows with the units as measured is not worked out for "
            f"{area.area.laying.pattern.value}: lay three repeats dry and measure them."
        )
        found.append(Finding(Code.GROWTH_NOT_WORKED_OUT, Severity.NOTE, f"area {area.name}", words))
    return tuple(found)


def _of_run(area: PlanArea, unit: PavingUnit, grown: RunGrowth, known: LayingFigures) -> list[Finding]:
    """Return the finding on a run: a joint that no longer fits its range, else growth beyond part of a joint."""
    joint, where = grown.absorbing_joint_mm, _DIRECTIONS[grown.way]
    measured = (
        f"{grown.measured} of {unit.name} measured {grown.mean_mm:.1f} mm on average {where}, "
        f"{grown.mean_mm - grown.work_mm:+.1f} on the work size: {grown.units_in_run} in a run of {area.name} grow "
        f"{grown.growth_mm:+.0f} mm (give or take {grown.doubt_mm:.0f})"
    )
    least, most = unit.joint_min_mm, unit.joint_max_mm
    if grown.growth_mm and not least <= joint <= most:
        limit = least if joint < least else most
        message = (
            f"{measured}. The joint that absorbs it would be {joint:.1f} mm; {unit.name} takes "
            f"{units.millimetres_text(least)} to {units.millimetres_text(most)}."
        )
        return [
            Finding(
                Code.GROWTH_PAST_JOINTS, Severity.CHECK, f"area {area.name}", message, joint, limit, "mm",

            ).with_options(_options(area, grown, absorbs=False))
        ]  # fmt: skip
    part = known.growth_per_joint
    if abs(grown.growth_mm) <= part.value * grown.joint_mm:
        return []
    message = f"{measured}, more than {part.value:g} of a joint. A joint of {joint:.1f} mm absorbs it."
    return [
        Finding(
            Code.RUN_GROWS, Severity.CHECK, f"area {area.name}", message,
            abs(grown.growth_mm), part.value * grown.joint_mm, "mm", part,

        ).with_options(_options(area, grown, absorbs=True))
    ]  # fmt: skip


def _options(area: PlanArea, grown: RunGrowth, *, absorbs: bool) -> tuple[Option, ...]:
    side = "length_mm" if grown.way is Way.ALONG else "width_mm"
    joints = Option(
        f"Lay with joints of {grown.absorbing_joint_mm:.1f} mm, kept to the marks of the gauge.",
        (FieldChange(f"{area.path}.laying.joint_mm", round(grown.absorbing_joint_mm, 1)),),
    )
    return (
        *((joints,) if absorbs else ()),
        Option("Take it up in the cut piece at the end of the run, if it stays wider than a sliver."),
        Option(f"Let the free edge move by {abs(grown.growth_mm):.0f} mm, if the job allows."),
        Option(
            f"Write {grown.mean_mm:.1f} as {side} of {grown.unit} and plan again: cuts, order and marks then follow it."
        ),
        Option("Sort the units by size and keep each size to its own courses."),
        Option("Refuse the delivery where the sizes lie outside their class."),
    )


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
            message = (
                f"The {name} of {len(sizes_mm)} of {unit.name} was measured: measure {wanted.value:g}, from several "
                "packs."
            )
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
    message = (
        f"The {name} of {len(off)} of {real.measured} of {unit.name} lies outside its class, {worst:+.1f} mm at worst; "
        f"{limit:g} mm either way is allowed ({source})."
    )
    return [
        Finding(
            Code.SIZE_OUT_OF_CLASS, Severity.CHECK, f"unit {unit.name}", message, abs(worst), limit, "mm",
            options=worded((
                "Measure ten from other packs before anything is unpacked.",
                "Tell the merchant with the sizes measured, and refuse what lies outside.",
                "Keep those units for cut pieces.",
            )),
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
