"""What is noticed about paving as laid."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid._codes import Code
from pavewright.as_laid._verdicts import Verdict
from pavewright.findings import Finding, Severity, worded

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._types import AreaAsLaid, WallCheck

_WIDTH = 2.0
_ENOUGH = 3


def area_findings(area: AreaAsLaid, area_m2: float, sd_mm: float, figures: AsLaidFigures) -> list[Finding]:
    """Return findings on one area: readings out of tolerance, clearance, datum, fall and too few readings."""
    found = _readings(area)
    found += _walls(area, figures)
    found += _shift(area, sd_mm)
    found += _fall(area, figures)
    most = figures.per_reading
    if area_m2 / len(area.readings) > most.value or len(area.readings) < _ENOUGH:
        words = (
            f"{len(area.readings)} readings on {area_m2:.1f} m² of {area.area} say little about what lies between "
            f"them: read the staff on a grid of {math.sqrt(most.value):g} m."
        )
        found.append(
            Finding(
                Code.TOO_FEW_READINGS,
                Severity.CHECK,
                f"area {area.area}",
                words,
                float(len(area.readings)),
                area_m2 / most.value,
                "readings",
                most,
            )
        )
    return found


def _readings(area: AreaAsLaid) -> list[Finding]:
    bad = sorted(
        (reading for reading in area.readings if reading.verdict is Verdict.FAILS),
        key=lambda reading: (-abs(reading.deviation_mm), reading.label),
    )
    return [
        Finding(
            Code.OUT_OF_TOLERANCE,
            Severity.CHECK,
            f"area {area.area}, {reading.label}",
            f"{reading.label} lies {units.millimetres_text(abs(reading.deviation_mm))} "
            f"{'high' if reading.deviation_mm > 0 else 'low'}: {units.metres_text(reading.found_mm)} found, "
            f"{units.metres_text(reading.planned_mm)} planned.",
            reading.deviation_mm,
            area.level_limit.value,
            "mm",
            area.level_limit,
            options=worded(("Read it again.", "Lift and relay the unit.", "Agree in writing to leave it.")),
            at_mm=reading.at,
        )
        for reading in bad
    ]


def _walls(area: AreaAsLaid, figures: AsLaidFigures) -> list[Finding]:
    figure = figures.below_dpc
    found = []
    for wall in area.walls:
        told = _wall(wall)
        if told is not None:
            code, severity, words, ways = told
            place = f"area {area.area}, wall {wall.wall}"
            found.append(
                Finding(code, severity, place, words, wall.min_mm, wall.wanted_mm, "mm", figure, options=worded(ways))
            )
    return found


def _wall(wall: WallCheck) -> tuple[Code, Severity, str, tuple[str, ...]] | None:
    """Return what is said of the clearance at a wall: code, severity, sentence and options."""
    at = (
        f"At wall {wall.wall} the paving was found {wall.min_mm:.0f} mm below the damp-proof course, "
        f"{units.millimetres_text(wall.short_mm)} less than the {wall.wanted_mm:.0f} mm promised"
    )
    status = wall.tolerance.status.words
    allowed = f"tolerance of {wall.tolerance_mm:g} mm for laying ({status})" if wall.tolerance_mm else ""
    again = "Read the damp-proof course and the paving again."
    if wall.needs_tolerance:
        words = f"{at}: within the {allowed}. Inform the customer, and lay no more of it higher."
        return Code.DPC_BY_TOLERANCE, Severity.CHECK, words, (again,)
    past = f"more than the {allowed}" if allowed else "the plan leaves room for laying, so nothing may be taken off"
    if wall.verdict is Verdict.INCONCLUSIVE:
        words = f"{at}: {past}, but too near to it for these readings to decide."
        return Code.DPC_INCONCLUSIVE, Severity.CHECK, words, (again,)
    if wall.verdict is Verdict.FAILS:
        ways = (
            again,
            "Lift and relay the courses at the wall lower.",
            "Take up the course at the wall and leave a drained strip; have the detail checked.",
        )
        return Code.TOO_NEAR_DPC, Severity.STOP, f"{at}: {past}.", ways
    return None


def _shift(area: AreaAsLaid, sd_mm: float) -> list[Finding]:
    """Return a note where all readings lie high or low together, which points at the datum and not at the laying."""
    count = len(area.readings)
    mean = sum(reading.deviation_mm for reading in area.readings) / count
    spread = math.sqrt(sum((reading.deviation_mm - mean) ** 2 for reading in area.readings) / count)
    if count < _ENOUGH or abs(mean) <= max(_WIDTH * max(sd_mm, spread) / math.sqrt(count), sd_mm):
        return []
    words = (
        f"On the whole {area.area} lies {units.millimetres_text(abs(mean))} {'high' if mean > 0 else 'low'}, scatter "
        f"{units.millimetres_text(spread)}. All alike points at the datum: read the benchmark again before blaming the "
        f"laying."
    )
    return [Finding(Code.SHIFTED, Severity.CHECK, f"area {area.area}", words, mean, unit="mm")]


def _fall(area: AreaAsLaid, figures: AsLaidFigures) -> list[Finding]:
    if area.fitted is None or area.fall is None or area.steepest is None:
        return []
    figure = figures.min_fall
    least = units.one_in_n_to_fall(figure.value)
    if area.fall <= 0.0:
        words = f"{area.area} was found to rise the way it should fall: water runs the wrong way."
        return [
            Finding(
                Code.REVERSE_FALL,
                Severity.STOP,
                f"area {area.area}",
                words,
                area.fall,
                area.planned_fall,
                "-",
                options=worded(("Lift and relay to the planned fall.",)),
            )
        ]
    if area.steepest < least < math.inf and area.steepest < area.planned_fall:
        words = (
            f"{area.area} was found to fall {units.fall_text(area.steepest)}; {units.fall_text(area.planned_fall)} was "
            f"planned and flatter than {units.fall_text(least)} is slow to clear."
        )
        return [Finding(Code.TOO_FLAT, Severity.CHECK, f"area {area.area}", words, area.steepest, least, "-", figure)]
    return []
