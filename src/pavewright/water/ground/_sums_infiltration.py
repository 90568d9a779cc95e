"""Sums of infiltration tests: several fills of a trial pit, several falls in a percolation hole."""

from __future__ import annotations

from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.ground._infiltration import hole_rate, pit_fills
from pavewright.water.ground._water_balance import SECONDS_PER_MINUTE

_HOLE_MM, _FALL_MM = 300.0, 150.0
"""The percolation hole of the short sum: side of the square, and fall of the water. [mm]"""


def trial_pit_fills(
    length_mm: float, width_mm: float, depth_mm: float, times_min: tuple[float, ...], fills: float
) -> dict[str, Value]:
    """Return the infiltration rate from several fills of one trial pit: the slowest counts for a soakaway.

    Each time is that of the fall from three quarters to one quarter of the depth.

    Source: bre_digest_365, f = V / (a·t), slowest of three

    >>> found = trial_pit_fills(1000.0, 750.0, 1000.0, (56.0, 55.0, 56.0), 3.0)
    >>> found["wetted_m2"], f"{found['slowest_m_per_s']:.3e}"
    (2.5, '4.464e-05')
    """
    if not times_min or min(length_mm, width_mm, depth_mm, *times_min) <= 0.0:
        message = "Length, width, depth and times are all more than zero: measure the pit and time it again."
        raise SumRefusedError(message)
    found = pit_fills(length_mm, width_mm, depth_mm, tuple(each * SECONDS_PER_MINUTE for each in times_min))
    return {
        "volume_m3": found.volume_m3,
        "wetted_m2": found.wetted_m2,
        "rates_m_per_s": found.rates_m_per_s,
        "slowest_m_per_s": found.slowest_m_per_s,
        "mean_m_per_s": sum(found.rates_m_per_s) / len(found.rates_m_per_s),
        "verdict": "complete" if len(times_min) >= fills else "fill it three times",
    }


def percolation_tests(
    times_s: tuple[float, ...],
    side_mm: float,
    drop_mm: float,
    field_min_s_per_mm: float,
    field_max_s_per_mm: float,
    soakaway_max_s_per_mm: float,
) -> dict[str, Value]:
    """Return what several falls in one percolation hole say: the mean for a drainage field, the slowest for a soakaway.

    Source: definition, water of the fall through wetted sides and base; approved_document_h2 for mean and limits

    >>> found = percolation_tests((2600.0, 2700.0, 2800.0), 300.0, 150.0, 12.0, 100.0, 140.0)
    >>> found["mean_s_per_mm"], f"{found['infiltration_m_per_s']:.3e}", f"{found['sides_only_m_per_s']:.3e}"
    (18.0, '1.786e-05', '2.679e-05')
    """
    if not times_s or min(side_mm, drop_mm, *times_s) <= 0.0:
        message = "Times, side and drop are more than zero: time the fall from three quarters to one quarter again."
        raise SumRefusedError(message)
    mean, slowest = sum(times_s) / len(times_s) / drop_mm, max(times_s) / drop_mm
    rate = hole_rate(side_mm, drop_mm, max(times_s))
    field = "works" if field_min_s_per_mm <= mean <= field_max_s_per_mm else "too slow"
    return {
        "values_s_per_mm": tuple(each / drop_mm for each in times_s),
        "mean_s_per_mm": mean,
        "slowest_s_per_mm": slowest,
        "infiltration_m_per_s": rate.all_m_per_s,
        "sides_only_m_per_s": rate.sides_m_per_s,
        "drainage_field": "too fast" if mean < field_min_s_per_mm else field,
        "soakaway": "can be sized" if slowest <= soakaway_max_s_per_mm else "too slow",
    }


def percolation(seconds: float, drop_mm: float) -> dict[str, Value]:
    """Return the percolation value and what it says of the ground, sides and base of a 300 mm hole counted.

    Source: definition, water of the middle half of the hole through its wetted sides and base
    """
    if seconds <= 0.0 or drop_mm <= 0.0:
        message = "Time and drop are more than zero: time the fall from three quarters to one quarter full again."
        raise SumRefusedError(message)
    per_mm = seconds / drop_mm
    rate = hole_rate(_HOLE_MM, _FALL_MM, per_mm * _FALL_MM)
    return {"s_per_mm": per_mm, "infiltration_m_per_s": rate.all_m_per_s, "sides_only_m_per_s": rate.sides_m_per_s}


