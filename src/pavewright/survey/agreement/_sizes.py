"""Areas and units against the sizes that such things have."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words_job as words
from pavewright.survey.agreement._units_of_length import looks_like

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job import Job, PavingUnit
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types import PlanArea, Survey

_HUNDRED = 100.0
"""A length ten times as long goes with an area a hundred times as large. [-]"""
_SIDES = ("length", "width", "thickness")


def sizes(job: Job, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    """Give a job that is far too small or large to be one, and units of sizes that are not made.

    Args:
        job: The job with its units.
        survey: The areas in plan.
        figures: Figures of the survey.
    """
    yield from _whole_job(job, survey, figures)
    used = {area.laying.unit for area in job.areas}
    for unit in job.units:
        yield from _unit(unit, figures, used=unit.name in used)


def too_small_to_be_one(areas: Iterable[PlanArea], figures: SurveyFigures, remarks: Remarks) -> None:
    """Report areas too small to be a job beside other faults: those may well come from the unit of all tapes."""
    found = tuple(areas)
    whole = sum(area.gross.area_m2 for area in found)
    if found and whole < figures.job_min_area_m2.value:
        names = ", ".join(area.name for area in found)
        fault = (
            f"{names}: {whole:.2f} m² in all. Were all lengths read in centimetres ({_HUNDRED * whole:.1f} m²)? Write "
            f"millimetres before looking at the rest."
        )
        remarks.fault(f"{found[0].path}.outline", fault)


def _whole_job(job: Job, survey: Survey, figures: SurveyFigures) -> Iterator[Finding]:
    least, small, most = figures.job_min_area_m2, figures.job_small_area_m2, figures.job_max_area_m2
    if not survey.site.areas:
        return
    whole = sum(area.gross.area_m2 for area in survey.site.areas)
    names = ", ".join(area.name for area in survey.site.areas)
    if small.value <= whole <= most.value:
        return
    if whole > most.value:
        message = words.area_too_large(names, whole)
        yield Finding(Code.AREA_STRANGE, Severity.STOP, names, message, whole, most.value, "m²", figure=most)
        return
    severity = Severity.STOP if whole < least.value else Severity.CHECK
    tapes = job.measurements.tape_plan.tapes if job.measurements.tape_plan is not None else ()
    longest = max(tapes, key=lambda tape: tape.length_mm, default=None)
    tape = None if longest is None else (longest.start, longest.end, longest.length_mm)
    message = words.area_too_small(names, len(survey.site.areas), whole, tape)
    yield Finding(Code.AREA_STRANGE, severity, names, message, whole, small.value, "m²", figure=small)


def _unit(unit: PavingUnit, figures: SurveyFigures, *, used: bool) -> Iterator[Finding]:
    table = figures.unit_sizes
    for side in _SIDES:
        kind = f"{unit.kind}_{'thickness' if side == 'thickness' else 'side'}"
        value = {"length": unit.length_mm, "width": unit.width_mm, "thickness": unit.thickness_mm}[side]
        low, high = (table.figure(kind, column).value for column in ("low_mm", "high_mm"))
        if low <= value <= high:
            continue
        fits = looks_like(value, low, high)
        message = words.unit_strange(side, unit.name, unit.kind, (value, low, high), fits)
        severity = Severity.STOP if fits and used else Severity.CHECK
        figure = table.figure(kind, "low_mm" if value < low else "high_mm")
        yield Finding(Code.UNIT_STRANGE, severity, f"unit {unit.name}", message, value, figure.value, "mm", figure)
