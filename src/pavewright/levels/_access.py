"""Areas that a wheelchair or a pram has to get over: how steep, and how high a step at a door."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity, worded
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
        limit, severity, words = along, Severity.STOP, "steeper than an accessible way may run"
    elif steepest > units.one_in_n_to_fall(across.value) + _ROUNDING:
        limit, severity = across, Severity.CHECK
        words = "steeper than an accessible way may fall across: people have to be able to go straight down it"
    else:
        return ()
    return (
        Finding(
            Code.NOT_ACCESSIBLE,
            severity,
            f"area {area.name}",
            f"{area.name} is to be accessible and falls {units.fall_text(steepest)}, {words} (1 in {limit.value:g}).",
            steepest,
            units.one_in_n_to_fall(limit.value),
            "-",
            limit,
            options=worded(("Lay flatter, with a channel at the low edge.", "Split it with a landing and a ramp.")),
            at_mm=area.gross.centre_mm,
        ),
    )


_ROUNDING = 1e-9
"""Rounding of the arithmetic. [-]"""
_RAMP = (
    "Bring a ramp or a raised landing to the door, drained by a channel along the wall, with the detail at the "
    "damp-proof course checked by whoever answers for the house."
)


def _step(area: PlanArea, door: DoorStep, figures: LevelFigures) -> Finding:
    step = figures.threshold
    return Finding(
        Code.STEP_AT_ACCESSIBLE_DOOR,
        Severity.CHECK,
        f"area {area.name}, {door.opening}",
        f"{door.opening} has a step of {door.max_mm:.0f} mm down to {area.name}, which is to be accessible.",
        door.max_mm,
        step.value,
        "mm",
        step,
        options=worded((_RAMP, "Choose another door for the accessible way.")),
        at_mm=area.gross.centre_mm,
    )
