"""The sentences of the findings on steps, access, falls, frames and boundaries, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.levels._types import DoorStep, Steps
    from pavewright.rules import Figure


def steps_upside_down(steps: Steps) -> str:
    """Say that the upper area of a flight lies below the lower one."""
    return (
        f"{steps.upper_area} lies {units.millimetres_text(-steps.riser_mm * steps.risers)} below {steps.lower_area} at "
        f"the steps: its two areas are the wrong way round, or a level is."
    )


def riser_out_of_range(steps: Steps, limit: Figure) -> str:
    """Say that risers are too low or too high."""
    return (
        f"Each of {steps.risers} risers is {units.millimetres_text(steps.riser_mm)}; {limit.label}: {limit.value:g} mm."
    )


def use_risers(count: int) -> str:
    """Propose another number of risers."""
    return f"Use {count} riser{'s' if count != 1 else ''}."


def move_lower_area() -> str:
    """Propose another level of the lower area of a flight."""
    return "Raise or lower the lower area."


def make_going(going_mm: float, *, longer: bool) -> str:
    """Propose another going. [mm]."""
    return f"Make the going {going_mm:.0f} mm or {'more' if longer else 'less'}."


def pace(pace_mm: float, low_mm: float, high_mm: float) -> str:
    """Say that a pace over a flight fits no stride. [mm]."""
    return (
        f"Two risers and a going make {pace_mm:.0f} mm; a comfortable pace lies between {low_mm:.0f} and {high_mm:.0f}."
    )


def rise_uneven(steps: Steps, apart_mm: float) -> tuple[str, tuple[Option, ...]]:
    """Say that a flight rises more at one end than at the other. [mm]."""
    words = (
        f"The rise is {units.millimetres_text(steps.rise_start_mm)} at one end and "
        f"{units.millimetres_text(steps.rise_end_mm)} at the other: the bottom riser tapers by "
        f"{units.millimetres_text(apart_mm)}."
    )
    return words, worded(("Let both areas fall alike along the steps.", "Take the taper up in the lower area."))


def not_accessible(area: str, steepest: float, limit: Figure, *, along: bool) -> tuple[str, tuple[Option, ...]]:
    """Say that an accessible area is too steep along or across.

    Args:
        area: Name of the area.
        steepest: Its fall along or across. [rise over run]
        limit: Steepest fall of an accessible way, as n of 1 in n.
        along: Whether it is too steep along; else across.
    """
    why = (
        "steeper than an accessible way may run"
        if along
        else "steeper than an accessible way may fall across: people have to be able to go straight down it"
    )
    words = f"{area} is to be accessible and falls {units.fall_text(steepest)}, {why} (1 in {limit.value:g})."
    return words, worded(("Lay flatter, with a channel at the low edge.", "Split it with a landing and a ramp."))


def step_at_accessible_door(area: str, door: DoorStep) -> tuple[str, tuple[Option, ...]]:
    """Say that a door on an accessible way has a step."""
    words = f"{door.opening} has a step of {door.max_mm:.0f} mm down to {area}, which is to be accessible."
    ramp = (
        "Bring a ramp or a raised landing to the door, drained by a channel along the wall, with the detail at the "
        "damp-proof course checked by whoever answers for the house."
    )
    return words, worded((ramp, "Choose another door for the accessible way."))


def too_flat(area: str, steepest: float, flattest: Figure) -> str:
    """Say that an area is too flat to drain.

    Args:
        area: Name of the area.
        steepest: Its steepest fall. [rise over run]
        flattest: Flattest fall that drains, as n of 1 in n.
    """
    return (
        f"{area} falls {units.fall_text(steepest)}; flatter than 1 in {flattest.value:g} water is slow to clear and "
        f"small dips hold puddles."
    )


def too_steep(area: str, steepest: float, bearing_deg: float, limit: Figure) -> str:
    """Say that an area is too steep for its use.

    Args:
        area: Name of the area.
        steepest: Its steepest fall. [rise over run]
        bearing_deg: Direction of that fall. [deg]
        limit: Steepest fall for its use, as n of 1 in n.
    """
    return (
        f"{area} falls {units.fall_text(steepest)} at its steepest (bearing {bearing_deg:.0f} degrees); {limit.label}: "
        f"1 in {limit.value:g}."
    )


def lay_steeper(flattest: Figure) -> str:
    """Propose the flattest fall that drains, as n of 1 in n."""
    return f"Lay at 1 in {flattest.value:g} or steeper."


def shorten_run() -> str:
    """Propose a shorter run of the water."""
    return "Shorten the run with a channel or a gully."


def lay_flatter() -> str:
    """Propose a flatter fall."""
    return "Lay flatter."


def split_area() -> str:
    """Propose that an area is split."""
    return "Split the area with a step or a wall and lay each part flatter."


def frame_to_set(thing: str, by_mm: float, to_mm: float) -> str:
    """Say how far a frame or a grating is raised or lowered. [mm]."""
    return (
        f"{'Raise' if by_mm > 0 else 'Lower'} {thing} by {units.millimetres_text(abs(by_mm))} to "
        f"{units.metres_text(to_mm)} m at its centre, and tilt it with the paving."
    )


def near_boundary_top(area: str, boundary: str, clear_mm: float) -> tuple[str, tuple[Option, ...]]:
    """Say that paving comes near to the top of what stands on a boundary. [mm]."""
    words = (
        f"{area} lies {units.millimetres_text(clear_mm)} below the top of boundary {boundary}: water and splash may go "
        f"over, and whatever stands there was not built to hold paving back."
    )
    return words, worded(("Fall away from the boundary.", "Put a kerb or a channel along it.", "Lay lower."))
