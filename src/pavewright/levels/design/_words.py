"""The sentences of the findings on a design and of what limits it, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from pavewright.rules import Figure
    from pavewright.survey import PlanOpening


def direction_chosen(area: str, main: float, cross: float, why: str, bearing_deg: float) -> str:
    """Say which way an area is laid where the job does not say it.

    Args:
        area: Name of the area.
        main: Main fall. [rise over run]
        cross: Cross fall, to the right looking downhill. [rise over run]
        why: Why it falls that way.
        bearing_deg: Direction of the main fall. [deg]
    """
    side = f", and {units.fall_text(cross)} to the {'right' if cross > 0 else 'left'} looking downhill" if cross else ""
    return (
        f"The job does not say which way {area} falls. It is laid {units.fall_text(main)} {why} (bearing "
        f"{bearing_deg:.0f} degrees){side}."
    )


def rounded_flatter(area: str, number: int, designed: float, strung: float, twist_mm: float) -> str:
    """Say that printed levels give a plane less than its least fall.

    Args:
        area: Name of the area.
        number: Number of the plane.
        designed: Its fall as designed. [rise over run]
        strung: Its fall by the printed levels. [rise over run]
        twist_mm: How far a corner stands off. [mm]
    """
    return (
        f"Plane {number} of {area} is designed at {units.fall_text(designed)}; the levels in whole "
        f"millimetres give it {units.fall_text(strung)}, with up to {twist_mm:.1f} mm of twist. Stretch the "
        f"strings along its two long edges and sight across."
    )


def fold_in_another_way() -> str:
    """Propose that all ways to fold an area are compared."""
    return "Fold it in another way: cheapest compares them all."


def below_dpc(wall: str, dpc_mm: float, below: Figure, high_mm: float) -> str:
    """Say how high paving may lie at a wall.

    Args:
        wall: Name of the wall.
        dpc_mm: Level of its damp-proof course. [mm]
        below: How far paving stays below it. [mm]
        high_mm: Highest paving beside it. [mm]
    """
    return (
        f"The damp-proof course of wall {wall} is at {units.metres_text(dpc_mm)} m; paving stays "
        f"{below.value:.0f} mm below it: {units.metres_text(high_mm)} m at most."
    )


def below_air_brick(brick: str, underside_mm: float, clear: Figure) -> str:
    """Say how high paving may lie at an air brick. [mm]."""
    return (
        f"The underside of air brick {brick} is at {units.metres_text(underside_mm)} m; "
        f"paving stays {clear.value:.0f} mm below it."
    )


def step_down(door: PlanOpening, threshold_mm: float) -> str:
    """Say how far paving stays below a threshold. [mm]."""
    return (
        f"The threshold of {door.name} is at {units.metres_text(threshold_mm)} m; the step down is to be "
        f"{door.min_step_mm:.0f} mm or more."
    )


def greatest_step_down(door: PlanOpening, threshold_mm: float, max_step_mm: float) -> str:
    """Say how far below a threshold paving may lie. [mm]."""
    return (
        f"The threshold of {door.name} is at {units.metres_text(threshold_mm)} m; a step down of {max_step_mm:.0f} mm "
        f"is the greatest that is accepted: {units.metres_text(threshold_mm - max_step_mm)} m at least."
    )


def corner_of_lid(thing: str, level_mm: float, tolerance_mm: float, *, read: bool) -> str:
    """Say how near paving meets a corner of a lid, read or taken to lie level. [mm]."""
    how = "as read" if read else "taken to lie level with its middle"
    return (
        f"A corner of {thing} is at {units.metres_text(level_mm)} m, {how}; paving meets it within "
        f"{units.millimetres_text(tolerance_mm)}."
    )


def met_within(thing: str, level_mm: float, tolerance_mm: float) -> str:
    """Say how near paving meets a thing. [mm]."""
    return (
        f"{thing[0].upper()}{thing[1:]} is at {units.metres_text(level_mm)} m; paving meets it within "
        f"{units.millimetres_text(tolerance_mm)}."
    )


def area_met(area: str, level_mm: float, step: Figure) -> str:
    """Say how near an area meets another one. [mm]."""
    return (
        f"Area {area} is at {units.metres_text(level_mm)} m where the two meet; a step of "
        f"{units.millimetres_text(step.value)} is the greatest allowed."
    )
