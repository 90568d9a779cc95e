"""What the work is held to: each limit with the tolerance of laying, never what happens to be planned."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid._figures import figures
from pavewright.as_laid._verdicts import TRUSTED, Verdict

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class WallPromise:
    """How far the paving stays below the damp-proof course of one wall, over every stretch and area that meets it.

    The customer's paper promises it and the readings as laid are held to it: both by the limits here.

    Attributes:
        wall: Name of the wall.
        planned_min_mm: The smallest clearance planned anywhere along the wall. [mm]
        limit: The figure that the clearance is held to.
        tolerance_mm: Whole millimetres that laying may take off it; zero where the plan leaves room for laying. [mm]
        tolerance: The figure of laying from which that comes.
    """

    wall: str
    planned_min_mm: float
    limit: Figure
    tolerance_mm: float
    tolerance: Figure

    @property
    def promised_mm(self) -> float:
        """The clearance promised: the limit, never what happens to be planned. [mm]."""
        return self.limit.value

    @property
    def is_open(self) -> bool:
        """Whether the plan itself is below the limit: then nothing is promised for the wall."""
        return self.planned_min_mm < self.limit.value - _EXACT_MM

    def kept_by(self, clearance_mm: float) -> bool:
        """Return whether a clearance keeps the promise, tolerance included."""
        return clearance_mm >= self.promised_mm - self.tolerance_mm - _EXACT_MM

    def verdict_on(self, found_mm: float, sd_mm: float) -> Verdict:
        """Return the verdict on a clearance found: it fails only where the reading's own doubt leaves no other way."""
        if self.kept_by(found_mm):
            return Verdict.PASSES
        return Verdict.INCONCLUSIVE if self.kept_by(found_mm + TRUSTED * sd_mm) else Verdict.FAILS


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
    return promised(levels, figures(job.tolerance, rules))


def promised(levels: Levels, held: AsLaidFigures) -> Promises:
    """Return the limits that the work is held to, by figures that are read."""
    planned: dict[str, float] = {}
    for area in levels.areas:
        for met in area.clearances:
            planned[met.wall] = min(met.min_mm, planned.get(met.wall, met.min_mm))
    return Promises(
        straightedge=held.straightedge,
        step=held.step,
        level=held.level,
        walls=tuple(_wall(wall, least, held.below_dpc, held.level) for wall, least in planned.items()),
    )


def _wall(wall: str, planned_mm: float, limit: Figure, level: Figure) -> WallPromise:
    """Return the promise for one wall: paving laid as high as laying may be off still keeps it."""
    short = limit.value - (planned_mm - level.value)
    tolerance = min(max(float(math.ceil(short - _EXACT_MM)), 0.0), level.value)
    return WallPromise(wall, planned_mm, limit, tolerance, level)


_EXACT_MM = 1e-6
"""Clearances this near to each other are the same. [mm]"""
