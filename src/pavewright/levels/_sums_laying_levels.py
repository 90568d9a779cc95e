"""Sums of what laying does to designed levels: twist under rigid slabs, whole millimetres, and scatter."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import LineString

from pavewright import units
from pavewright.flow import fill, rasterise, with_exit_line
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_SURE = 1.96
"""Standard deviations either side that hold 95 % of a normal distribution."""
_CELLS_A_SLAB = 12
"""Cells along a slab: enough for the hollow between its corners."""
_MAX_RUNS = 2000
_MAX_SLABS_LAID = 250_000
"""Slabs times trials that are worked out at most: some seconds."""


def bay_twist(
    corner_1_mm: float,
    corner_2_mm: float,
    corner_3_mm: float,
    corner_4_mm: float,
    bay_length_mm: float,
    bay_width_mm: float,
    slab_length_mm: float,
    slab_width_mm: float,
    lip_limit_mm: float,
) -> dict[str, Value]:
    """Return what the twist of a bay does to rigid slabs.

    The surface through four corners that do not lie in a plane, straight along every side, is z = t·x·y beside a plane.
    A slab that touches it at its middle lies in the tangent plane there: neighbours differ at the ends of their joint
    by half of t times length times width, and a slab held at three corners stands off at the fourth by all of it.

    Source: definition, hyperbolic paraboloid through four corners
    """
    if min(bay_length_mm, bay_width_mm, slab_length_mm, slab_width_mm, lip_limit_mm) <= 0.0:
        message = "Bay, slab and lip are all larger than zero."
        raise SumRefusedError(message)
    out_of_plane = corner_1_mm - corner_2_mm + corner_3_mm - corner_4_mm
    rate = abs(out_of_plane) / (bay_length_mm * bay_width_mm)
    lip = rate * slab_length_mm * slab_width_mm / 2.0
    largest = math.sqrt(2.0 * lip_limit_mm / rate) if rate > 0.0 else math.inf
    return {
        "out_of_plane_mm": out_of_plane,
        "rocks_mm": 2.0 * lip,
        "lip_mm": lip,
        "largest_square_slab_mm": largest if math.isfinite(largest) else "any",
        "verdict": "within the limit" if lip <= lip_limit_mm else "too much twist for this slab",
    }


def whole_millimetres(run_mm: float, one_in: float) -> dict[str, Value]:
    """Return what rounding both ends of a run to whole millimetres can do to its fall.

    Source: definition, half a millimetre at each end
    """
    if run_mm <= 0.0 or one_in <= 0.0:
        message = "The run is longer than zero, and n of 1 in n is more than zero."
        raise SumRefusedError(message)
    drop = run_mm / one_in
    return {
        "flattest_one_in": run_mm / (drop - 1.0) if drop > 1.0 else "level",
        "steepest_one_in": run_mm / (drop + 1.0),
        "mm_per_m": 1.0 / units.mm_to_m(run_mm),
    }


def standing_water_chance(
    one_in: float,
    run_mm: float,
    width_mm: float,
    slab_mm: float,
    corner_sd_mm: float,
    depth_mm: float,
    runs: float,
    seed: float,
) -> dict[str, Value]:
    """Return the chance that laying scatter leaves a puddle on a plane that drains over its low edge.

    Where slabs meet, their corners share an error; errors of different places are independent and normal. The surface
    is straight between the corners of each slab and closed on the other three sides. Filled from its low edge, it holds
    a puddle or does not; the share over many seeded trials is the chance.

    Valid for: whole slabs each way; scatter of corners as read after laying.
    Source: definition, Monte Carlo; barnes_2014 for the filling
    """
    if min(one_in, run_mm, width_mm, slab_mm, corner_sd_mm, depth_mm) <= 0.0 or not 1.0 <= runs <= _MAX_RUNS:
        message = f"All sizes are larger than zero, and between 1 and {_MAX_RUNS} trials are run."
        raise SumRefusedError(message)
    across, up = max(1, round(width_mm / slab_mm)), max(1, round(run_mm / slab_mm))
    if across * up * int(runs) > _MAX_SLABS_LAID:
        message = (
            f"{across} by {up} slabs laid {int(runs)} times are more than {_MAX_SLABS_LAID}: take fewer trials, or "
            f"check the size of the slab."
        )
        raise SumRefusedError(message)
    wide, deep = across * slab_mm, up * slab_mm
    plain = rasterise(shapely.box(0.0, 0.0, wide, deep), slab_mm / _CELLS_A_SLAB, lambda _, y: -y / one_in)
    plain = with_exit_line(plain, "low edge", LineString([(0.0, deep), (wide, deep)]))
    x, y = plain.centres()
    column = np.minimum((x / slab_mm).astype(np.int64), across - 1)
    row = np.minimum((y / slab_mm).astype(np.int64), up - 1)
    right, far = x / slab_mm - column, y / slab_mm - row
    chance = np.random.default_rng(int(seed))
    wet = 0
    for _ in range(int(runs)):
        error = chance.normal(0.0, corner_sd_mm, (up + 1, across + 1))
        raised = (
            error[row, column] * (1.0 - right) * (1.0 - far)
            + error[row, column + 1] * right * (1.0 - far)
            + error[row + 1, column] * (1.0 - right) * far
            + error[row + 1, column + 1] * right * far
        )
        filled = fill(replace(plain, levels_mm=plain.levels_mm + raised))
        wet += float(filled.depth_mm.max()) > depth_mm
    share = wet / int(runs)
    low, high = _interval(share, int(runs))
    return {"chance_percent": 100.0 * share, "low_percent": 100.0 * low, "high_percent": 100.0 * high}


def _interval(share: float, runs: int) -> tuple[float, float]:
    """Return the ends between which the true share lies with 95 % certainty.

    Source: wilson_1927, score interval
    """
    square = _SURE * _SURE
    middle = (share + square / (2.0 * runs)) / (1.0 + square / runs)
    half = _SURE / (1.0 + square / runs) * math.sqrt(share * (1.0 - share) / runs + square / (4.0 * runs * runs))
    return max(middle - half, 0.0), min(middle + half, 1.0)


SUMS = (
    Sum(
        "bay-twist",
        "Find what a twisted bay does to rigid slabs",
        (
            Quantity("corner_1_mm", "mm", "level of a corner"),
            Quantity("corner_2_mm", "mm", "level of the next one, going round"),
            Quantity("corner_3_mm", "mm", "level of the one opposite"),
            Quantity("corner_4_mm", "mm", "level of the last one"),
            Quantity("bay_length_mm", "mm", "length of the bay"),
            Quantity("bay_width_mm", "mm", "width of the bay"),
            Quantity("slab_length_mm", "mm", "length of a slab", default=600.0),
            Quantity("slab_width_mm", "mm", "width of a slab", default=600.0),
            Quantity("lip_limit_mm", "mm", "greatest lip between two slabs", figure="as_laid.step_between_units_mm"),
        ),
        (
            Quantity("out_of_plane_mm", "mm", "how far the four corners are from a plane, all at one corner"),
            Quantity("rocks_mm", "mm", "how far a slab held at three corners stands off at the fourth"),
            Quantity("lip_mm", "mm", "lip at the ends of a joint"),
            Quantity("largest_square_slab_mm", "mm", "largest square slab within the limit"),
            Quantity("verdict", "", "whether this slab keeps the limit", kind="word"),
        ),
        "t = |z1 − z2 + z3 − z4| / (L·W); lip = t·l·w / 2",
        "definition, hyperbolic paraboloid through four corners",
        bay_twist,
    ),
    Sum(
        "whole-millimetres",
        "Find what rounding to whole millimetres does to a fall",
        (
            Quantity("run_mm", "mm", "distance between the two levels along the fall"),
            Quantity("one_in", "", "n of the fall designed"),
        ),
        (
            Quantity("flattest_one_in", "", "n of the flattest fall that can result"),
            Quantity("steepest_one_in", "", "n of the steepest"),
            Quantity("mm_per_m", "mm/m", "by how much the fall can change"),
        ),
        "fall = (run/n ± 1) / run",
        "definition, half a millimetre at each end",
        whole_millimetres,
    ),
    Sum(
        "standing-water-chance",
        "Find the chance that laying scatter leaves a puddle",
        (
            Quantity("one_in", "", "n of the fall"),
            Quantity("run_mm", "mm", "length down the fall", default=4200.0),
            Quantity("width_mm", "mm", "width across the fall", default=5400.0),
            Quantity("slab_mm", "mm", "side of a slab", default=600.0),
            Quantity(
                "corner_sd_mm",
                "mm",
                "scatter of corners as laid, one standard deviation",
                figure="levels.laying_scatter_mm",
            ),
            Quantity("depth_mm", "mm", "a puddle counts when it is deeper than this", figure="levels.puddle_mm"),
            Quantity("runs", "", "number of trials", default=300.0),
            Quantity("seed", "", "start of the chance numbers", default=1.0),
        ),
        (
            Quantity("chance_percent", "%", "trials with a puddle"),
            Quantity("low_percent", "%", "lower end of what that says, 95 times in 100"),
            Quantity("high_percent", "%", "upper end"),
        ),
        "share of seeded trials whose filled surface holds a puddle",
        "definition, Monte Carlo; barnes_2014; wilson_1927",
        standing_water_chance,
    ),
)
