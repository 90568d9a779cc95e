"""The figures of the levels, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from pavewright.job import ChangeKind, Use

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class FallFigures:
    """How steep paving lies.

    Attributes:
        main: Main fall where the job names none.
        cross: Fall away from a second wall where the job names none.
        min_fall: Flattest fall.
        min_fall_riven: Flattest fall of a riven surface.
        steepest_walk: Steepest crossfall for walking in comfort.
        steepest_path: Steepest path that is still gently sloping.
        steepest_drive: Steepest drive.
        valley: Least fall along a valley.
        along_wall: A plane that falls to a wall by less than this runs along it.
    """

    main: Figure
    cross: Figure
    min_fall: Figure
    min_fall_riven: Figure
    steepest_walk: Figure
    steepest_path: Figure
    steepest_drive: Figure
    valley: Figure
    along_wall: Figure

    def steepest(self, use: Use) -> Figure:
        """Return the steepest fall for a use."""
        return self.steepest_walk if use is Use.FOOT else self.steepest_drive


@dataclass(frozen=True, slots=True)
class StepFigures:
    """What decides flights of steps.

    Attributes:
        wanted: Riser aimed at.
        min: Lowest riser that is seen as a step.
        max: Highest riser.
        pace_min: Least of twice the riser plus the going.
        pace_max: Most of twice the riser plus the going.
        uneven: Ends of a flight whose rises differ by more than this are reported.
        worthwhile: A smaller difference of level is not worth a step.
    """

    wanted: Figure
    min: Figure
    max: Figure
    pace_min: Figure
    pace_max: Figure
    uneven: Figure
    worthwhile: Figure


@dataclass(frozen=True, slots=True)
class CarFigures:
    """The car that a drive is judged by, and what the road and the garage ask.

    Attributes:
        wheelbase: From front to rear wheels.
        clearance: Room under it half way between the wheels.
        margin: Part of that room that is kept.
        overhang: From a wheel to the end of the car.
        end: Room under nose and tail.
        track_mm: Distance of left and right wheels. [mm]
        garage_door_mm: An opening this wide at paving for cars is taken for a garage door. [mm]
        garage_step: Greatest step at a garage door that a car rolls over.
        garage_step_stop: Step at a garage door that stops a car.
        meets_road_mm: A drive that ends this near to the road meets it. [mm]
        footway: Crossfall of the footway at the foot of a drive, where it was not read. [%]
        transition_from: Drive that needs a transition where its gradient changes.
        transition_mm: Length of a transition at half the change of gradient. [mm]
        transition_break: Change of gradient that needs a transition.
        near_road: Steepest drive beside the road.
        near_road_mm: Length of a drive beside the road that is kept gentle. [mm]
    """

    wheelbase: Figure
    clearance: Figure
    margin: Figure
    overhang: Figure
    end: Figure
    track_mm: float
    garage_door_mm: float
    garage_step: Figure
    garage_step_stop: Figure
    meets_road_mm: float
    footway: Figure
    transition_from: Figure
    transition_mm: float
    transition_break: Figure
    near_road: Figure
    near_road_mm: float


@dataclass(frozen=True, slots=True)
class LevelFigures:
    """Every figure of the levels.

    Attributes:
        meets_mm: Paving this near to a wall or an edge meets it. [mm]
        below_dpc: Finished paving below the damp-proof course.
        below_air_brick: Finished paving below the underside of an air brick.
        step_between_areas: Greatest step where two areas meet flush.
        gully_tolerance: How far paving and a grating that does not move may differ.
        freeboard: Paving below the top of what stands on a boundary.
        threshold: Greatest step at a door on an accessible way.
        bypass: Part of a folded surface that may run past its gully.
        standing: Water deeper than this on the designed surface is reported.
        to_others: A smaller part of the paving is not checked against a neighbour's ground.
        look_beyond_mm: The ground past an edge is looked at so far from it. [mm]
        over_edge_mm: Ground that stands higher over the edge than this holds water back. [mm]
        cut_minor: Price of a cubic metre dug, where the job gives none. [minor units]
        fill_minor: Price of a cubic metre filled, where the job gives none. [minor units]
        changes: Price of giving way where levels clash, once and for each millimetre. [minor units]
        falls: How steep paving lies.
        steps: What decides flights of steps.
        cars: The car that a drive is judged by.
    """

    meets_mm: float
    below_dpc: Figure
    below_air_brick: Figure
    step_between_areas: Figure
    gully_tolerance: Figure
    freeboard: Figure
    threshold: Figure
    bypass: Figure
    standing: Figure
    to_others: Figure
    look_beyond_mm: float
    over_edge_mm: float
    cut_minor: float
    fill_minor: float
    changes: Mapping[ChangeKind, tuple[float, float]]
    falls: FallFigures
    steps: StepFigures
    cars: CarFigures


def figures(rules: Rulebook) -> LevelFigures:
    """Return the figures of the levels of one edition."""
    changes = {
        ChangeKind(row.key): (row.value("once_minor"), row.value("each_minor"))
        for row in rules.table("levels.change_prices").rows
    }
    return LevelFigures(
        meets_mm=rules.value("levels.meets_within_mm"),
        below_dpc=rules.figure("levels.below_dpc_mm"),
        below_air_brick=rules.figure("levels.below_air_brick_mm"),
        step_between_areas=rules.figure("levels.step_between_areas_mm"),
        gully_tolerance=rules.figure("levels.gully_tolerance_mm"),
        freeboard=rules.figure("levels.boundary_freeboard_mm"),
        threshold=rules.figure("levels.accessible_threshold_mm"),
        bypass=rules.figure("levels.bypass_percent"),
        standing=rules.figure("levels.standing_mm"),
        to_others=rules.figure("water.min_area_m2"),
        look_beyond_mm=rules.value("water.look_beyond_mm"),
        over_edge_mm=rules.value("water.ground_over_edge_mm"),
        cut_minor=rules.value("levels.cut_price_minor"),
        fill_minor=rules.value("levels.fill_price_minor"),
        changes=MappingProxyType(changes),
        falls=_falls(rules),
        steps=_steps(rules),
        cars=_cars(rules),
    )


def _falls(rules: Rulebook) -> FallFigures:
    return FallFigures(
        main=rules.figure("levels.main_fall_one_in"),
        cross=rules.figure("levels.cross_fall_one_in"),
        min_fall=rules.figure("levels.min_fall_one_in"),
        min_fall_riven=rules.figure("levels.min_fall_riven_one_in"),
        steepest_walk=rules.figure("levels.steepest_one_in"),
        steepest_path=rules.figure("levels.steepest_path_one_in"),
        steepest_drive=rules.figure("levels.steepest_drive_one_in"),
        valley=rules.figure("levels.valley_fall_one_in"),
        along_wall=rules.figure("levels.along_wall_one_in"),
    )


def _steps(rules: Rulebook) -> StepFigures:
    return StepFigures(
        wanted=rules.figure("levels.riser_wanted_mm"),
        min=rules.figure("levels.riser_min_mm"),
        max=rules.figure("levels.riser_max_mm"),
        pace_min=rules.figure("levels.two_risers_and_going_min_mm"),
        pace_max=rules.figure("levels.two_risers_and_going_max_mm"),
        uneven=rules.figure("levels.rise_uneven_mm"),
        worthwhile=rules.figure("levels.step_worth_mm"),
    )


def _cars(rules: Rulebook) -> CarFigures:
    return CarFigures(
        wheelbase=rules.figure("levels.car_wheelbase_mm"),
        clearance=rules.figure("levels.car_clearance_mm"),
        margin=rules.figure("levels.car_margin_mm"),
        overhang=rules.figure("levels.car_overhang_mm"),
        end=rules.figure("levels.car_end_mm"),
        track_mm=rules.value("levels.car_track_mm"),
        garage_door_mm=rules.value("levels.garage_door_mm"),
        garage_step=rules.figure("levels.garage_step_mm"),
        garage_step_stop=rules.figure("levels.garage_step_stop_mm"),
        meets_road_mm=rules.value("levels.drive_meets_road_within_mm"),
        footway=rules.figure("levels.footway_crossfall_percent"),
        transition_from=rules.figure("levels.drive_transition_one_in"),
        transition_mm=rules.value("levels.transition_mm"),
        transition_break=rules.figure("levels.transition_break_percent"),
        near_road=rules.figure("levels.drive_near_road_one_in"),
        near_road_mm=rules.value("levels.drive_near_road_mm"),
    )
