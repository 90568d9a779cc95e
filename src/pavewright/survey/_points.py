"""Every named point of a job at its place: given, taped or measured off a line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.survey._types import PlacedBy, SurveyedPoint
from pavewright.survey.tapes import place_offset_points, place_taped_points, tell_unplaced_offsets

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.job import Measurements
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_tapes import AdjustedTapes, ErrorEllipse
    from pavewright.survey.levelling import KnownLevel


@dataclass(frozen=True, slots=True)
class PlacedPoints:
    """Points in plan: their places, how each was found, and the adjusted tapes."""

    places: Mapping[str, XY]
    found_by: Mapping[str, PlacedBy]
    ellipses: Mapping[str, ErrorEllipse]
    tapes: AdjustedTapes | None


def place_points(measured: Measurements, figures: SurveyFigures, remarks: Remarks) -> PlacedPoints:
    """Place every point; what cannot be placed is reported."""
    found_by = _declared(measured, remarks)
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
        ellipses={} if taped is None else taped.ellipses,
        tapes=None if taped is None else taped.tapes,
    )


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


_HOW = {PlacedBy.GIVEN: "by its coordinates", PlacedBy.OFFSET: "by an offset", PlacedBy.TAPES: "by tapes"}


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
