"""The sentences of the findings on cars, and of their options, in one place."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.levels.cars._grounding import Car
    from pavewright.levels.cars._way import CarWay, Gate
    from pavewright.rules import Figure

_LEVEL = 1e-4
"""A gradient less than this is level. [-]"""


def step_across(area: str, step_mm: float) -> str:
    """Say that a step lies across paving for cars. [mm]."""
    return f"A step of {step_mm:.0f} mm splits {area}, which is for cars."


def garage_step(area: str, gate: Gate, step_mm: float, rolls_mm: float) -> str:
    """Say that the floor of a garage stands too high over the paving for a car. [mm]."""
    wide = 0.0 if gate.door is None else math.dist(gate.door.start, gate.door.end)
    return (
        f"{gate.name} is {units.metres_text(wide)} m wide at paving for cars and taken for a garage door. "
        f"Its threshold stands {step_mm:.0f} mm above {area}; a car rolls over {rolls_mm:.0f} mm."
    )


def no_car_through(gate: Gate) -> str:
    """Propose that no car goes through a door."""
    return f"Say that no car goes through {gate.name}: make the area one for feet, or the paving two areas."


def ramp_to_door() -> str:
    """Propose higher paving at a door."""
    return "Lay the paving at the door higher, with a gentle ramp up to it."


def lay_up_to(area: str, fall: float, gate: Gate) -> str:
    """Propose a fall with which paving comes up to a door. [rise over run].

    Args:
        area: Name of the area.
        fall: Fall. [rise over run]
        gate: Door or garage that the way leads to.
    """
    return f"Lay {area} at {units.fall_text(fall)}, so that it comes up to {gate.name}."


def footway_crossing(area: str, gate: Gate) -> str:
    """Say that the footway at the foot of a drive is not the owner's to alter."""
    return (
        f"Cars reach {area} over {gate.name}. Kerb, level and crossfall of the footway are the highway "
        "authority's: meet the back of the footway as it lies, alter nothing beyond it, and have the crossing "
        "approved and built by the authority or whom it names."
    )


def _where(way: CarWay, along_mm: float) -> str:
    """Return a place along a way in words. [mm]."""
    if way.first is None:
        return "where its gradient changes"
    if along_mm <= 1.0:
        return f"at {way.first.name}"
    if way.last is not None and along_mm >= way.length_mm - 1.0:
        return f"at {way.last.name}"
    return f"{units.metres_text(along_mm)} m from {way.first.name}"


def car_grounds(
    area: str, way: CarWay, at_mm: float, taken_mm: float, room_mm: float, car: Car, *, between: bool, touches: bool
) -> str:
    """Say that the ground comes too near to the underside of a car, or touches it.

    Args:
        area: Name of the area.
        way: The way of the car.
        at_mm: Where along it. [mm]
        taken_mm: How much of the room the paving takes. [mm]
        room_mm: Room of the car there. [mm]
        car: The car that is assumed.
        between: Whether it is between the wheels; else under an end.
        touches: Whether it touches.
    """
    part = "between the wheels" if between else "under nose or tail"
    verb = "grounds" if touches else "has too little room"
    return (
        f"A car {verb} on {area} {_where(way, at_mm)}: {part} the paving takes {taken_mm:.0f} mm of its "
        f"{room_mm:.0f} mm. The car is assumed: wheelbase {units.metres_text(car.wheelbase_mm)} m, "
        f"{car.clearance_mm:.0f} mm of room, of which {car.margin_mm:.0f} mm are kept."
    )


def stretch(start_mm: float, end_mm: float, gradient: float) -> str:
    """Say how a way runs over a stretch. [mm, rise over run].

    Args:
        start_mm: Where the stretch begins, along the way. [mm]
        end_mm: Where it ends. [mm]
        gradient: Gradient. [rise over run]
    """
    slope = f"{'rises' if gradient > 0.0 else 'falls'} {units.fall_text(abs(gradient))}"
    if abs(gradient) < _LEVEL:
        slope = "is level"
    return f"From {units.metres_text(start_mm)} m to {units.metres_text(end_mm)} m along the way it {slope}."


