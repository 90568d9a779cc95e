"""What is read by hand on the paving: gaps under a straight edge, lips and joints, against the regime."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.as_laid._regimes import held
from pavewright.as_laid._types_surface import GapAsLaid, JointAsLaid, LipAsLaid
from pavewright.as_laid._verdicts import TRUSTED, Verdict, together, within
from pavewright.job.on_site import GapMeans, LipMeans

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._regimes import Regime
    from pavewright.geometry import XY
    from pavewright.job import AsLaid, Job
    from pavewright.job.on_site import JointRead, LipRead, StraightedgeGap

_TWO_READINGS = math.sqrt(2.0)
"""A lip by two readings is less sure than one reading by this. [-]"""


def _at(x_mm: float | None, y_mm: float | None) -> XY | None:
    return None if x_mm is None or y_mm is None else (x_mm, y_mm)


def gaps_as_laid(taken: AsLaid, regime: Regime, figures: AsLaidFigures) -> tuple[GapAsLaid, ...]:
    """Return every gap that was read under a straight edge, against the regime."""
    return tuple(_gap(each, each.gap_mm, regime, figures) for each in taken.gaps if each.gap_mm is not None)


def _gap(read: StraightedgeGap, gap_mm: float, regime: Regime, figures: AsLaidFigures) -> GapAsLaid:
    usual = figures.wedge_sd_mm if read.means is GapMeans.WEDGE else figures.eye_sd_mm
    sd = usual if read.sd_mm is None else read.sd_mm
    limit = regime.gap_limit(read.edge_mm, read.contacts_mm, read.warp_mm)
    return GapAsLaid(
        name=read.name,
        area=read.area,
        at=_at(read.x_mm, read.y_mm),
        edge_mm=read.edge_mm,
        gap_mm=gap_mm,
        sd_mm=sd,
        limit=limit,
        verdict=held(gap_mm, limit, sd),
    )


def lips_as_laid(job: Job, taken: AsLaid, regime: Regime, figures: AsLaidFigures) -> tuple[LipAsLaid, ...]:
    """Return every lip that was read, against the regime."""
    return tuple(_lip(job, taken, each, each.lip_mm, regime, figures) for each in taken.lips if each.lip_mm is not None)


def _lip(job: Job, taken: AsLaid, read: LipRead, lip_mm: float, regime: Regime, figures: AsLaidFigures) -> LipAsLaid:
    by_staff = read.means is LipMeans.STAFF
    usual = _TWO_READINGS * taken.reading_sd_mm if by_staff else figures.gauge_sd_mm
    sd = usual if read.sd_mm is None else read.sd_mm
    limit = regime.lip_limit(read.joint_mm, read.fill, _sides(job, read.area), read.warp_mm)
    return LipAsLaid(
        name=read.name,
        area=read.area,
        at=_at(read.x_mm, read.y_mm),
        lip_mm=lip_mm,
        sd_mm=sd,
        by_staff=by_staff,
        limit=limit,
        verdict=held(lip_mm, limit, sd),
    )


def _sides(job: Job, area: str) -> tuple[float, float] | None:
    """Return length and width of the unit of an area; None where none is chosen. [mm]."""
    laying = job.area(area).laying
    if laying.unit is None:
        return None
    unit = job.unit(laying.unit)
    return unit.length_mm, unit.width_mm


def joints_as_laid(job: Job, taken: AsLaid, regime: Regime, figures: AsLaidFigures) -> tuple[JointAsLaid, ...]:
    """Return every joint that was read, against the regime."""
    return tuple(
        _joint(job, each, regime, figures)
        for each in taken.joints
        if each.width_mm is not None or each.recess_mm is not None
    )


def _joint(job: Job, read: JointRead, regime: Regime, figures: AsLaidFigures) -> JointAsLaid:
    sd = figures.rule_sd_mm if read.sd_mm is None else read.sd_mm
    bounds = [regime.rule(column) for column in ("joint_min_mm", "joint_max_mm", "recess_max_mm")]
    least, most, deep = (None if each is None else each.value for each in bounds)
    verdicts = []
    if read.width_mm is not None and (least is not None or most is not None):
        low, high = least if least is not None else -math.inf, most if most is not None else math.inf
        verdicts.append(_between(read.width_mm, low, high, sd))
    if read.recess_mm is not None and deep is not None:
        verdicts.append(within(read.recess_mm, deep, sd))
    return JointAsLaid(
        name=read.name,
        area=read.area,
        at=_at(read.x_mm, read.y_mm),
        width_mm=read.width_mm,
        planned_mm=job.area(read.area).laying.joint_mm,
        recess_mm=read.recess_mm,
        sd_mm=sd,
        min_mm=least,
        max_mm=most,
        recess_max_mm=deep,
        verdict=together(verdicts) if verdicts else None,
    )


def _between(found_mm: float, low_mm: float, high_mm: float, sd_mm: float) -> Verdict:
    """Return the verdict on a width that should lie between two. [mm]."""
    off = max(low_mm - found_mm, found_mm - high_mm)
    if off <= -TRUSTED * sd_mm:
        return Verdict.PASSES
    return Verdict.FAILS if off > TRUSTED * sd_mm else Verdict.INCONCLUSIVE
