"""Sums of infiltration tests: several fills of a trial pit, several falls in a percolation hole."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_HALF = 0.5
_PIT_FILLS = 3


def trial_pit_fills(
    length_mm: float, width_mm: float, depth_mm: float, times_min: tuple[float, ...]
) -> dict[str, Value]:
    """Return the infiltration rate from several fills of one trial pit: the slowest counts for a soakaway.

    Each time is that of the fall from three quarters to one quarter of the depth. Water leaves through the sides to
    half the depth and through the base; when the soakaway is sized later the base is left out.

    Source: bre_digest_365, f = V / (a·t), slowest of three

    >>> found = trial_pit_fills(1000.0, 750.0, 1000.0, (56.0, 55.0, 56.0))
    >>> found["wetted_m2"], f"{found['slowest_m_per_s']:.3e}"
    (2.5, '4.464e-05')
    """
    if not times_min or min(length_mm, width_mm, depth_mm, *times_min) <= 0.0:
        message = "Length, width, depth and times are all more than nothing: measure the pit and time it again."
        raise SumRefusedError(message)
    volume = units.mm3_to_m3(length_mm * width_mm * depth_mm * _HALF)
    wetted = units.mm2_to_m2(length_mm * width_mm + (length_mm + width_mm) * depth_mm)
    seconds = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR
    rates = tuple(volume / (wetted * each * seconds) for each in times_min)
    return {
        "volume_m3": volume,
        "wetted_m2": wetted,
        "rates_m_per_s": rates,
        "slowest_m_per_s": min(rates),
        "mean_m_per_s": sum(rates) / len(rates),
        "verdict": "complete" if len(times_min) >= _PIT_FILLS else "fill it three times",
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

    The water falls from three quarters to one quarter of the depth of a square hole, so the depth is twice the fall and
    the sides are wetted to one fall on the mean. Other forms of the rate that differ tenfold are in print; this one is
    the geometry of the hole.

    Source: definition, water of the fall through wetted sides and base; percolation_note for mean and limits

    >>> found = percolation_tests((2600.0, 2700.0, 2800.0), 300.0, 150.0, 12.0, 100.0, 140.0)
    >>> found["mean_s_per_mm"], f"{found['infiltration_m_per_s']:.3e}", f"{found['sides_only_m_per_s']:.3e}"
    (18.0, '1.786e-05', '2.679e-05')
    """
    if not times_s or min(side_mm, drop_mm, *times_s) <= 0.0:
        message = "Times, side and drop are more than nothing: time the fall from three quarters to one quarter again."
        raise SumRefusedError(message)
    mean, slowest = sum(times_s) / len(times_s) / drop_mm, max(times_s) / drop_mm
    volume = units.mm3_to_m3(side_mm * side_mm * drop_mm)
    sides, base = units.mm2_to_m2(4.0 * side_mm * drop_mm), units.mm2_to_m2(side_mm * side_mm)
    field = "works" if field_min_s_per_mm <= mean <= field_max_s_per_mm else "too slow"
    return {
        "values_s_per_mm": tuple(each / drop_mm for each in times_s),
        "mean_s_per_mm": mean,
        "slowest_s_per_mm": slowest,
        "infiltration_m_per_s": volume / ((sides + base) * slowest * drop_mm),
        "sides_only_m_per_s": volume / (sides * slowest * drop_mm),
        "drainage_field": "too fast" if mean < field_min_s_per_mm else field,
        "soakaway": "can be sized" if slowest <= soakaway_max_s_per_mm else "too slow",
    }


INFILTRATION_SUMS: tuple[Sum, ...] = (
    Sum(
        "trial-pit-fills",
        "Find the infiltration rate from several fills of a trial pit",
        (
            Quantity("length_mm", "mm", "length in plan"),
            Quantity("width_mm", "mm", "width in plan"),
            Quantity("depth_mm", "mm", "depth of water when full"),
            Quantity("times_min", "min", "times from three quarters to one quarter full", kind="numbers"),
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
        "definition; percolation_note",
        percolation_tests,
    ),
)
