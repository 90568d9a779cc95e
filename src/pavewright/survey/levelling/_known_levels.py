"""Levels of points by name: those known beforehand, and those read over another point by a string or a water level."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.survey._remarks import metres, millimetres
from pavewright.survey.levelling._levels_together import height_sd_mm

if TYPE_CHECKING:
    from pavewright.job import HeightOver, Measurements
    from pavewright.rules import Rulebook
    from pavewright.survey._remarks import Remarks

_SAME_MM = 0.01
NOTICED_MM = 0.5
"""Two levels of one point that round to the same millimetre are the same reading of a staff. [mm]"""
_SURELY = 3.0
"""Standard deviations past which two heights of one point do not agree. Common practice. [-]"""

ADJUST = Option(
    "Adjust all level books and heights together, every reading weighed.",
    (FieldChange("measurements.levels_together", True),),  # noqa: FBT003 - a value of the document
)


@dataclass(frozen=True, slots=True)
class KnownLevel:
    """A level and what gave it: ``benchmark``, ``given`` or the name of a level book. [mm]."""

    level_mm: float
    found_by: str


def known_beforehand(measured: Measurements, remarks: Remarks) -> dict[str, KnownLevel]:
    """Return the levels that are not read but known: benchmarks, and given points with a level."""
    levels: dict[str, KnownLevel] = {}
    entries = [
        (f"measurements.benchmarks.{number}.level_mm", mark.point, mark.level_mm, "benchmark")
        for number, mark in enumerate(measured.benchmarks)
    ] + [
        (f"measurements.points.{number}.level_mm", point.name, point.level_mm, "given")
        for number, point in enumerate(measured.points)
        if point.level_mm is not None
    ]
    for path, name, level_mm, found_by in entries:
        before = levels.setdefault(name, KnownLevel(level_mm, found_by))
        if abs(before.level_mm - level_mm) > _SAME_MM:
            remarks.fault(
                path,
                f"{name} is given two levels, {metres(before.level_mm)} and {metres(level_mm)}: leave one out.",
            )
    return levels


def take_height(height: HeightOver, levels: dict[str, KnownLevel], rules: Rulebook, remarks: Remarks) -> None:
    """Keep the level that a height over another point gives; tell where the point already has another."""
    name = f"its height over {height.over} by {height.by.value.replace('_', ' ')}"
    if height.over not in levels:
        below = levels[height.point].level_mm - height.higher_mm
        levels[height.over] = KnownLevel(
            below, f"its height under {height.point} by {height.by.value.replace('_', ' ')}"
        )
        return
    found = levels[height.over].level_mm + height.higher_mm
    before = levels.setdefault(height.point, KnownLevel(found, name))
    out = found - before.level_mm
    if abs(out) < NOTICED_MM:
        return
    limit = _SURELY * height_sd_mm(height, rules)
    remarks.finding(
        Finding(
            "survey.levelled_twice",
            Severity.CHECK if abs(out) > limit else Severity.NOTE,
            f"point {height.point}",
            f"{height.point} is {metres(before.level_mm)} by {named(before.found_by)} and {metres(found)} by {name}, "
            f"{millimetres(out, sign=True)} apart; the first is used. If that is too much, read it again.",
            value=out,
            limit=limit,
            unit="mm",
            figure=rules.figure(f"survey.height_by_{height.by.value}_sd_mm"),
            options=(ADJUST,),
        )
    )


def named(found_by: str) -> str:
    """Return what gave a level, in words."""
    if found_by.startswith("its height"):
        return found_by
    return {"benchmark": "its benchmark", "given": "the level given for it"}.get(found_by, f"level book {found_by}")