def beyond(gate: Gate, footway: Figure) -> str:
    """Say what is assumed beyond a gate."""
    if gate.is_road:
        percent = footway.value
        return f"Beyond {gate.name} the footway is assumed to rise {percent:g} % from the kerb: read it and say so."
    return f"Beyond {gate.name} the floor is assumed to be level."


def measure_car() -> str:
    """Propose that the car itself is measured."""
    return "Measure wheelbase and room of the car that will use it, and have the worst of them in mind."


def ease_sag(limit: float, apart_mm: float) -> str:
    """Propose an eased sag. [rise over run, mm].

    Args:
        limit: Change of gradient that is allowed. [rise over run]
        apart_mm: Distance between the changes of gradient. [mm]
    """
    apart = units.metres_text(apart_mm)
    return f"Ease the sag: no change of gradient over {limit:.1%} at one place, the next {apart} m on."


def strip_over_crest(length_mm: float) -> str:
    """Propose a strip over a crest. [mm]."""
    return f"Lay a strip of {units.metres_text(length_mm)} m over the crest at the gradient half way between the two."


def round_crest(length_mm: float) -> str:
    """Propose a rounded crest. [mm]."""
    return f"Round the crest over {units.metres_text(length_mm)} m or more."


def crest_eased(eased: str, change: float, sharp: float) -> str:
    """Add to how a crest is eased by how much the gradient changes there, and what a car takes. [rise over run].

    Args:
        eased: How the crest is eased.
        change: Change of gradient. [rise over run]
        sharp: Change of gradient that grounds a car. [rise over run]
    """
    return f"{eased} The gradient changes by {change:.1%} there; at one place a car takes {sharp:.1%}."


def car_way_steep(area: str, gradient: float, limit: Figure) -> tuple[str, tuple[Option, ...]]:
    """Say that a car has to go steeper than a drive may be. [rise over run].

    Args:
        area: Name of the area.
        gradient: Gradient. [rise over run]
        limit: Figure that it is checked against.
    """
    words = (
        f"Along the way of a car {area} runs at {units.fall_text(abs(gradient))}, steeper than 1 in {limit.value:g}."
    )
    return words, worded(("Make the drive longer, or lower what it leads to.",))


def steep_at_road(
    area: str, road: Gate, reach_mm: float, gradient: float, limit: Figure
) -> tuple[str, tuple[Option, ...]]:
    """Say that a drive is steep beside the road. [mm, rise over run].

    Args:
        area: Name of the area.
        road: Where cars come in from the road.
        reach_mm: Length of way that counts. [mm]
        gradient: Gradient. [rise over run]
        limit: Figure that it is checked against.
    """
    words = (
        f"Within {units.metres_text(reach_mm)} m of {road.name} {area} runs at "
        f"{units.fall_text(abs(gradient))}, where cars wait and people pass; {limit.label}: 1 in {limit.value:g}."
    )
    return words, worded(("Ask the highway authority for its limit.", "Lay the first car's length nearly level."))


def transition_wanted(
    area: str, way: CarWay, at_mm: float, steep: float, change: float, length_mm: float
) -> tuple[str, tuple[Option, ...]]:
    """Say that a steep drive changes its gradient at one place.

    Args:
        area: Name of the area.
        way: The way of the car.
        at_mm: Where along it. [mm]
        steep: From which gradient on a drive needs a transition. [rise over run]
        change: Change of the gradient. [rise over run]
        length_mm: Length of a transition. [mm]
    """
    words = (
        f"{area} is steeper than 1 in {1.0 / steep:g} and its gradient changes by {change:.1%} at "
        f"one place, {_where(way, at_mm)}: a transition is needed."
    )
    return words, worded((f"Lay {units.metres_text(length_mm)} m at the gradient half way between the two there.",))
