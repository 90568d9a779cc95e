"""Storms of a place by duration, from its five-year hour and the tables of the rulebook."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.water.rain._storm_factors import durations_of, ends_of_r, factors
from pavewright.water.rain._sums_storms import storm_depths

if TYPE_CHECKING:
    from pavewright.job import Rain
    from pavewright.rules import Rulebook
    from pavewright.sums import Value


def storms(rain: Rain, rules: Rulebook) -> tuple[tuple[float, float], ...]:
    """Return durations and depths of the storms of a return period. [min, mm].

    They are those of the sum of storm depths, with the rulebook's factors; a ratio past the ends of its table is taken
    as that of the end row. A table of the job's own goes before them.

    Source: flood_studies_report, depth = M5-60 · Z1 · Z2
    """
    more = 1.0 + rain.climate_percent / 100.0
    if rain.depths or rain.five_year_hour_mm is None or rain.hour_to_two_days is None:
        own = sorted(rain.depths, key=lambda row: row.duration_min)
        return tuple((row.duration_min, row.depth_mm * more) for row in own)
    low, high = ends_of_r(rules)
    r = min(max(rain.hour_to_two_days, low), high)
    durations = durations_of(rules)
    read = factors(r, durations, rain.years, rules)
    rows_r, z1_low, z1_high, z2_m5_mm, z2 = (
        _numbers(read[name].value) for name in ("rows_r", "z1_low", "z1_high", "z2_m5_mm", "z2")
    )
    depths = storm_depths(
        rain.five_year_hour_mm, r, durations, rows_r, z1_low, z1_high, z2_m5_mm, z2, rain.climate_percent
    )["depth_mm"]
    return tuple(zip(durations, _numbers(depths), strict=True))


def _numbers(row: Value) -> tuple[float, ...]:
    """Return a row of numbers as such."""
    return tuple(float(each) for each in row) if isinstance(row, tuple) else (float(row),)
