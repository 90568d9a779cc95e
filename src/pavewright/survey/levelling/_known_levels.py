"""Levels of points by name: those known beforehand, and those read over another point by a string or a water level."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.survey._codes import Code
from pavewright.survey._remarks import metres
from pavewright.survey._types_levels import LevelledBy, LevelSource
from pavewright.survey.levelling import _words as words
from pavewright.survey.levelling._levels_together import height_sd_mm

if TYPE_CHECKING:
    from pavewright.job import HeightOver, Measurements
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks

_SAME_MM = 0.01
NOTICED_MM = 0.5
"""Two levels of one point that round to the same millimetre are the same reading of a staff. [mm]"""

ADJUST = Option(
    words.ADJUST_TOGETHER,
    (FieldChange("measurements.levels_together", True),),  # noqa: FBT003 - a value of the document
)


@dataclass(frozen=True, slots=True)
class KnownLevel:
    """A level and what gave it. [mm]."""

    level_mm: float
    found_by: LevelSource


def known_beforehand(measured: Measurements, remarks: Remarks) -> dict[str, KnownLevel]:
    """Return the levels that are not read but known: benchmarks, and given points with a level."""
    levels: dict[str, KnownLevel] = {}
    entries = [
        (
            f"measurements.benchmarks.{number}.level_mm",
            mark.point,
            mark.level_mm,
            LevelledBy.DATUM if mark.assumed else LevelledBy.BENCHMARK,
        )
        for number, mark in enumerate(measured.benchmarks)
    ] + [
        (f"measurements.points.{number}.level_mm", point.name, point.level_mm, LevelledBy.GIVEN)
        for number, point in enumerate(measured.points)
        if point.level_mm is not None
    ]
    for path, name, level_mm, kind in entries:
        before = levels.setdefault(name, KnownLevel(level_mm, LevelSource(kind)))
        if abs(before.level_mm - level_mm) > _SAME_MM:
            remarks.fault(
                path,
                f"{name} is given two levels, {metres(before.level_mm)} and {metres(level_mm)}: leave one out.",
            )
    return levels


def take_height(height: HeightOver, levels: dict[str, KnownLevel], figures: SurveyFigures, remarks: Remarks) -> None:
    """Keep the level that a height over another point gives; report where the point already has another."""
    source = LevelSource(LevelledBy.HEIGHT_OVER, height.over, height.by)
    if height.over not in levels:
        below = levels[height.point].level_mm - height.higher_mm
        levels[height.over] = KnownLevel(below, LevelSource(LevelledBy.HEIGHT_UNDER, height.point, height.by))
        return
    found = levels[height.over].level_mm + height.higher_mm
    before = levels.setdefault(height.point, KnownLevel(found, source))
    out = found - before.level_mm
    if abs(out) < NOTICED_MM:
        return
    limit = figures.heights_differ_sds.value * height_sd_mm(height, figures)
    remarks.finding(
        Finding(
            Code.LEVELLED_TWICE,
            Severity.CHECK if abs(out) > limit else Severity.NOTE,
            f"point {height.point}",
            words.height_against_level(height.point, (before.level_mm, before.found_by), (found, source)),
            value=out,
            limit=limit,
            unit="mm",
            figure=figures.height_by(height.by),
            options=(ADJUST,),
        )
    )
