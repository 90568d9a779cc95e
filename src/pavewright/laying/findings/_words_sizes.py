"""The sentences on units that were measured, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.laying._types_sheets import Way

if TYPE_CHECKING:
    from pavewright.job import Pattern, PavingUnit
    from pavewright.laying._types_sheets import RunGrowth
    from pavewright.rules import Figure

_DIRECTIONS = {Way.ALONG: "along the courses", Way.ACROSS: "across the courses"}
_SIDES = {Way.ALONG: "length_mm", Way.ACROSS: "width_mm"}


def growth_not_worked_out(area: str, pattern: Pattern) -> str:
    """Say that a pattern does not let the growth be worked out."""
    return (
        f"How far {area} grows with the units as measured is not worked out for "
        f"{pattern.value}: lay three repeats dry and measure them."
    )


def growth_past_joints(area: str, unit: PavingUnit, grown: RunGrowth) -> str:
    """Say how far a run grows, and that the joint that absorbs it is out of range."""
    return (
        f"{_measured(area, unit, grown)}. The joint that absorbs it would be {grown.absorbing_joint_mm:.1f} mm; "
        f"{unit.name} takes {units.millimetres_text(unit.joint_min_mm)} to {units.millimetres_text(unit.joint_max_mm)}."
    )


def run_grows(area: str, unit: PavingUnit, grown: RunGrowth, part: Figure) -> str:
    """Say how far a run grows, past which part of a joint, and which joint absorbs it."""
    return (
        f"{_measured(area, unit, grown)}, more than {part.value:g} of a joint. "
        f"A joint of {grown.absorbing_joint_mm:.1f} mm absorbs it."
    )


def _measured(area: str, unit: PavingUnit, grown: RunGrowth) -> str:
    return (
        f"{grown.measured} of {unit.name} measured {grown.mean_mm:.1f} mm on average {_DIRECTIONS[grown.way]}, "
        f"{grown.mean_mm - grown.work_mm:+.1f} on the work size: {grown.units_in_run} in a run of {area} grow "
        f"{grown.growth_mm:+.0f} mm (give or take {grown.doubt_mm:.0f})"
    )


def absorbing_joints(joint_mm: float) -> str:
    """Say which joint absorbs the growth. [mm]."""
    return f"Lay with joints of {joint_mm:.1f} mm, kept to the marks of the gauge."


def without_other_joints(grown: RunGrowth) -> tuple[str, ...]:
    """Say what takes up the growth of a run beside other joints."""
    side = _SIDES[grown.way]
    return (
        "Take it up in the cut piece at the end of the run, if it stays wider than a sliver.",
        f"Let the free edge move by {abs(grown.growth_mm):.0f} mm, if the job allows.",
        f"Write {grown.mean_mm:.1f} as {side} of {grown.unit} and plan again: cuts, order and marks then follow it.",
        "Sort the units by size and keep each size to its own courses.",
        "Refuse the delivery where the sizes lie outside their class.",
    )


def few_measured(side: str, measured: int, unit: str, wanted: int) -> str:
    """Say how many units were measured, and how many are wanted."""
    return f"The {side} of {measured} of {unit} was measured: measure {wanted}, from several packs."


def size_out_of_class(side: str, off: tuple[int, int], unit: str, worst_mm: float, limit_mm: float, source: str) -> str:
    """Say how many of those measured lie outside their class, how far, and what is allowed by which source. [mm]."""
    many, measured = off
    return (
        f"The {side} of {many} of {measured} of {unit} lies outside its class, {worst_mm:+.1f} mm at worst; "
        f"{limit_mm:g} mm either way is allowed ({source})."
    )


def with_units_out_of_class() -> tuple[str, ...]:
    """Say what is done with units outside their class."""
    return (
        "Measure ten from other packs before anything is unpacked.",
        "Tell the merchant with the sizes measured, and refuse what lies outside.",
        "Keep those units for cut pieces.",
    )