def trial_pit(length_mm: float, width_mm: float, depth_mm: float, seconds: float) -> dict[str, Value]:
    """Return the infiltration rate from a trial pit, water falling from three quarters to one quarter of its depth.

    Source: definition, f = V / (a·t) with sides to half depth and base
    """
    if min(length_mm, width_mm, depth_mm, seconds) <= 0.0:
        message = "Length, width, depth and time are all more than zero: measure the pit and time it again."
        raise SumRefusedError(message)
    found = pit_fills(length_mm, width_mm, depth_mm, (seconds,))
    return {
        "volume_m3": found.volume_m3,
        "wetted_m2": found.wetted_m2,
        "infiltration_m_per_s": found.slowest_m_per_s,
    }


INFILTRATION_SUMS: tuple[Sum, ...] = (
    Sum(
        "percolation",
        "Find the percolation value from a timed hole",
        (
            Quantity("seconds", "s", "time of the fall"),
            Quantity("drop_mm", "mm", "fall of the water", default=150.0),
        ),
        (
            Quantity("s_per_mm", "s/mm", "percolation value"),
            Quantity("infiltration_m_per_s", "m/s", "rate through sides and base of a 300 mm hole"),
            Quantity("sides_only_m_per_s", "m/s", "rate if only the sides are counted"),
        ),
        "Vp = time / drop; f = 0.001 / (3·Vp)",
        "definition",
        percolation,
    ),
    Sum(
        "trial-pit",
        "Find the infiltration rate from a trial pit",
        (
            Quantity("length_mm", "mm", "length in plan"),
            Quantity("width_mm", "mm", "width in plan"),
            Quantity("depth_mm", "mm", "depth of water when full"),
            Quantity("seconds", "s", "time from three quarters to one quarter full"),
        ),
        (
            Quantity("volume_m3", "m3", "water that went in that time"),
            Quantity("wetted_m2", "m2", "sides to half depth, and base"),
            Quantity("infiltration_m_per_s", "m/s", "infiltration rate"),
        ),
        "f = V / (a · t)",
        "definition",
        trial_pit,
    ),
    Sum(
        "trial-pit-fills",
        "Find the infiltration rate from several fills of a trial pit",
        (
            Quantity("length_mm", "mm", "length in plan"),
            Quantity("width_mm", "mm", "width in plan"),
            Quantity("depth_mm", "mm", "depth of water when full"),
            Quantity("times_min", "min", "times from three quarters to one quarter full", kind="numbers"),
            Quantity("fills", "", "fills that a test takes", default=3.0, figure="water.pit_fills"),
        ),
        (
            Quantity("volume_m3", "m3", "water that went in each time"),
            Quantity("wetted_m2", "m2", "sides to half depth, and base"),
            Quantity("rates_m_per_s", "m/s", "rate of each fill", kind="numbers"),
            Quantity("slowest_m_per_s", "m/s", "slowest: for a soakaway"),
            Quantity("mean_m_per_s", "m/s", "mean, to compare"),
            Quantity("verdict", "", "complete, or fill it three times", kind="word"),
        ),
        "f = V / (a · t), base counted; slowest of three",
        "bre_digest_365",
        trial_pit_fills,
    ),
    Sum(
        "percolation-tests",
        "Find what several falls in a percolation hole say",
        (
            Quantity("times_s", "s", "times from three quarters to one quarter full", kind="numbers"),
            Quantity("side_mm", "mm", "side of the square hole", default=300.0),
            Quantity("drop_mm", "mm", "fall of the water, half the depth of the hole", default=150.0),
            Quantity("field_min_s_per_mm", "s/mm", "fastest ground of a drainage field", default=12.0),
            Quantity("field_max_s_per_mm", "s/mm", "slowest ground of a drainage field", default=100.0),
            Quantity("soakaway_max_s_per_mm", "s/mm", "slowest ground of a soakaway", default=140.0),
        ),
        (
            Quantity("values_s_per_mm", "s/mm", "percolation value of each fall", kind="numbers"),
            Quantity("mean_s_per_mm", "s/mm", "mean: for a drainage field"),
            Quantity("slowest_s_per_mm", "s/mm", "slowest: for a soakaway"),
            Quantity("infiltration_m_per_s", "m/s", "rate of the slowest through sides and base"),
            Quantity("sides_only_m_per_s", "m/s", "the same if only the sides are counted"),
            Quantity("drainage_field", "", "works, too fast or too slow", kind="word"),
            Quantity("soakaway", "", "can be sized, or too slow", kind="word"),
        ),
        "Vp = t / drop; f = V / (a · t)",
        "definition; approved_document_h2",
        percolation_tests,
    ),
)
