"""What the as-laid check hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid._verdicts import Verdict

if TYPE_CHECKING:
    from pavewright.as_laid._regimes import Regime
    from pavewright.as_laid._types_judged import HoseAsLaid, Reason
    from pavewright.as_laid._types_surface import (
        BayAsLaid,
        GapAsLaid,
        JointAsLaid,
        LipAsLaid,
        ProfileAsLaid,
        VisitMoved,
    )
    from pavewright.as_laid.standing import DrainFound
    from pavewright.findings import Finding
    from pavewright.geometry import XY, Plane
    from pavewright.rules import Figure
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class ReadingCheck:
    """One reading against the plan.

    Attributes:
        label: Name of the reading.
        at: Place. [mm]
        planned_mm: Finished level planned. [mm]
        found_mm: Level found. [mm]
        deviation_mm: Found less planned. [mm]
        verdict: Pass, fail, or inconclusive within the reading's own uncertainty of the limit.
    """

    label: str
    at: XY
    planned_mm: float
    found_mm: float
    deviation_mm: float
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class WallCheck:
    """Clearance found at a damp-proof course, from readings within a stated distance of the wall.

    Attributes:
        wall: Name of the wall.
        min_mm: The smallest clearance found. [mm]
        wanted_mm: The clearance promised. [mm]
        readings: Readings near enough to count for it.
        verdict: Pass, fail or inconclusive, by the rule of the promise.
        tolerance_mm: What laying may take off the clearance promised. [mm]
        tolerance: The figure of laying from which that comes.
    """

    wall: str
    min_mm: float
    wanted_mm: float
    readings: int
    verdict: Verdict
    tolerance_mm: float
    tolerance: Figure

    @property
    def short_mm(self) -> float:
        """How much less than promised was found; zero where it was kept without the tolerance. [mm]."""
        return max(self.wanted_mm - self.min_mm, 0.0)

    @property
    def needs_tolerance(self) -> bool:
        """Whether it passes by the tolerance of laying alone."""
        return self.verdict is Verdict.PASSES and self.short_mm > _EXACT_MM


@dataclass(frozen=True)
class AreaAsLaid:
    """One area as laid.

    Attributes:
        area: Name of the area.
        readings: Every reading against the plan.
        bays: Its bays, each against the plane that was planned.
        profiles: Rows of readings along which a straight edge was rolled.
        fitted: Plane through the readings of the largest facet, without those that the others contradict; None with
            fewer than three or all on one line.
        fall: Fall found along the planned direction, rise over run; None without a fitted plane. [rise over run]
        planned_fall: Fall planned in that direction. [rise over run]
        steepest: Steepest fall found; None without a fitted plane. [rise over run]
        bearing_deg: Direction of the steepest fall found; None without a fitted plane.
        greatest_residual_mm: Greatest departure of a reading from the fitted plane; None without one. [mm]
        walls: Clearance at each damp-proof course.
        level_limit: The figure against which levels are held.
        unknown_walls: House walls that it meets whose damp-proof course was not read.
        reasons: Why it does not pass, the worst first; empty where it passes.
        verdict: The worst of everything that was read on it: pass, fail or inconclusive.
        workings: The sums behind it.
    """

    area: str
    readings: tuple[ReadingCheck, ...]
    bays: tuple[BayAsLaid, ...]
    profiles: tuple[ProfileAsLaid, ...]
    fitted: Plane | None
    fall: float | None
    planned_fall: float
    steepest: float | None
    bearing_deg: float | None
    greatest_residual_mm: float | None
    walls: tuple[WallCheck, ...]
    level_limit: Figure
    unknown_walls: tuple[str, ...]
    reasons: tuple[Reason, ...]
    verdict: Verdict
    workings: tuple[Working, ...]


@dataclass(frozen=True)
class AsLaidReport:
    """Readings checked against the plan.

    Attributes:
        areas: By area, those with readings.
        regime: What flatness, lips and joints are held to.
        gaps: Gaps read under a straight edge.
        lips: Lips read.
        joints: Joints read.
        visits: Later visits against the day as laid, the first visit first.
        hoses: Hose tests that count.
        gratings: Gratings read.
        reasons: Why it does not pass, area by area, the worst first; empty where it passes.
        is_water_judged: Whether standing water by its chance is in the verdict: it is worked out for sheets and screens
            of the finished paving alone, and without it nothing may be called a pass of the whole.
        verdict: The worst of everything that was read: pass, fail or inconclusive.
        limits: What the readings cannot show, in words.
        findings: What was noticed.
    """

    areas: tuple[AreaAsLaid, ...]
    regime: Regime
    gaps: tuple[GapAsLaid, ...]
    lips: tuple[LipAsLaid, ...]
    joints: tuple[JointAsLaid, ...]
    visits: tuple[VisitMoved, ...]
    hoses: tuple[HoseAsLaid, ...]
    gratings: tuple[DrainFound, ...]
    reasons: tuple[Reason, ...]
    is_water_judged: bool
    verdict: Verdict
    limits: tuple[str, ...]
    findings: tuple[Finding, ...]


_EXACT_MM = 1e-6
"""Clearances this near to each other are the same. [mm]"""
