"""Sums of errors: tapes laid end to end, two tapes, a right angle, and a test of a level."""

from __future__ import annotations

import math

import numpy as np

from pavewright import units
from pavewright.job.on_site import SquareTool
from pavewright.setting_out.errors._level_test import level_test
from pavewright.setting_out.errors._spread import (
    Readings,
    Spread,
    chain_sd_mm,
    square_spread,
    triangle_partials,
    two_tapes_spread,
)
from pavewright.setting_out.errors._tool_errors import ToolErrors
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey.tapes import two_tape_intersection

_FEW = 3


def _tools(sd_mm: float, square_sd_deg: float | None = None) -> ToolErrors:
    """Return tools whose tape errs alike at every length and whose marks are without error."""
    return ToolErrors(
        tape=None,
        tape_read_sd_mm=sd_mm,
        tape_fixed_mm=0.0,
        tape_per_m_mm=0.0,
        tape_length_mm=math.inf,
        square=SquareTool.TAPE_TRIANGLE if square_sd_deg is None else SquareTool.BUILDERS_SQUARE,
        square_sd_deg=square_sd_deg,
        level=None,
        level_sd_mm=0.0,
        mark_sd_mm=0.0,
        string_kg_per_km=0.0,
        string_pull_kg=0.0,
    )


def _still(x_mm: float) -> Spread:
    return Spread((x_mm, 0.0), np.zeros((2, 1)))


def tape_chain(distance_mm: float, tape_mm: float, one_sd_mm: float) -> dict[str, Value]:
    """Return the error of a distance taped in several lengths, at random and where each length is wrong alike.

    Source: tape_chain
    """
    if min(distance_mm, tape_mm) <= 0.0 or one_sd_mm < 0.0:
        message = "Distance and tape are longer than zero, and an error is not less than zero."
        raise SumRefusedError(message)
    lengths = math.ceil(distance_mm / tape_mm - 1e-9)
    return {
        "lengths": float(lengths),
        "sd_mm": chain_sd_mm(one_sd_mm, lengths),
        "straight_mm": one_sd_mm * lengths,
    }


def two_tapes_error(base_mm: float, first_mm: float, second_mm: float, sd_mm: float) -> dict[str, Value]:
    """Return where two tapes from a base line meet, and how far off that place is expected to be.

    Source: on_site_errors, two distances
    """
    if min(base_mm, first_mm, second_mm) <= 0.0 or sd_mm < 0.0:
        message = "The base line and both tapes are longer than zero, and an error is not less than zero."
        raise SumRefusedError(message)
    met = two_tape_intersection((0.0, 0.0), (base_mm, 0.0), first_mm, second_mm)
    if met is None or math.sin(math.radians(met.angle_deg)) < 1e-6:  # noqa: PLR2004 - in one line
        message = "The two tapes do not meet, or lie in one line: measure them again."
        raise SumRefusedError(message)
    spread = two_tapes_spread(Readings(_tools(sd_mm)), _still(0.0), _still(base_mm), met.left)
    sd_x, sd_y = np.sqrt(np.diag(spread.covariance_mm2))
    return {
        "x_mm": met.left[0],
        "y_mm": met.left[1],
        "cut_deg": met.angle_deg,
        "sd_x_mm": float(sd_x),
        "sd_y_mm": float(sd_y),
        "radial_sd_mm": spread.radial_mm,
    }


def square_error(offset_mm: float, square_sd_deg: float, tape_sd_mm: float) -> dict[str, Value]:
    """Return how far off a place squared off a line is expected to be, along the line and away from it.

    Source: on_site_errors, offset by square
    """
    if offset_mm <= 0.0 or min(square_sd_deg, tape_sd_mm) < 0.0:
        message = "The offset is longer than zero, and errors are not less than zero."
        raise SumRefusedError(message)
    # an end far away and without error: the line itself does not turn
    base = _still(0.0), _still(offset_mm)
    spread = square_spread(Readings(_tools(tape_sd_mm, square_sd_deg)), base, offset_mm, offset_mm)
    along, off = np.sqrt(np.diag(spread.covariance_mm2))
    return {"along_sd_mm": float(along), "off_sd_mm": float(off)}


def triangle_error(
    side_a_mm: float, side_b_mm: float, tape_sd_mm: float, reach_mm: float, across_long_mm: float
) -> dict[str, Value]:
    """Return how far a right angle set out by a triangle of tapes may be turned, and how far off that is at a distance.

    Source: on_site_errors, d(angle)/d(sides)
    """
    if min(side_a_mm, side_b_mm) <= 0.0 or min(tape_sd_mm, reach_mm) < 0.0:
        message = "Both sides are longer than zero; an error and a reach are not less than zero."
        raise SumRefusedError(message)
    partials = triangle_partials(side_a_mm, side_b_mm, math.hypot(side_a_mm, side_b_mm))
    turned = tape_sd_mm * math.hypot(*partials)
    return {
        "by_side_a": units.m_to_mm(partials[0]),
        "by_side_b": units.m_to_mm(partials[1]),
        "by_across": units.m_to_mm(partials[2]),
        "sd_deg": math.degrees(turned),
        "off_mm": reach_mm * turned,
        "turned_rad": partials[2] * across_long_mm,
    }


