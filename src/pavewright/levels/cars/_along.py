"""A car along its ways: gradients, and where the paving comes too near to its underside."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import ChainLink, Finding, Option, Severity
from pavewright.geometry import point_along
from pavewright.job import Folding
from pavewright.levels._codes import Code
from pavewright.levels.cars import _words as words
from pavewright.levels.cars._grounding import Car, crest_change, crest_curve_mm, half_strip_mm, over_profile, sag_change
from pavewright.levels.cars._way import CarWay, Gate, Profile, car_ways, profile, tracks
from pavewright.levels.design import fold_as, fold_in_another_way

if TYPE_CHECKING:
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea

SLACK = 1e-6
"""Rounding of the arithmetic. [-]"""


@dataclass(frozen=True, slots=True)
class Drive:
    """An area for cars with its surface and what it is judged by."""

    area: PlanArea
    surface: FoldedSurface
    car: Car
    figures: LevelFigures


def along_ways(drive: Drive, found: tuple[Gate, ...]) -> list[Finding]:
    """Return the worst of each kind of thing that is wrong along the ways of a car."""
    reach = drive.car.wheelbase_mm + 2.0 * drive.car.overhang_mm
    apart = drive.figures.cars.track_mm
    judged = [
        (track, profile(track, drive.surface, reach))
        for way in car_ways(drive.area, drive.surface, found)
        for track in tracks(way, drive.area, apart)
    ]
    reported: dict[str, Finding] = {}
    for way, levels in judged:
        for each in (
            *grounds(drive, way, levels),
            *_too_steep(drive, way, levels),
            *_beside_road(drive, way, levels),
            *_transitions(drive, way, levels),
        ):
            worst = reported.get(each.code)
            if worst is None or (each.value or 0.0) > (worst.value or 0.0):
                reported[each.code] = each
    if Code.CAR_GROUNDS in reported:
        reported.pop(Code.TRANSITION_WANTED, None)
    return list(reported.values())


def _at(way: CarWay, along_mm: float) -> XY:
    return point_along(way.start, way.end, min(max(along_mm, 0.0), way.length_mm))


def grounds(drive: Drive, way: CarWay, levels: Profile) -> list[Finding]:
    """Return a finding where the ground comes nearer to the underside of a car than its margin, or touches it."""
    car, cars = drive.car, drive.figures.cars
    met = over_profile(levels.along_mm, levels.level_mm, car)
    between, ends = met.between_mm > car.room_mm + SLACK, met.ends_mm > car.end_mm + SLACK
    if not between and not ends:
        return []
    touches = ends or met.between_mm > car.clearance_mm + SLACK
    low, high = levels.along_mm[0], levels.along_mm[-1]
    at = min(max(low + (met.between_at_mm if between else met.ends_at_mm), low), high)
    figure = cars.clearance if between else cars.end
    value, room = (met.between_mm, car.clearance_mm) if between else (met.ends_mm, car.end_mm)
    return [
        Finding(
            Code.CAR_GROUNDS,
            Severity.STOP if touches else Severity.CHECK,
            f"area {drive.area.name}",
            words.car_grounds(drive.area.name, way, at, value, room, car, between=between, touches=touches),
            value,
            room - (car.margin_mm if between else 0.0),
            "mm",
            figure,
            chain=_chain(way, levels, drive.figures),
            at_mm=_at(way, at),
        ).with_options(_eased(drive, levels, between=between))
    ]


def _chain(way: CarWay, levels: Profile, figures: LevelFigures) -> tuple[ChainLink, ...]:
    """Return the gradients along a way, one sentence each."""
    said = []
    first, last = levels.own
    for number, gradient in enumerate(levels.gradients):
        if number < first and way.first is not None:
            said.append(words.beyond(way.first, figures.cars.footway))
        elif number >= last and way.last is not None:
            said.append(words.beyond(way.last, figures.cars.footway))
        else:
            said.append(words.stretch(levels.along_mm[number], levels.along_mm[number + 1], gradient))
    return tuple(ChainLink(each) for each in said)


def _eased(drive: Drive, levels: Profile, *, between: bool) -> tuple[Option, ...]:
    """Return how a change of gradient is eased, another fold, and a car that is measured."""
    steps = list(zip(levels.gradients, levels.gradients[1:], strict=False))
    measured = Option(words.measure_car())
    if not steps:
        return (measured,)
    change = max((before - after if between else after - before) for before, after in steps)
    car = drive.car
    if not between:
        limit = sag_change(car.end_mm, car.overhang_mm)
        return (*other_folds(drive.area), Option(words.ease_sag(limit, car.wheelbase_mm)), measured)
    strip = half_strip_mm(change, car.room_mm, car.wheelbase_mm)
    if math.isfinite(strip):
        eased = words.strip_over_crest(max(strip, drive.figures.cars.transition_mm))
    else:
        eased = words.round_crest(crest_curve_mm(change, car.room_mm, car.wheelbase_mm))
    sharp = crest_change(car.room_mm, car.wheelbase_mm)
    return (*other_folds(drive.area), Option(words.crest_eased(eased, change, sharp)), measured)


def other_folds(area: PlanArea) -> tuple[Option, ...]:
    """Return the way that compares all folds, where an area is folded in a stated one."""
    if area.area.fall.folding in {Folding.CHEAPEST, Folding.ONE_PLANE}:
        return ()
    return (Option(fold_in_another_way(), fold_as(area, Folding.CHEAPEST)),)


def _own_gradients(levels: Profile) -> tuple[tuple[float, float, float], ...]:
    """Return start, end and gradient of each stretch on the area itself."""
    first, last = levels.own
    return tuple(
        (levels.along_mm[number], levels.along_mm[number + 1], levels.gradients[number])
        for number in range(first, last)
    )


def _too_steep(drive: Drive, way: CarWay, levels: Profile) -> list[Finding]:
    """Return a finding where a car has to go steeper than a drive may be."""
    limit = drive.figures.falls.steepest_drive
    most = units.one_in_n_to_fall(limit.value)
    found = []
    for start, end, gradient in _own_gradients(levels):
        if abs(gradient) > most + SLACK:
            message, options = words.car_way_steep(drive.area.name, gradient, limit)
            found.append(
                Finding(
                    Code.CAR_WAY_STEEP,
                    Severity.CHECK,
                    f"area {drive.area.name}",
                    message,
                    abs(gradient),
                    most,
                    "-",
                    limit,
                    options=options,
                    at_mm=_at(way, (start + end) / 2.0),
                )
            )
    return found


def _beside_road(drive: Drive, way: CarWay, levels: Profile) -> list[Finding]:
    """Return a finding where a drive is steep beside the road, where a car waits and people pass."""
    if way.first is None or not way.first.is_road:
        return []
    limit, reach = drive.figures.cars.near_road, drive.figures.cars.near_road_mm
    most = units.one_in_n_to_fall(limit.value)
    found = []
    for start, _, gradient in _own_gradients(levels):
        if start < reach and abs(gradient) > most + SLACK:
            message, options = words.steep_at_road(drive.area.name, way.first, reach, gradient, limit)
            found.append(
                Finding(
                    Code.STEEP_AT_ROAD,
                    Severity.CHECK,
                    f"area {drive.area.name}",
                    message,
                    abs(gradient),
                    most,
                    "-",
                    limit,
                    options=options,
                    at_mm=_at(way, start),
                )
            )
    return found


def _transitions(drive: Drive, way: CarWay, levels: Profile) -> list[Finding]:
    """Return a finding where a steep drive changes its gradient at one place."""
    steep = units.one_in_n_to_fall(drive.figures.cars.transition_from.value)
    figure = drive.figures.cars.transition_break
    length = drive.figures.cars.transition_mm
    slopes, reported = levels.gradients, []
    for number in range(1, len(slopes)):
        before, after = slopes[number - 1], slopes[number]
        change, at = abs(after - before), levels.along_mm[number]
        if max(abs(before), abs(after)) > steep + SLACK and change * 100.0 >= figure.value:
            message, options = words.transition_wanted(drive.area.name, way, at, steep, change, length)
            reported.append(
                Finding(
                    Code.TRANSITION_WANTED,
                    Severity.CHECK,
                    f"area {drive.area.name}",
                    message,
                    change * 100.0,
                    figure.value,
                    "%",
                    figure,
                    chain=_chain(way, levels, drive.figures),
                    options=options,
                    at_mm=_at(way, at),
                )
            )
    return reported
