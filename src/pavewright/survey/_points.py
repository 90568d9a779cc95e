"""Every named point of a job at its place: given, taped or measured off a line."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.survey._types import PlacedBy, SurveyedPoint
from pavewright.survey._types_tapes import ErrorEllipse
from pavewright.survey.sketch import place_on_sketch
from pavewright.survey.tapes import place_offset_points, place_taped_points, tell_unplaced_offsets

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.job import Measurements
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_shape import ShapeSoFar
    from pavewright.survey._types_tapes import AdjustedTapes
    from pavewright.survey.levelling import KnownLevel
    from pavewright.survey.sketch import Drawn


@dataclass(frozen=True, slots=True)
class PlacedPoints:
    """Points in plan: their places, how each was found, and the adjusted tapes."""

    places: Mapping[str, XY]
    found_by: Mapping[str, PlacedBy]
    ellipses: Mapping[str, ErrorEllipse]
    tapes: AdjustedTapes | None
    shape: ShapeSoFar | None = None


def place_points(measured: Measurements, drawn: Drawn, figures: SurveyFigures, remarks: Remarks) -> PlacedPoints:
    """Place every point; what cannot be placed is reported."""
    found_by = _declared(measured, remarks)
    if _by_sketch(measured):
        return _place_on_sketch(measured, drawn, found_by, figures, remarks)
    given = {point.name: (point.x_mm, point.y_mm) for point in measured.points}
    off_given = place_offset_points(measured.offsets, given)
    places: dict[str, XY] = {**given, **off_given}
    taped = None
    if measured.tape_plan is not None and not _tapes_wait(measured, places, remarks):
        taped = place_taped_points(measured.tape_plan, dict(places), figures, remarks)
    if taped is not None:
        places |= taped.places
    places |= place_offset_points(measured.offsets, places)
    tell_unplaced_offsets(measured.offsets, places, frozenset(found_by), remarks)
    return PlacedPoints(
        places={name: places[name] for name in found_by if name in places},
        found_by=found_by,
        ellipses={**_by_eye(measured), **({} if taped is None else taped.ellipses)},
        tapes=None if taped is None else taped.tapes,
    )


def _by_sketch(measured: Measurements) -> bool:
    """Return whether a sketch, or a tape to a point that was put on the plan by eye, takes part in placing points."""
    plan = measured.tape_plan
    by_eye = {point.name for point in measured.points if point.place_sd_mm is not None}
    return bool(measured.sketch) or any(by_eye & {each.start, each.end} for each in (plan.tapes if plan else ()))


def _by_eye(measured: Measurements) -> dict[str, ErrorEllipse]:
    """Return how far places that were put on the plan by eye are trusted."""
    return {
        point.name: ErrorEllipse(point.place_sd_mm, point.place_sd_mm, 0.0)
        for point in measured.points
        if point.place_sd_mm is not None
    }


def _place_on_sketch(
    measured: Measurements,
    drawn: Drawn,
    found_by: Mapping[str, PlacedBy],
    figures: SurveyFigures,
    remarks: Remarks,
) -> PlacedPoints:
    """Place every point of a job with a sketch, as far as it is measured and else by the sketch."""
    given = {point.name: (point.x_mm, point.y_mm) for point in measured.points}
    held = {point.name: (point.x_mm, point.y_mm) for point in measured.points if point.place_sd_mm is None}
    held |= place_offset_points(measured.offsets, held)
    shaped = None if _tapes_wait(measured, held, remarks) else place_on_sketch(measured, drawn, held, figures, remarks)
    if shaped is None:
        return PlacedPoints({}, found_by, {}, None)
    places = {**given, **held, **shaped.places}
    places |= {name: at for name, at in place_offset_points(measured.offsets, places).items() if name not in places}
    left = {point.name for point in shaped.shape.unplaced}
    open_names = {each.name for each in shaped.shape.sketched}
    ways = {
        name: PlacedBy.SKETCH if how is PlacedBy.TAPES and name in open_names else how
        for name, how in found_by.items()
        if name not in left
    }
    measured_now = set(places) - open_names
    ways |= {
        point.name: PlacedBy.TAPES if point.name in measured_now else PlacedBy.SKETCH
        for point in measured.sketch
        if point.name not in given and ways.get(point.name) is not PlacedBy.OFFSET
    }
    tell_unplaced_offsets(measured.offsets, places, frozenset(ways), remarks)
    hanging = _hanging(measured, open_names)
    return PlacedPoints(
        places={name: places[name] for name in ways if name in places},
        found_by=ways,
        ellipses={**_by_eye(measured), **shaped.ellipses},
        tapes=shaped.tapes,
        shape=replace(shaped.shape, hanging=hanging),
    )


def _hanging(measured: Measurements, sketched: set[str]) -> tuple[str, ...]:
    """Return the points that are measured off lines which hang on sketched points."""
    hanging: dict[str, None] = {}
    for _ in measured.offsets:
        for point in measured.offsets:
            if {point.line_from, point.line_to} & (sketched | set(hanging)):
                hanging[point.name] = None
    return tuple(hanging)


def _declared(measured: Measurements, remarks: Remarks) -> dict[str, PlacedBy]:
    """Return how each point is measured, in the order of the document; report points that are placed twice."""
    plan = measured.tape_plan
    taped = () if plan is None else (plan.base_from, plan.base_to, *(n for t in plan.tapes for n in (t.start, t.end)))
    entries = [
        (f"measurements.points.{number}", point.name, PlacedBy.GIVEN) for number, point in enumerate(measured.points)
    ]
    entries += [
        (f"measurements.offsets.{number}", point.name, PlacedBy.OFFSET) for number, point in enumerate(measured.offsets)
    ]
    seen: dict[str, PlacedBy] = {}
    for path, name, how in entries:
        if name in seen:
            remarks.fault(
                path, f"{name} is placed twice, {_HOW[seen[name]]} and {_HOW[how]}: leave one of the two out."
            )
        seen.setdefault(name, how)
    given = {name: how for name, how in seen.items() if how is PlacedBy.GIVEN}
    return {**given, **{name: PlacedBy.TAPES for name in taped if name not in seen}, **seen}


_HOW = {
    PlacedBy.GIVEN: "by its coordinates",
    PlacedBy.OFFSET: "by an offset",
    PlacedBy.TAPES: "by tapes",
    PlacedBy.SKETCH: "by the sketch",
}


def _tapes_wait(measured: Measurements, places: Mapping[str, XY], remarks: Remarks) -> bool:
    """Report tapes to points that are themselves measured off taped lines; return whether there are any."""
    own = {point.name for point in measured.offsets if point.name not in places}
    plan = measured.tape_plan
    if plan is None:
        return False
    ends = dict.fromkeys(name for tape in plan.tapes for name in (tape.start, tape.end) if name in own)
    for name in ends:
        remarks.fault(
            "measurements.tape_plan.tapes",
            f"{name} is taped, and it is also measured off a line that waits for the tapes: leave out its tapes or its "
            f"offset.",
        )
    return bool(ends)


def surveyed_points(placed: PlacedPoints, levels: Mapping[str, KnownLevel]) -> tuple[SurveyedPoint, ...]:
    """Return the placed points with their levels."""
    return tuple(
        SurveyedPoint(
            name=name,
            x_mm=x_mm,
            y_mm=y_mm,
            level_mm=levels[name].level_mm if name in levels else None,
            found_by=placed.found_by[name],
            levelled_by=levels[name].found_by if name in levels else None,
            sd_mm=placed.ellipses[name].major_mm if name in placed.ellipses else None,
            ellipse=placed.ellipses.get(name),
        )
        for name, (x_mm, y_mm) in placed.places.items()
    )
