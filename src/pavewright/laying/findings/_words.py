"""The sentences on pieces, joints, weight and bond, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Pattern, PavingUnit
    from pavewright.laying._types import Piece


def inner_corners(area: str, pieces: int) -> str:
    """Say how many pieces have an inner corner, where a saw cut stops and a crack may start."""
    return (
        f"{pieces} pieces of {area} have an inner corner: drill the corner first and stop the saw at the "
        "hole, so that no crack starts from it."
    )


def lay_as_two() -> str:
    """Say that a piece with an inner corner may be two."""
    return "Lay each as two with a joint at the corner."


def joint_out_of_range(joint_mm: float, unit: PavingUnit) -> str:
    """Say which joint is asked for and which ones the unit takes. [mm]."""
    return (
        f"A joint of {units.millimetres_text(joint_mm)} is asked for; {unit.name} takes "
        f"{units.millimetres_text(unit.joint_min_mm)} to {units.millimetres_text(unit.joint_max_mm)}."
    )


def change_joint() -> str:
    """Say that the joint may change."""
    return "Change the joint."


def two_person_lift(unit: PavingUnit) -> str:
    """Say how heavy a unit is."""
    return f"Each {unit.name} weighs {unit.kg_each:.0f} kg: two people or a lifting aid."


def slivers(area: str, many: int, cuts: int, narrowest: Piece) -> str:
    """Say how many cut pieces are slivers, and which is the narrowest."""
    return (
        f"{many} of {cuts} cut pieces of {area} "
        f"{'are slivers' if many > 1 else 'is a sliver'}; the narrowest is piece {narrowest.number}, "
        f"{narrowest.along_mm:.0f} × {narrowest.across_mm:.0f} mm."
    )


def move_free_edge() -> str:
    """Say that the free edge may move by a sliver."""
    return "Move the free edge by the width of the sliver, if the job allows."


def take_up_in_border() -> str:
    """Say that a border or wider joints may take up a sliver."""
    return "Take the difference up in a border or in wider joints within their range."


def end_with_a_ring(reaches_mm: Sequence[float]) -> str:
    """Say where the last rings end. [mm]."""
    ends = [units.millimetres_text(reach) for reach in reaches_mm]
    return f"Let it end where a ring ends: rings reach {' and '.join(ends)} from the centre."


def shift_pattern(along_mm: float, across_mm: float, counts: tuple[int, int, int], tried: int) -> str:
    """Say how far the pattern is shifted, and what is left: pieces too narrow, slivers and cut ones. [mm]."""
    narrow, left_slivers, cut = counts
    left = {0: "no sliver is", 1: "1 sliver is"}.get(left_slivers, f"{left_slivers} slivers are")
    words = f"Shift the pattern {along_mm:.1f} mm along and {across_mm:.1f} mm across the courses: {left} left"
    if narrow:
        words += f", {narrow} too narrow to be cut"
    return f"{words}, with {cut} cut pieces in all; the best of {tried} starts tried."


def woven_joint(side_by_side: int, unit: PavingUnit, widest_mm: float, pattern: Pattern) -> str:
    """Say how wide the joints of a woven pattern open. [mm]."""
    return (
        f"{side_by_side} widths of {unit.name} with their joints are not one length: joints of "
        f"{widest_mm:.1f} mm open in the {pattern.value}; it takes {unit.joint_max_mm:.1f} mm."
    )


def other_unit_for_weaving() -> str:
    """Say which unit a woven pattern takes."""
    return "Choose a unit whose length is its widths and their joints together."


def woven_with_joints(joint_mm: float, widest_mm: float) -> str:
    """Say with which joints a woven pattern keeps its widest one. [mm]."""
    return f"Lay with joints of {joint_mm:.1f} mm: the widest is then {widest_mm:.1f} mm."


def small_under_wheels(area: str, many: int, smallest: int, part_percent: float) -> str:
    """Say how many cut pieces are small where vehicles run, and which is the smallest part of its unit."""
    return (
        f"{many} cut pieces of {area} are smaller than a third of a unit; wheels tip and loosen "
        f"them. The smallest is piece {smallest}, {_percent(part_percent)} of a unit."
    )


def larger_under_wheels() -> tuple[str, ...]:
    """Say how small pieces under wheels are avoided."""
    return (
        "Cut the unit beside it as well, so that two pieces of more than a third take its place.",
        "Begin elsewhere: the search for the best starts shows what each start leaves.",
    )


def _percent(percent: float) -> str:
    """Return a part in words of per cent, the smallest as under one."""
    return f"{percent:.0f} %" if percent >= 1.0 else "under 1 %"


def bond_under_wheels(area: str, pattern: Pattern) -> str:
    """Say that a bond does not lock under wheels."""
    return (
        f"{area} bears vehicles and is laid in {pattern.value} bond: herringbone holds "
        f"best against braking and turning wheels."
    )


def lay_in_herringbone() -> str:
    """Say which bond locks."""
    return "Lay it in herringbone."
