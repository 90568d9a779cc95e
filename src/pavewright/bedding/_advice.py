"""What to do with a unit whose corners were read: leave it, tap it, read it again, or lift it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.as_laid import TRUSTED, Verdict, within
from pavewright.bedding._corners import plane_part
from pavewright.bedding._plate import plate
from pavewright.bedding._taps import Care, Tap, best_tap
from pavewright.job.on_site import Rocks

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.bedding._corners import PlanePart
    from pavewright.bedding._figures import Limits
    from pavewright.geometry import XY


class Act(StrEnum):
    """What is done next with a unit."""

    READ = "read"
    TAP = "tap"
    LEAVE = "leave"
    LOOK = "look"
    LIFT = "lift"


class Why(StrEnum):
    """Why a unit is lifted and bedded again."""

    ROCKS = "rocks"
    TWIST = "twist"
    LOW = "low"
    HIGH = "high"
    THIN = "thin"


@dataclass(frozen=True, slots=True)
class Advice:
    """What is done next with a unit.

    Attributes:
        act: Read more corners, tap, leave it, look with a straight edge since these readings cannot tell, or lift.
        why: Why it is lifted; none for every other act.
        plane: The plane in its readings and the twist; None while fewer than three corners are read.
        tap: Where to tap and by how much; None for every other act.
        low: Corners that are certainly too low.
        bed_change_mm: Bed to put in, less than zero to take out, so that it stands proud again; None where it is not
            lifted or its plane is not known. [mm]
    """

    act: Act
    why: tuple[Why, ...] = ()
    plane: PlanePart | None = None
    tap: Tap | None = None
    low: tuple[int, ...] = ()
    bed_change_mm: float | None = None


def advise(
    corners: Sequence[XY],
    over_mm: Sequence[float | None],
    sd_mm: float,
    limits: Limits,
    rocks: Rocks | None = None,
    bed_mm: float | None = None,
    allowed_mm: Sequence[float] = (),
) -> Advice:
    """Return what to do with a unit.

    Args:
        corners: Its corners in order round it. [mm]
        over_mm: Each corner over what is aimed at, less than zero below it; None where it was not read. [mm]
        sd_mm: Standard deviation of one reading. [mm]
        limits: The limits by which it is judged.
        rocks: Whether it rocks; None where nobody tried.
        bed_mm: Bed under it as measured; None where nobody did. [mm]
        allowed_mm: How far each corner may be off before that is wrong: by the step beside units that lie, by the
            level of paving elsewhere; by the step at every corner where nothing is given. [mm]
    """
    plane = plane_part(corners, over_mm, sd_mm)
    allowed = tuple(allowed_mm) or (limits.step_mm,) * len(corners)
    rocking = rocks in (Rocks.A_C, Rocks.B_D)
    if plane is None:
        return Advice(Act.LIFT, (Why.ROCKS,)) if rocking else Advice(Act.READ)
    low = tuple(
        number
        for number, (over, sd, off) in enumerate(zip(plane.over_mm, plane.sd_mm, allowed, strict=True))
        if over + TRUSTED * sd < -off
    )
    why = _why(plane, limits, rocking=rocking, low=bool(low), bed_mm=bed_mm)
    if why:
        mean = sum(plane.over_mm) / len(plane.over_mm)
        return Advice(Act.LIFT, why, plane, None, low, round(limits.proud_mm - mean, 9))
    if _passes(over_mm, (limits.step_mm,) * len(corners), sd_mm):
        return Advice(Act.LEAVE, (), plane)
    care = Care(TRUSTED, limits.share_percent, limits.gives_percent, limits.at_once_mm, allowed)
    tap = best_tap(plate(corners), plane.over_mm, plane.sd_mm, care)
    if tap is not None and max(tap.down_mm) >= limits.tap_from_mm:
        return Advice(Act.TAP, (), plane, tap)
    return Advice(Act.LEAVE if _passes(over_mm, allowed, sd_mm) else Act.LOOK, (), plane)


def _passes(over_mm: Sequence[float | None], allowed_mm: Sequence[float], sd_mm: float) -> bool:
    """Return whether every corner that was read is certainly within what is allowed there."""
    verdicts = (within(over, off, sd_mm) for over, off in zip(over_mm, allowed_mm, strict=True) if over is not None)
    return all(each is Verdict.PASSES for each in verdicts)


def _why(plane: PlanePart, limits: Limits, *, rocking: bool, low: bool, bed_mm: float | None) -> tuple[Why, ...]:
    """Return why a unit is to be lifted, what is surest first; empty where it may stay."""
    mean = sum(plane.over_mm) / len(plane.over_mm)
    mean_sd = sum(plane.sd_mm) / len(plane.sd_mm)
    twisted = (
        plane.twist_mm is not None
        and plane.twist_sd_mm is not None
        and abs(plane.twist_mm) - TRUSTED * plane.twist_sd_mm > limits.step_mm
    )
    asked = (
        (Why.ROCKS, rocking),
        (Why.TWIST, twisted),
        (Why.LOW, low),
        (Why.HIGH, mean - TRUSTED * mean_sd > limits.most_mm),
        (Why.THIN, bed_mm is not None and bed_mm - max(mean, 0.0) < limits.thinnest_mm),
    )
    return tuple(each for each, holds in asked if holds)


def aimed_at(wanted_mm: float, beside_mm: Sequence[float], step_mm: float, level_mm: float) -> float:
    """Return the level at which a corner is to lie: as planned, or nearer to what lies beside it already.

    No step to a neighbour is to be more than half of what is allowed, as far as the level stays within its own limit.

    Args:
        wanted_mm: Level planned there. [mm]
        beside_mm: Levels found beside it on units that lie already. [mm]
        step_mm: Step between neighbouring units that is allowed. [mm]
        level_mm: How far the level may lie off the plan. [mm]

    >>> aimed_at(1000.0, [997.0], 2.0, 6.0), aimed_at(1000.0, [999.5], 2.0, 6.0), aimed_at(1000.0, [], 2.0, 6.0)
    (998.0, 1000.0, 1000.0)
    """
    if not beside_mm:
        return wanted_mm
    highest, lowest = max(beside_mm) - step_mm / 2.0, min(beside_mm) + step_mm / 2.0
    aim = (highest + lowest) / 2.0 if highest > lowest else min(max(wanted_mm, highest), lowest)
    return min(max(aim, wanted_mm - level_mm), wanted_mm + level_mm)
