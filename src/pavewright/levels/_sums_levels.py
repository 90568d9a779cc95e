"""Sums of levels: falls, clearances, risers and planes."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.geometry import fit_plane
from pavewright.levels._formulas import flight_mm, highest_beside_wall_mm, pace_mm, steepest_of
from pavewright.levels._steps import riser_count
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def fall(run_mm: float, one_in: float) -> dict[str, Value]:
    """Return how far a surface drops over a run.

    Source: definition
    """
    if run_mm < 0.0 or one_in <= 0.0:
        message = "The run is a length and n of 1 in n is more than zero."
        raise SumRefusedError(message)
    slope = units.one_in_n_to_fall(one_in)
    return {"drop_mm": run_mm * slope, "percent": 100.0 * slope, "mm_per_m": slope * units.MM_PER_M}


def fall_between_levels(high_mm: float, low_mm: float, run_mm: float) -> dict[str, Value]:
    """Return the fall between two levels.

    Source: definition
    """
    if run_mm <= 0.0:
        message = "The run between the two levels is longer than zero: measure it again, level and along the fall."
        raise SumRefusedError(message)
    if high_mm == low_mm:
        message = "Both levels are the same: the surface is level and has no fall."
        raise SumRefusedError(message)
    slope = (high_mm - low_mm) / run_mm
    return {"drop_mm": high_mm - low_mm, "one_in": 1.0 / slope, "percent": 100.0 * slope}


def two_way_fall(one_in: float, cross_one_in: float, run_mm: float, cross_run_mm: float) -> dict[str, Value]:
    """Return the steepest fall of a surface that falls two ways, and the drop to its far corner.

    Source: definition
    """
    if min(one_in, cross_one_in) <= 0.0 or min(run_mm, cross_run_mm) < 0.0:
        message = "Both falls are 1 in a number above zero, and both runs are lengths."
        raise SumRefusedError(message)
    steepest = steepest_of(1.0 / one_in, 1.0 / cross_one_in)
    return {
        "steepest_one_in": 1.0 / steepest,
        "turned_deg": math.degrees(math.atan2(1.0 / cross_one_in, 1.0 / one_in)),
        "far_corner_drop_mm": run_mm / one_in + cross_run_mm / cross_one_in,
    }


def level_below_dpc(dpc_mm: float, below_mm: float) -> dict[str, Value]:
    """Return the highest finished level beside a wall.

    Source: surveyor_2011
    """
    if below_mm < 0.0:
        message = "Paving lies below the damp-proof course: give below_mm as a number of zero or more."
        raise SumRefusedError(message)
    return {"finished_mm": highest_beside_wall_mm(dpc_mm, below_mm)}


def risers(rise_mm: float, wanted_mm: float, max_mm: float, going_mm: float) -> dict[str, Value]:
    """Return the number and height of equal risers, and the pace that they make.

    Source: definition
    """
    if min(rise_mm, wanted_mm, max_mm, going_mm) <= 0.0:
        message = "Rise, risers and going are all more than zero."
        raise SumRefusedError(message)
    count = riser_count(rise_mm, wanted_mm, max_mm)
    return {
        "risers": float(count),
        "riser_mm": rise_mm / count,
        "two_risers_and_going_mm": pace_mm(rise_mm / count, going_mm),
        "flight_mm": flight_mm(count, going_mm),
    }


def plane_fit(x: tuple[float, ...], y: tuple[float, ...], level: tuple[float, ...]) -> dict[str, Value]:
    """Return the plane that fits readings best and how far they lie off it.

    Source: definition, normal equations of least squares
    """
    if not len(x) == len(y) == len(level):
        message = "Give as many x as y and as many levels."
        raise SumRefusedError(message)
    try:
        plane = fit_plane(list(zip(x, y, level, strict=True)))
    except ValueError as fault:
        message = f"{str(fault).capitalize()}."
        raise SumRefusedError(message) from fault
    residuals = tuple(z - plane.level_at((a, b)) for a, b, z in zip(x, y, level, strict=True))
    spare = len(x) - 3
    answers: dict[str, Value] = {
        "level_at_origin": plane.level_at((0.0, 0.0)),
        "slope_x": plane.slope_x,
        "slope_y": plane.slope_y,
        "lowest_residual": min(residuals),
        "highest_residual": max(residuals),
        "scatter": math.sqrt(sum(each * each for each in residuals) / spare) if spare else 0.0,
    }
    return answers


SUMS: tuple[Sum, ...] = (
    Sum(
        "fall",
        "Find how far a surface drops over a run",
        (
            Quantity("run_mm", "mm", "run along the fall"),
            Quantity("one_in", "", "n of 1 in n", figure="levels.main_fall_one_in"),
        ),
        (
            Quantity("drop_mm", "mm", "drop"),
            Quantity("percent", "%", "the fall in a hundred"),
            Quantity("mm_per_m", "mm", "drop in each metre"),
        ),
        "drop = run / n",
        "definition",
        fall,
    ),
    Sum(
        "fall-between-levels",
        "Find the fall between two levels",
        (
            Quantity("high_mm", "mm", "level of the high edge"),
            Quantity("low_mm", "mm", "level of the low edge"),
            Quantity("run_mm", "mm", "plan distance between them, along the fall"),
        ),
        (
            Quantity("drop_mm", "mm", "difference"),
            Quantity("one_in", "", "n of 1 in n; negative where it rises"),
            Quantity("percent", "%", "the fall in a hundred"),
        ),
        "fall = (high − low) / run",
        "definition",
        fall_between_levels,
    ),
    Sum(
        "two-way-fall",
        "Find the steepest fall and the far corner of a surface that falls two ways",
        (
            Quantity("one_in", "", "n of the main fall"),
            Quantity("cross_one_in", "", "n of the cross fall"),
            Quantity("run_mm", "mm", "run along the main fall", default=0.0),
            Quantity("cross_run_mm", "mm", "run along the cross fall", default=0.0),
        ),
        (
            Quantity("steepest_one_in", "", "n of the steepest fall"),
            Quantity("turned_deg", "deg", "how far it is turned from the main fall"),
            Quantity("far_corner_drop_mm", "mm", "drop to the corner opposite"),
        ),
        "1/n = √(1/a² + 1/b²); drop = run/a + cross run/b",
        "definition",
        two_way_fall,
    ),
    Sum(
        "level-below-dpc",
        "Find the highest finished level beside a house wall",
        (
            Quantity("dpc_mm", "mm", "level of the damp-proof course"),
            Quantity("below_mm", "mm", "how far below it the paving stays", figure="levels.below_dpc_mm"),
        ),
        (Quantity("finished_mm", "mm", "highest finished level"),),
        "finished = dpc − below",
        "surveyor_2011; common practice",
        level_below_dpc,
    ),
    Sum(
        "risers",
        "Find the number and height of equal risers",
        (
            Quantity("rise_mm", "mm", "total rise from foot to top"),
            Quantity("wanted_mm", "mm", "riser aimed at", figure="levels.riser_wanted_mm"),
            Quantity("max_mm", "mm", "highest riser", figure="levels.riser_max_mm"),
            Quantity("going_mm", "mm", "going of each tread", figure="levels.going_mm"),
        ),
        (
            Quantity("risers", "", "number of risers"),
            Quantity("riser_mm", "mm", "height of each"),
            Quantity("two_risers_and_going_mm", "mm", "the pace they make"),
            Quantity("flight_mm", "mm", "length of the flight in plan"),
        ),
        "riser = rise / number",
        "definition; common practice for the riser aimed at; building_code_australia, highest riser",
        risers,
    ),
    Sum(
        "plane-fit",
        "Find the plane that fits readings best",
        (
            Quantity("x", "", "first coordinate of each reading", kind="numbers"),
            Quantity("y", "", "second coordinate of each reading", kind="numbers"),
            Quantity("level", "", "level of each reading", kind="numbers"),
        ),
        (
            Quantity("level_at_origin", "", "level of the plane where both coordinates are zero"),
            Quantity("slope_x", "", "rise per run along the first coordinate"),
            Quantity("slope_y", "", "rise per run along the second"),
            Quantity("lowest_residual", "", "reading furthest below the plane"),
            Quantity("highest_residual", "", "reading furthest above it"),
            Quantity("scatter", "", "standard deviation about the plane"),
        ),
        "level = c + a·x + b·y, squares of the differences least",
        "definition, normal equations of least squares",
        plane_fit,
    ),
)
