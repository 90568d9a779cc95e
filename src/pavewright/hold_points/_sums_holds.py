"""Sums of hold points."""

from __future__ import annotations

from pavewright.hold_points._drains import fall_read, fall_verdict
from pavewright.hold_points._limits import off_limit
from pavewright.hold_points._volumes import mean_volumes
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def reading_at_hold(off_mm: float, above_mm: float, below_mm: float, sd_mm: float) -> dict[str, Value]:
    """Return whether a level keeps a limit above and another below, with the doubt of its reading.

    Source: as_3727_formation
    """
    if min(above_mm, below_mm, sd_mm) < 0.0:
        message = "Limits and the doubt of a reading are not less than zero."
        raise SumRefusedError(message)
    return {"verdict": off_limit(off_mm, above_mm, below_mm, sd_mm).words}


def layer_off_level(area_m2: float, offs_mm: tuple[float, ...], sd_mm: float) -> dict[str, Value]:
    """Return what a layer lacks and has too much of, from levels read on it.

    Source: common_practice
    """
    found = mean_volumes(area_m2, offs_mm, sd_mm) if area_m2 > 0.0 and offs_mm and sd_mm >= 0.0 else None
    if found is None or found.doubt_m3 is None:
        message = "Give an area that is more than zero, two readings or more, and a doubt that is not less than zero."
        raise SumRefusedError(message)
    return {
        "mean_mm": found.mean_mm,
        "low_m3": found.low_m3,
        "high_m3": found.high_m3,
        "doubt_m3": found.doubt_m3,
    }


def drain_fall_read(
    head_mm: float, foot_mm: float, run_mm: float, sd_mm: float, least_one_in: float
) -> dict[str, Value]:
    """Return the fall of a drain from two inverts, its doubt, and whether it is steep enough.

    Source: definition
    """
    if min(run_mm, least_one_in) <= 0.0 or sd_mm < 0.0:
        message = "The run and the smallest fall are more than zero, the doubt is not less than zero."
        raise SumRefusedError(message)
    fall, doubt = fall_read(head_mm, foot_mm, run_mm, sd_mm)
    return {
        "fall_mm": head_mm - foot_mm,
        "fall_percent": 100.0 * fall,
        "fall_sd_percent": 100.0 * doubt,
        "verdict": fall_verdict(fall, doubt, 1.0 / least_one_in).words,
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "reading-at-hold",
        "Find whether a level keeps a limit above and another below",
        (
            Quantity("off_mm", "mm", "found less planned, positive where it lies high"),
            Quantity("above_mm", "mm", "at most so much too high"),
            Quantity("below_mm", "mm", "at most so much too low"),
            Quantity("sd_mm", "mm", "standard deviation of the reading"),
        ),
        (Quantity("verdict", "", "pass, fail, or too near to decide", kind="word"),),
        "pass: -below + 2 sd <= off <= above - 2 sd; fail: off > above + 2 sd or off < -below - 2 sd",
        "as_3727_formation",
        reading_at_hold,
    ),
    Sum(
        "layer-off-level",
        "Find what a layer that lies off takes, in m³",
        (
            Quantity("area_m2", "m2", "the surface"),
            Quantity("offs_mm", "mm", "found less planned at each place", kind="numbers"),
            Quantity("sd_mm", "mm", "standard deviation of one reading"),
        ),
        (
            Quantity("mean_mm", "mm", "mean of the readings"),
            Quantity("low_m3", "m3", "what fills the low places"),
            Quantity("high_m3", "m3", "what is taken off the high places"),
            Quantity("doubt_m3", "m3", "two standard errors of the mean over the surface"),
        ),
        "low = area · mean(max(-off, 0)); high = area · mean(max(off, 0)); doubt = 2 · area · s / √n",
        "common_practice",
        layer_off_level,
    ),
    Sum(
        "drain-fall-read",
        "Find the fall of a drain from two inverts, and whether it is steep enough",
        (
            Quantity("head_mm", "mm", "invert at the head"),
            Quantity("foot_mm", "mm", "invert at the foot"),
            Quantity("run_mm", "mm", "length between them"),
            Quantity("sd_mm", "mm", "standard deviation of one reading"),
            Quantity("least_one_in", "", "n of 1 in n for the smallest fall"),
        ),
        (
            Quantity("fall_mm", "mm", "from head to foot"),
            Quantity("fall_percent", "%", "the same over the length"),
            Quantity("fall_sd_percent", "%", "its standard deviation"),
            Quantity("verdict", "", "pass, fail, or too near to decide", kind="word"),
        ),
        "fall = (head - foot) / run; sd = √2 · sd / run",
        "definition",
        drain_fall_read,
    ),
)
"""Sums of this room."""
