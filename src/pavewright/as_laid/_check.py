"""Readings on finished paving checked against the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import _words as words
from pavewright.as_laid._area import check_area
from pavewright.as_laid._codes import Code
from pavewright.as_laid._figures import figures
from pavewright.as_laid._findings import area_findings
from pavewright.as_laid._promises import promised
from pavewright.as_laid._types import AreaAsLaid, AsLaidReport
from pavewright.as_laid._verdicts import TRUSTED, together
from pavewright.findings import Finding, Severity, in_order
from pavewright.job import Fault, JobInvalid

if TYPE_CHECKING:
    from pavewright.job import AsLaid, AsLaidReading, Job
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_OUTSIDE_MM = 50.0
"""A staff set on the last slab may stand this far past the drawn edge. [mm]"""


def check(job: Job, survey: Survey, levels: Levels, rules: Rulebook) -> AsLaidReport | None:
    """Return the readings as laid against the plan; None where the job has none.

    Raises:
        JobInvalid: a reading names an area that is not there.
    """
    taken = job.as_laid
    if taken is None or not taken.readings:
        return None
    empty = [each for each in taken.readings if each.level_mm is None]
    names = [area.name for area in survey.site.areas]
    faults = [
        Fault(f"as_laid.readings.{number}.area", f"There is no area {reading.area}: name the area that was read on.")
        for number, reading in enumerate(taken.readings)
        if reading.area not in names
    ]
    if faults:
        raise JobInvalid(tuple(faults))
    read = figures(job.tolerance, rules)
    held = promised(levels, read)
    areas: list[AreaAsLaid] = []
    findings = _outside(taken, survey) + _not_read(empty)
    for name in names:
        own: list[AsLaidReading] = [
            reading for reading in taken.readings if reading.area == name and reading.level_mm is not None
        ]
        if not own:
            findings.append(_unread(name))
            continue
        one = check_area(levels.area(name), own, taken.reading_sd_mm, held, survey, read)
        areas.append(one)
        findings += area_findings(one, survey.site.area(name).shape.area_m2, taken.reading_sd_mm, read)
    return AsLaidReport(
        areas=tuple(areas),
        verdict=together([area.verdict for area in areas]),
        limits=words.limits(TRUSTED * taken.reading_sd_mm, read),
        findings=in_order(findings),
    )


def _outside(taken: AsLaid, survey: Survey) -> list[Finding]:
    found = []
    for number, reading in enumerate(taken.readings, start=1):
        at = reading.x_mm, reading.y_mm
        if not survey.site.area(reading.area).gross.contains(at, slack_mm=_OUTSIDE_MM):
            label = reading.label or f"R{number}"
            message = words.outside(label, reading.area)
            found.append(Finding(Code.OUTSIDE, Severity.CHECK, f"area {reading.area}, {label}", message, at_mm=at))
    return found


def _not_read(empty: list[AsLaidReading]) -> list[Finding]:
    """Return what is said of places at which a reading was meant to be taken and was not."""
    if not empty:
        return []
    return [Finding(Code.NOT_READ, Severity.CHECK, "readings as laid", words.not_read(empty))]


def _unread(name: str) -> Finding:
    return Finding(Code.UNREAD, Severity.NOTE, f"area {name}", words.unread(name))