def level_field_test(middle_mm: tuple[float, ...], one_end_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return what differences of height read again and again show of a level.

    Source: iso_17123_2, simplified test
    """
    if len(middle_mm) < _FEW:
        message = "Read the difference from the middle three times or more; ten times is usual."
        raise SumRefusedError(message)
    found = level_test(middle_mm, one_end_mm)
    verdict = "not read from one end" if found.passes is None else "passes" if found.passes else "adjust the level"
    return {
        "mean_mm": found.mean_mm,
        "sd_mm": found.sd_mm,
        "limit_mm": found.limit_mm,
        "per_km_mm": found.per_km_mm,
        "verdict": verdict,
    }


ERROR_SUMS: tuple[Sum, ...] = (
    Sum(
        "tape-chain",
        "Find the error of a distance taped in several lengths",
        (
            Quantity("distance_mm", "mm", "the whole distance"),
            Quantity("tape_mm", "mm", "one length of the tape"),
            Quantity("one_sd_mm", "mm", "standard deviation of one length"),
        ),
        (
            Quantity("lengths", "", "how often the tape is laid down"),
            Quantity("sd_mm", "mm", "standard deviation of the distance where errors differ by chance"),
            Quantity("straight_mm", "mm", "its error where every length is wrong alike, as by a wrong tape"),
        ),
        "by chance: s·√n; alike: s·n",
        "tape_chain",
        tape_chain,
    ),
    Sum(
        "two-tapes-error",
        "Find how near a place comes that two tapes fix",
        (
            Quantity("base_mm", "mm", "between the two ends; it lies along x"),
            Quantity("first_mm", "mm", "tape from the first end"),
            Quantity("second_mm", "mm", "tape from the second end"),
            Quantity("sd_mm", "mm", "standard deviation of each tape"),
        ),
        (
            Quantity("x_mm", "mm", "where they meet, along the base line"),
            Quantity("y_mm", "mm", "where they meet, to its left"),
            Quantity("cut_deg", "deg", "angle at which they cross"),
            Quantity("sd_x_mm", "mm", "standard deviation along the base line"),
            Quantity("sd_y_mm", "mm", "standard deviation square to it"),
            Quantity("radial_sd_mm", "mm", "root of the sum of both variances: s·√2 / sin of the angle"),
        ),
        "A·dX = dr, with A the directions of the tapes",
        "on_site_errors, two distances",
        two_tapes_error,
    ),
    Sum(
        "square-offset-error",
        "Find how near a place comes that is squared off a line",
        (
            Quantity("offset_mm", "mm", "distance off the line"),
            Quantity("square_sd_deg", "deg", "standard deviation of the right angle"),
            Quantity("tape_sd_mm", "mm", "standard deviation of each tape"),
        ),
        (
            Quantity("along_sd_mm", "mm", "standard deviation along the line"),
            Quantity("off_sd_mm", "mm", "standard deviation away from it"),
        ),
        "along: √(s² + (y·ε)²); away: s",
        "on_site_errors, offset by square",
        square_error,
    ),
    Sum(
        "three-four-five-error",
        "Find how near a right angle comes by a triangle of tapes",
        (
            Quantity("side_a_mm", "mm", "side along the line"),
            Quantity("side_b_mm", "mm", "side square to it"),
            Quantity("tape_sd_mm", "mm", "standard deviation of each side"),
            Quantity("reach_mm", "mm", "how far out the line is carried on", default=0.0),
            Quantity("across_long_mm", "mm", "how much too long the side across was held", default=0.0),
        ),
        (
            Quantity("by_side_a", "rad/m", "turn of the angle for each metre of side A"),
            Quantity("by_side_b", "rad/m", "turn of the angle for each metre of side B"),
            Quantity("by_across", "rad/m", "turn of the angle for each metre of the side across"),
            Quantity("sd_deg", "deg", "standard deviation of the angle"),
            Quantity("off_mm", "mm", "how far off that is where the line ends"),
            Quantity("turned_rad", "rad", "turn by the side across alone"),
        ),
        "dC = (c·dc − a·da − b·db) / ab",
        "on_site_errors, d(angle)/d(sides)",
        triangle_error,
    ),
    Sum(
        "level-field-test",
        "Test a level by reading one difference again and again",
        (
            Quantity("middle_mm", "mm", "differences read from the middle of 60 m", "numbers"),
            Quantity("one_end_mm", "mm", "differences read from beside one end", "numbers", ()),
        ),
        (
            Quantity("mean_mm", "mm", "mean of those from the middle"),
            Quantity("sd_mm", "mm", "their standard deviation"),
            Quantity("limit_mm", "mm", "by so much the two means may differ"),
            Quantity("per_km_mm", "mm", "standard deviation of a kilometre levelled there and back"),
            Quantity("verdict", "", "whether the two means agree", "word"),
        ),
        "limit 2.5·s; a kilometre there and back √(1000/120)·s",
        "iso_17123_2, simplified test",
        level_field_test,
    ),
)
