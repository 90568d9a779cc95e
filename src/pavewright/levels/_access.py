"""Areas that a wheelchair or a pram has to get over: how steep, and how high a step at a door."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.levels import _words as words
from pavewright.levels._codes import Code

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels._types import DoorStep
    from pavewright.survey import PlanArea


def access_findings(
    area: PlanArea, surface: FoldedSurface, doors: tuple[DoorStep, ...], figures: LevelFigures
) -> tuple[Finding, ...]:
    """Return findings where an area that is to be accessible is too steep or has too high a step at a door.

    Which way people go over it is not known, so that its steepest fall may lie along their way or across it.
    """
    if not area.area.accessible:
        return ()
    step = figures.threshold
    high = [door for door in doors if door.max_mm > step.value]
    return (*_too_steep(area, surface, figures), *(_step(area, door, figures) for door in high))


def _too_steep(area: PlanArea, surface: FoldedSurface, figures: LevelFigures) -> tuple[Finding, ...]:
    along, across = figures.falls.steepest_path, figures.falls.steepest_walk
    steepest = max(facet.plane.fall for facet in surface.facets)
    if steepest > units.one_in_n_to_fall(along.value) + _ROUNDING:
        limit, severity = along, Severity.STOP
    elif steepest > units.one_in_n_to_fall(across.value) + _ROUNDING:
        limit, severity = across, Severity.CHECK
    else:
        return ()
    message, options = words.not_accessible(area.name, steepest, limit, along=limit is along)
    return (
        Finding(
            Code.NOT_ACCESSIBLE,
            severity,
            f"area {area.name}",
            message,
            steepest,
            units.one_in_n_to_fall(limit.value),
            "-",
            limit,
            options=options,
            at_mm=area.gross.centre_mm,
        ),
    )


_ROUNDING = 1e-9
"""Rounding of the arithmetic. [-]"""


def _step(area: PlanArea, door: DoorStep, figures: LevelFigures) -> Finding:
    step = figures.threshold
    message, options = words.step_at_accessible_door(area.name, door)
    return Finding(
        Code.STEP_AT_ACCESSIBLE_DOOR,
        Severity.CHECK,
        f"area {area.name}, {door.opening}",
        message,
        door.max_mm,
        step.value,
        "mm",
        step,
        options=options,
        at_mm=area.gross.centre_mm,
    )
