"""A drain while it lies open: its fall from invert readings, and its test."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import TRUSTED, Verdict, together
from pavewright.geometry import distance
from pavewright.job.on_site import DrainTestKind

if TYPE_CHECKING:
    from pavewright.hold_points._figures import DrainFigures
    from pavewright.job.on_site import DrainTest, HoldCheck
    from pavewright.rules import Figure


class DrainStanding(StrEnum):
    """What a test of a drain says."""

    TIGHT = "tight"
    LEAKS = "leaks"
    TOO_SHORT = "too_short"
    NOT_KNOWN = "not_known"
    RUNS = "runs"
    RUNS_NOT = "runs_not"
    UNTESTED = "untested"


@dataclass(frozen=True, slots=True)
class DrainRead:
    """What was read of a drain.

    Attributes:
        fall: From the first reading to the last, rise over run, negative where it rises; None where too little was
            read. [rise over run]
        fall_sd: Its standard deviation; None without a fall. [rise over run]
        min_fall: The smallest that it should have; None where nothing is said of its bore. [rise over run]
        back_falls: How many stretches between neighbouring readings rise beyond their doubt. [-]
        fall_verdict: On the fall; None where it was not read, or no smallest fall is known.
        standing: What the test says.
        test_limit: The figure that the test is held to; None where there is none.
    """

    fall: float | None
    fall_sd: float | None
    min_fall: float | None
    back_falls: int
    fall_verdict: Verdict | None
    standing: DrainStanding
    test_limit: Figure | None

    @property
    def verdict(self) -> Verdict | None:
        """Fall and test together; None while one of them is not known."""
        tested = _BY_STANDING[self.standing]
        if Verdict.FAILS in {self.fall_verdict, tested}:
            return Verdict.FAILS
        if self.fall_verdict is None or tested is None:
            return None
        return together([self.fall_verdict, tested])


_BY_STANDING: dict[DrainStanding, Verdict | None] = {
    DrainStanding.TIGHT: Verdict.PASSES,
    DrainStanding.LEAKS: Verdict.FAILS,
    DrainStanding.TOO_SHORT: Verdict.INCONCLUSIVE,
    DrainStanding.NOT_KNOWN: None,
    DrainStanding.RUNS: Verdict.PASSES,
    DrainStanding.RUNS_NOT: Verdict.FAILS,
    DrainStanding.UNTESTED: None,
}


def fall_read(head_mm: float, foot_mm: float, run_mm: float, sd_mm: float) -> tuple[float, float]:
    """Return the fall from a head to a foot and its standard deviation, both as rise over run.

    Args:
        head_mm: Invert at the head. [mm]
        foot_mm: Invert at the foot. [mm]
        run_mm: Length between them. [mm]
        sd_mm: Standard deviation of one reading. [mm]

    Source: definition; errors of two readings add by the root of their squares
    """
    return (head_mm - foot_mm) / run_mm, math.sqrt(2.0) * sd_mm / run_mm


def fall_verdict(fall: float, sd: float, least: float) -> Verdict:
    """Return whether a fall is steep enough, or too near to the smallest to decide.

    Args:
        fall: As read. [rise over run]
        sd: Its standard deviation. [rise over run]
        least: The smallest that it should have. [rise over run]
    """
    if fall >= least + TRUSTED * sd:
        return Verdict.PASSES
    return Verdict.FAILS if fall < least - TRUSTED * sd else Verdict.INCONCLUSIVE


def drain_read(check: HoldCheck, min_fall: float | None, figures: DrainFigures) -> DrainRead:
    """Return what a look at a drain found.

    Args:
        check: The look.
        min_fall: The smallest fall that its pipe should have. [rise over run]
        figures: How drains are tested.
    """
    read = [(each.x_mm, each.y_mm, each.level_mm) for each in check.readings if each.level_mm is not None]
    fall = sd = None
    back = 0
    if len(read) > 1:
        steps = list(itertools.pairwise(read))
        crow = sum(distance(one[:2], other[:2]) for one, other in steps)
        run = check.run_mm or crow
        doubt = TRUSTED * math.sqrt(2.0) * check.sd_mm
        back = sum(other[2] - one[2] > doubt for one, other in steps)
        if run > 0.0:
            fall, sd = fall_read(read[0][2], read[-1][2], run, check.sd_mm)
    held = None
    if fall is not None and sd is not None and min_fall is not None:
        held = Verdict.FAILS if back else fall_verdict(fall, sd, min_fall)
    standing, limit = standing_of_test(check.test, figures)
    return DrainRead(fall, sd, min_fall, back, held, standing, limit)


def standing_of_test(test: DrainTest | None, figures: DrainFigures) -> tuple[DrainStanding, Figure | None]:
    """Return what a test says, and the figure that it was held to."""
    if test is None:
        return DrainStanding.UNTESTED, None
    if test.kind is DrainTestKind.AIR:
        return _air(test, figures)
    if test.kind is DrainTestKind.WATER:
        return _water(test, figures)
    if test.seen_running is None:
        return DrainStanding.NOT_KNOWN, None
    return (DrainStanding.RUNS if test.seen_running else DrainStanding.RUNS_NOT), None


def _air(test: DrainTest, figures: DrainFigures) -> tuple[DrainStanding, Figure | None]:
    limit = figures.air_drop_mm
    if test.drop_mm is None:
        return DrainStanding.NOT_KNOWN, limit
    if test.drop_mm > limit.value:
        return DrainStanding.LEAKS, limit
    watched = test.minutes is not None and test.minutes >= figures.air_minutes.value
    begun = test.start_gauge_mm is not None and test.start_gauge_mm >= figures.air_start_mm.value
    return (DrainStanding.TIGHT if watched and begun else DrainStanding.TOO_SHORT), limit


def _water(test: DrainTest, figures: DrainFigures) -> tuple[DrainStanding, Figure | None]:
    limit = next(
        (loss for bore, loss in figures.loss_by_bore if test.pipe_mm is not None and test.pipe_mm <= bore), None
    )
    if limit is None or test.lost_litre is None or test.length_mm is None:
        return DrainStanding.NOT_KNOWN, limit
    if test.lost_litre / units.mm_to_m(test.length_mm) > limit.value:
        return DrainStanding.LEAKS, limit
    watched = test.minutes is not None and test.minutes >= figures.water_minutes.value
    return (DrainStanding.TIGHT if watched else DrainStanding.TOO_SHORT), limit
