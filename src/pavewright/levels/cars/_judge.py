"""Paving checked against the car: gradients along its way, changes of gradient, steps, and what the road owns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Option, Severity
from pavewright.job import Use
from pavewright.levels._codes import Code
from pavewright.levels.cars import _words as words
from pavewright.levels.cars._along import SLACK, Drive, along_ways, other_folds
from pavewright.levels.cars._grounding import Car
from pavewright.levels.cars._way import Gate, gates
from pavewright.levels.design import fall_of

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, SitePlan

_PASSES = frozenset({Code.CAR_GROUNDS, Code.CAR_MEETS_STEP})


def car_of(figures: LevelFigures) -> Car:
    """Return the car that a drive is judged by."""
    return Car(
        figures.cars.wheelbase.value,
        figures.cars.clearance.value,
        figures.cars.margin.value,
        figures.cars.overhang.value,
        figures.cars.end.value,
    )


def car_findings(area: PlanArea, surface: FoldedSurface, site: SitePlan, figures: LevelFigures) -> tuple[Finding, ...]:
    """Return what a car meets on an area; nothing where only feet use it."""
    if area.area.use is Use.FOOT:
        return ()
    drive = Drive(area, surface, car_of(figures), figures)
    found = gates(area, site, figures)
    reported = [*_steps(drive), *(each for gate in found for each in _garage_step(drive, gate, found))]
    if not any(fold.step_mm for fold in surface.folds):
        reported += along_ways(drive, found)
    reported += [_crossing(area, gate) for gate in found if gate.is_road][:1]
    return tuple(reported)


def cars_pass(area: PlanArea, surface: FoldedSurface, site: SitePlan, figures: LevelFigures) -> bool:
    """Return whether a car gets over an area with room to spare; true where only feet use it."""
    return not any(each.code in _PASSES for each in car_findings(area, surface, site, figures))


def _steps(drive: Drive) -> list[Finding]:
    """Return a stop for each step across paving for cars that no car rolls over."""
    limit = drive.figures.cars.garage_step
    return [
        Finding(
            Code.CAR_MEETS_STEP,
            Severity.STOP,
            f"area {drive.area.name}",
            words.step_across(drive.area.name, fold.step_mm),
            fold.step_mm,
            limit.value,
            "mm",
            limit,
            at_mm=fold.start,
        ).with_options(other_folds(drive.area))
        for fold in drive.surface.folds
        if fold.step_mm > limit.value
    ]


def _garage_step(drive: Drive, gate: Gate, found: tuple[Gate, ...]) -> list[Finding]:
    """Return a finding where the floor of a garage stands too high over the paving for a car."""
    if gate.door is None or gate.door.threshold_level_mm is None:
        return []
    threshold = gate.door.threshold_level_mm
    rolls, stops = drive.figures.cars.garage_step, drive.figures.cars.garage_step_stop
    step = max(threshold - drive.surface.level_at(at) for at in (gate.door.start, gate.door.end))
    if step <= rolls.value + SLACK:
        return []
    limit = stops if step > stops.value else rolls
    return [
        Finding(
            Code.GARAGE_STEP,
            Severity.STOP if limit is stops else Severity.CHECK,
            f"area {drive.area.name}, {gate.name}",
            words.garage_step(drive.area.name, gate, step, rolls.value),
            step,
            limit.value,
            "mm",
            limit,
            at_mm=gate.at,
        ).with_options(_up_to(drive, gate, found, step - rolls.value))
    ]


def _up_to(drive: Drive, gate: Gate, found: tuple[Gate, ...], lift_mm: float) -> tuple[Option, ...]:
    """Return the fall with which a plane from the road comes up to a garage door, and what else can be done."""
    by_hand = Option(words.no_car_through(gate))
    road = next((each for each in found if each.is_road), None)
    if road is None or not drive.surface.is_plane:
        return (Option(words.ramp_to_door()), by_hand)
    direction = drive.surface.main.plane.downhill
    run = (road.at[0] - gate.at[0]) * direction[0] + (road.at[1] - gate.at[1]) * direction[1]
    fall = drive.surface.main.plane.fall + lift_mm / run if abs(run) > 1.0 else 0.0
    if fall <= 0.0:
        return (by_hand,)
    return (Option(words.lay_up_to(drive.area.name, fall, gate), fall_of(drive.area, fall, flatter=False)), by_hand)


def _crossing(area: PlanArea, gate: Gate) -> Finding:
    """Return the note that the footway at the foot of a drive is not the owner's to alter."""
    return Finding(
        Code.FOOTWAY_CROSSING,
        Severity.NOTE,
        f"area {area.name}, {gate.name}",
        words.footway_crossing(area.name, gate),
        at_mm=gate.at,
    )
