"""What breaks a rule of falls and clearances without any clash of heights."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Option, Severity
from pavewright.geometry import bearing_of
from pavewright.levels import _words as words
from pavewright.levels._codes import Code
from pavewright.levels._formulas import steepest_of
from pavewright.levels.design import fall_of
from pavewright.levels.edges import contacts

if TYPE_CHECKING:
    from pavewright.findings import FieldChange
    from pavewright.geometry import FoldedSurface
    from pavewright.job import PavingUnit
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.design import Falls
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea, Survey

_SET_WITHIN_MM = 1.0
"""A frame this near to the paving needs no setting. [mm]"""


def fall_findings(area: PlanArea, falls: Falls, unit: PavingUnit | None, figures: LevelFigures) -> tuple[Finding, ...]:
    """Return findings on falls that are too flat or too steep for the surface and its use.

    While no unit is chosen it may be a riven one, which takes the greater fall.
    """
    steepest = steepest_of(falls.main, falls.cross)
    flattest = figures.falls.min_fall_riven if unit is None or unit.riven else figures.falls.min_fall
    limit = figures.falls.steepest(area.area.use)
    if units.fall_to_one_in_n(steepest) > flattest.value + _ROUNDING:
        return (_too_flat(area, steepest, flattest),)
    if units.fall_to_one_in_n(steepest) < limit.value - _ROUNDING:
        in_comfort = units.fall_to_one_in_n(steepest) >= figures.falls.steepest_path.value
        return (_too_steep(area, falls, limit, flattest, Severity.NOTE if in_comfort else Severity.CHECK),)
    return ()


_ROUNDING = 1e-6
"""Rounding of the arithmetic. [n of 1 in n]"""


def _too_flat(area: PlanArea, steepest: float, flattest: Figure) -> Finding:
    least = units.one_in_n_to_fall(flattest.value)
    steeper = Option(words.lay_steeper(flattest), fall_of(area, least, flatter=False))
    return Finding(
        Code.TOO_FLAT,
        Severity.CHECK,
        f"area {area.name}",
        words.too_flat(area.name, steepest, flattest),
        steepest,
        least,
        "-",
        flattest,
        at_mm=area.gross.centre_mm,
    ).with_options((steeper, Option(words.shorten_run())))


def _too_steep(area: PlanArea, falls: Falls, limit: Figure, flattest: Figure, severity: Severity) -> Finding:
    steepest, most = steepest_of(falls.main, falls.cross), units.one_in_n_to_fall(limit.value)
    flatter = Option(words.lay_flatter(), _flatter(area, falls, most, flattest.value))
    return Finding(
        Code.TOO_STEEP,
        severity,
        f"area {area.name}",
        words.too_steep(area.name, steepest, bearing_of(falls.plane((0.0, 0.0), 0.0).downhill), limit),
        steepest,
        most,
        "-",
        limit,
        at_mm=area.gross.centre_mm,
    ).with_options((flatter, Option(words.split_area())))


def _flatter(area: PlanArea, falls: Falls, steepest: float, flattest_one_in: float) -> tuple[FieldChange, ...]:
    """Return a main fall with which both falls together are no steeper than they may be; none if too flat."""
    room = steepest * steepest - falls.cross * falls.cross
    if room <= 0.0 or math.sqrt(room) < units.one_in_n_to_fall(flattest_one_in):
        return ()
    return fall_of(area, math.sqrt(room), flatter=True)


def setting_findings(area: PlanArea, surface: FoldedSurface, survey: Survey) -> tuple[Finding, ...]:
    """Return a note for every frame and grating that has to be reset to the paving, with how much."""
    things = [
        (f"cover {placed.cover.name}", placed.at, placed.level_mm)
        for placed in survey.site.covers
        if not placed.cover.fixed and placed.level_mm is not None
    ]
    things += [
        (f"gully {placed.gully.name}", placed.at, placed.gully.grating_level_mm)
        for placed in survey.site.gullies
        if not placed.gully.fixed and placed.gully.grating_level_mm is not None
    ]
    found = []
    for thing, at, level in things:
        if not area.gross.contains(at):
            continue
        wanted = surface.level_at(at)
        by = wanted - level
        if abs(by) > _SET_WITHIN_MM:
            found.append(
                Finding(
                    Code.FRAME_TO_SET,
                    Severity.NOTE,
                    f"area {area.name}, {thing}",
                    words.frame_to_set(thing, by, wanted),
                    by,
                    unit="mm",
                    at_mm=at,
                )
            )
    return tuple(found)


def boundary_findings(
    area: PlanArea, surface: FoldedSurface, survey: Survey, figures: LevelFigures
) -> tuple[Finding, ...]:
    """Return findings where paving comes near the top of what stands on a boundary."""
    found = []
    freeboard = figures.freeboard
    for boundary in survey.site.boundaries:
        if boundary.top_level_mm is None:
            continue
        places = [
            at
            for contact in contacts(area, boundary.start, boundary.end, figures.meets_mm)
            for at in (contact.start, contact.end)
        ]
        if not places:
            continue
        at = max(places, key=surface.level_at)
        clear = boundary.top_level_mm - surface.level_at(at)
        if clear < freeboard.value:
            message, options = words.near_boundary_top(area.name, boundary.name, clear)
            found.append(
                Finding(
                    Code.NEAR_BOUNDARY_TOP,
                    Severity.CHECK,
                    f"area {area.name}, boundary {boundary.name}",
                    message,
                    clear,
                    freeboard.value,
                    "mm",
                    freeboard,
                    options=options,
                    at_mm=at,
                )
            )
    return tuple(found)
