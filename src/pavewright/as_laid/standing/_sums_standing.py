"""Sums of dips, lips and estimates between readings, by closed forms."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.as_laid.standing._roughness import Likeness, Roughness
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def dish_on_a_fall(depth_mm: float, radius_mm: float, one_in: float) -> dict[str, Value]:
    """Return what stands in a round dish on a fall: a parabola of revolution laid on a plane.

    The plane shifts the lowest place of the bowl and lowers its rim; what stands is the same bowl cut by a level that
    much lower, with its radius as much smaller.

    Valid for: a dish that ends on all sides in an even plane; levels exact.
    Source: definition, a parabola plus a plane is the same parabola shifted
    """
    if min(depth_mm, radius_mm, one_in) <= 0.0:
        message = "Depth, radius and n of 1 in n are more than zero."
        raise SumRefusedError(message)
    part = max(1.0 - radius_mm / one_in / (2.0 * depth_mm), 0.0)
    volume_m3 = math.pi / 2.0 * units.mm3_to_m3(radius_mm**2 * depth_mm) * part**4
    return {
        "stands_mm": depth_mm * part**2,
        "litres": volume_m3 * units.LITRES_PER_M3,
        "across_mm": 2.0 * radius_mm * part,
        "clears_at_one_in": radius_mm / (2.0 * depth_mm),
        "v_clears_from_mm": 2.0 * depth_mm * one_in,
    }


def lip_across_a_fall(lip_mm: float, one_in: float) -> dict[str, Value]:
    """Return the water that a raised lip across the fall holds back.

    Valid for: a lip right across; an even plane above it.
    Source: definition, a wedge of water behind the lip
    """
    if lip_mm < 0.0 or one_in <= 0.0:
        message = "The lip is not less than zero and n of 1 in n is more."
        raise SumRefusedError(message)
    back_mm = lip_mm * one_in
    area_m2 = units.mm2_to_m2(lip_mm * back_mm / 2.0)
    return {"back_mm": back_mm, "litres_per_m": area_m2 * units.LITRES_PER_M3}


def gap_of_a_curve(chord_mm: float, radius_mm: float) -> dict[str, Value]:
    """Return the gap in the middle of a straight edge over a hollow of even curvature.

    Valid for: a chord much shorter than the radius; then exact to the square of their ratio.
    Source: definition, sagitta of a circle
    """
    if chord_mm < 0.0 or radius_mm <= 0.0 or chord_mm > 2.0 * radius_mm:
        message = "The edge is not longer than the circle is wide."
        raise SumRefusedError(message)
    half = chord_mm / 2.0
    return {"gap_mm": radius_mm - math.sqrt(radius_mm**2 - half**2), "nearly_mm": chord_mm**2 / (8.0 * radius_mm)}


def level_between_readings(
    eastings_mm: tuple[float, ...],
    northings_mm: tuple[float, ...],
    levels_mm: tuple[float, ...],
    east_mm: float,
    north_mm: float,
    sill_mm2: float,
    reach_mm: float,
    likeness: str,
    reading_sd_mm: float,
) -> dict[str, Value]:
    """Return the level at one place by ordinary kriging, with its variance and the weight of every reading.

    Source: isaaks_srivastava, ordinary kriging, worked example with seven samples
    """
    from pavewright.as_laid.standing._kriging import estimate  # noqa: PLC0415 - a solver, loaded by who asks

    count = len(levels_mm)
    if not count == len(eastings_mm) == len(northings_mm) or count < 1:
        message = "Give east, north and level for every reading."
        raise SumRefusedError(message)
    if min(sill_mm2, reach_mm) <= 0.0 or reading_sd_mm < 0.0 or count > _MOST:
        message = f"Sill and reach are more than zero, the error is not less, and readings are {_MOST} at most."
        raise SumRefusedError(message)
    places = list(zip(eastings_mm, northings_mm, strict=True))
    rough = Roughness(math.sqrt(sill_mm2), reach_mm, Likeness(likeness))
    try:
        level, variance, weights = estimate(places, levels_mm, (east_mm, north_mm), rough, reading_sd_mm)
    except ValueError as problem:
        message = f"It cannot be estimated: {problem}."
        raise SumRefusedError(message) from problem
    return {"level_mm": level, "variance_mm2": variance, "sd_mm": math.sqrt(variance), "weights": weights}


_MOST = 500

SUMS: tuple[Sum, ...] = (
    Sum(
        "dish-on-a-fall",
        "Find what stands in a dip on paving that falls",
        (
            Quantity("depth_mm", "mm", "depth of the dish under a straight edge"),
            Quantity("radius_mm", "mm", "from its middle to its rim"),
            Quantity("one_in", "", "n of 1 in n, the fall"),
        ),
        (
            Quantity("stands_mm", "mm", "depth of the water that stands; zero where it clears"),
            Quantity("litres", "l", "water in it"),
            Quantity("across_mm", "mm", "how far across it is wet"),
            Quantity("clears_at_one_in", "", "n of 1 in n: at this fall and steeper a round dish clears"),
            Quantity("v_clears_from_mm", "mm", "a V-shaped dip of this depth clears from this width"),
        ),
        "clears if S ≥ 2·d/a; else depth = d·(1 − S·a/2d)², volume = π/2·a²·d·(1 − S·a/2d)⁴",
        "definition",
        dish_on_a_fall,
    ),
    Sum(
        "lip-across-a-fall",
        "Find the water that a raised edge across the fall holds back",
        (
            Quantity("lip_mm", "mm", "how far the edge stands up"),
            Quantity("one_in", "", "n of 1 in n, the fall towards it"),
        ),
        (
            Quantity("back_mm", "mm", "how far the water reaches back"),
            Quantity("litres_per_m", "l", "water behind each metre of it"),
        ),
        "back = lip / S; volume = lip² / (2·S)",
        "definition",
        lip_across_a_fall,
    ),
    Sum(
        "gap-of-a-curve",
        "Find the gap under a straight edge on a hollow of even curvature",
        (
            Quantity("chord_mm", "mm", "length of the straight edge"),
            Quantity("radius_mm", "mm", "radius of the hollow"),
        ),
        (
            Quantity("gap_mm", "mm", "gap in the middle"),
            Quantity("nearly_mm", "mm", "the same by c² / 8R"),
        ),
        "gap = R − √(R² − (c/2)²) ≈ c² / 8R",
        "definition",
        gap_of_a_curve,
    ),
    Sum(
        "level-between-readings",
        "Estimate a level between readings, with how far it may be off",
        (
            Quantity("eastings_mm", "mm", "east of the readings", kind="numbers"),
            Quantity("northings_mm", "mm", "north of the readings", kind="numbers"),
            Quantity("levels_mm", "mm", "what was read", kind="numbers"),
            Quantity("east_mm", "mm", "east of the place"),
            Quantity("north_mm", "mm", "north of the place"),
            Quantity("sill_mm2", "mm2", "variance of the surface about its mean"),
            Quantity("reach_mm", "mm", "how far likeness reaches"),
            Quantity("likeness", "", "how likeness falls off", kind="word", choices=tuple(Likeness)),
            Quantity("reading_sd_mm", "mm", "standard deviation of a reading", default=0.0),
        ),
        (
            Quantity("level_mm", "mm", "level estimated"),
            Quantity("variance_mm2", "mm2", "variance of the estimate"),
            Quantity("sd_mm", "mm", "standard deviation of the estimate"),
            Quantity("weights", "", "weight of every reading", kind="numbers"),
        ),
        "C·w + μ = c₀, Σw = 1; level = Σw·z; variance = C(0) − w·c₀ − μ",
        "isaaks_srivastava",
        level_between_readings,
    ),
)
"""Sums of standing water and of levels between readings."""
