"""What the work is held to: each limit with the tolerance of laying, never what happens to be planned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class WallPromise:
    """How far the paving stays below the damp-proof course of one wall, over every stretch and area that meets it.

    Attributes:
        wall: Name of the wall.
        planned_min_mm: The smallest clearance planned anywhere along the wall. [mm]
        limit: The figure that the clearance is held to.
        promised_mm: The limit, or what is planned where that is less. [mm]
        tolerance_mm: What laying may take off the promise; zero where the plan leaves room for it. [mm]
    """

    wall: str
    planned_min_mm: float
    limit: Figure
    promised_mm: float
    tolerance_mm: float

    def kept_by(self, clearance_mm: float) -> bool:
        """Return whether a clearance found keeps the promise."""
        return clearance_mm >= self.promised_mm - self.tolerance_mm - _EXACT_MM


@dataclass(frozen=True, slots=True)
class Promises:
    """The limits that the work is held to.

    Attributes:
        straightedge: Gap under a 3 m straight edge.
        step: Step between neighbouring units.
        level: Level against the plan, either way: what laying may be off.
        walls: One promise for each wall with a damp-proof course, in the order in which the walls are met.
    """

    straightedge: Figure
    step: Figure
    level: Figure
    walls: tuple[WallPromise, ...]


def promises(job: Job, levels: Levels, rules: Rulebook) -> Promises:
    """Return the limits that the work is held to."""
    level = rules.figure(f"as_laid.level_{job.tolerance.value}_mm")
    limit = rules.figure("levels.below_dpc_mm")
    planned: dict[str, float] = {}
    for area in levels.areas:
        for met in area.clearances:
            planned[met.wall] = min(met.least_mm, planned.get(met.wall, met.least_mm))
    return Promises(
        straightedge=rules.figure(f"as_laid.straightedge_{job.tolerance.value}_mm"),
        step=rules.figure("as_laid.step_between_units_mm"),
        level=level,
        walls=tuple(_wall(wall, least, limit, level.value) for wall, least in planned.items()),
    )


def _wall(wall: str, planned_mm: float, limit: Figure, off_mm: float) -> WallPromise:
    """Return the promise for one wall: paving laid as high as the tolerance lets it still keeps it."""
    promised = min(limit.value, planned_mm)
    return WallPromise(wall, planned_mm, limit, promised, max(0.0, promised - (planned_mm - off_mm)))


_EXACT_MM = 1e-6
"""Clearances this near to each other are the same. [mm]"""
