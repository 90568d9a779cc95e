"""What is noticed about paving as laid."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.as_laid import _words as words
from pavewright.as_laid._codes import Code
from pavewright.as_laid._verdicts import Verdict
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._types import AreaAsLaid, ReadingCheck, WallCheck
    from pavewright.findings import Option

_WIDTH = 2.0
_ENOUGH = 3


def area_findings(area: AreaAsLaid, area_m2: float, sd_mm: float, figures: AsLaidFigures) -> list[Finding]:
    """Return findings on one area: readings out of tolerance, clearance, datum, fall and too few readings."""
    found = _readings(area)
    found += _walls(area, figures)
    found += _shift(area, sd_mm)
    found += _fall(area, figures)
    most = figures.per_reading
    count = len(area.readings)
    if area_m2 / count > most.value or count < _ENOUGH:
        message = words.too_few(count, area_m2, area.area, math.sqrt(most.value))
        place = f"area {area.area}"
        limit = area_m2 / most.value
        found.append(
            Finding(Code.TOO_FEW_READINGS, Severity.CHECK, place, message, float(count), limit, "readings", most)
        )
    return found


def _readings(area: AreaAsLaid) -> list[Finding]:
    bad = sorted(
        (reading for reading in area.readings if reading.verdict is Verdict.FAILS),
        key=lambda reading: (-abs(reading.deviation_mm), reading.label),
    )
    return [_off(area, reading) for reading in bad]


def _off(area: AreaAsLaid, reading: ReadingCheck) -> Finding:
    message, options = words.out_of_tolerance(reading)
    return Finding(
        Code.OUT_OF_TOLERANCE,
        Severity.CHECK,
        f"area {area.area}, {reading.label}",
        message,
        reading.deviation_mm,
        area.level_limit.value,
        "mm",
        area.level_limit,
        options=options,
        at_mm=reading.at,
    )


def _walls(area: AreaAsLaid, figures: AsLaidFigures) -> list[Finding]:
    figure = figures.below_dpc
    found = []
    for wall in area.walls:
        noticed = _wall(wall)
        if noticed is not None:
            code, severity, (message, options) = noticed
            place = f"area {area.area}, wall {wall.wall}"
            found.append(
                Finding(code, severity, place, message, wall.min_mm, wall.wanted_mm, "mm", figure, options=options)
            )
    return found


def _wall(wall: WallCheck) -> tuple[Code, Severity, tuple[str, tuple[Option, ...]]] | None:
    """Return what is noticed of the clearance at a wall: code, severity, sentence and options."""
    if wall.needs_tolerance:
        return Code.DPC_BY_TOLERANCE, Severity.CHECK, words.dpc_by_tolerance(wall)
    match wall.verdict:
        case Verdict.INCONCLUSIVE:
            return Code.DPC_INCONCLUSIVE, Severity.CHECK, words.dpc_inconclusive(wall)
        case Verdict.FAILS:
            return Code.TOO_NEAR_DPC, Severity.STOP, words.too_near_dpc(wall)
        case Verdict.PASSES:
            return None
        case _ as never:
            assert_never(never)


def _shift(area: AreaAsLaid, sd_mm: float) -> list[Finding]:
    """Return a note where all readings lie high or low together, which points at the datum and not at the laying."""
    count = len(area.readings)
    mean = sum(reading.deviation_mm for reading in area.readings) / count
    spread = math.sqrt(sum((reading.deviation_mm - mean) ** 2 for reading in area.readings) / count)
    if count < _ENOUGH or abs(mean) <= max(_WIDTH * max(sd_mm, spread) / math.sqrt(count), sd_mm):
        return []
    message = words.shifted(area.area, mean, spread)
    return [Finding(Code.SHIFTED, Severity.CHECK, f"area {area.area}", message, mean, unit="mm")]


def _fall(area: AreaAsLaid, figures: AsLaidFigures) -> list[Finding]:
    if area.fitted is None or area.fall is None or area.steepest is None:
        return []
    figure = figures.min_fall
    least = units.one_in_n_to_fall(figure.value)
    if area.fall <= 0.0:
        message, options = words.reverse_fall(area.area)
        return [
            Finding(
                Code.REVERSE_FALL,
                Severity.STOP,
                f"area {area.area}",
                message,
                area.fall,
                area.planned_fall,
                "-",
                options=options,
            )
        ]
    if area.steepest < least < math.inf and area.steepest < area.planned_fall:
        message = words.too_flat(area, area.steepest, least)
        return [Finding(Code.TOO_FLAT, Severity.CHECK, f"area {area.area}", message, area.steepest, least, "-", figure)]
    return []
