"""Storms of a place by duration, from its five-year hour and the tables of the rulebook."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.water.rain._storm_depths import depths_of
from pavewright.water.rain._storm_factors import factors

if TYPE_CHECKING:
    from pavewright.job import Rain
    from pavewright.water.rain._storm_factors import StormTables


def storms(rain: Rain, tables: StormTables) -> tuple[tuple[float, float], ...]:
    """Return durations and depths of the storms of a return period. [min, mm].

    They are those of the sum of storm depths, with the rulebook's factors; a ratio past the ends of its table is taken
    as that of the end row. A table of the job's own goes before them.

    Source: flood_studies_report, depth = M5-60 · Z1 · Z2
    """
    more = 1.0 + rain.climate_percent / 100.0
    if rain.depths or rain.five_year_hour_mm is None or rain.hour_to_two_days is None:
        own = sorted(rain.depths, key=lambda row: row.duration_min)
        return tuple((row.duration_min, row.depth_mm * more) for row in own)
    low, high = tables.ends_of_r
    r = min(max(rain.hour_to_two_days, low), high)
    durations = tuple(tables.columns_min)
    read = factors(r, durations, rain.years, tables)
    depths = depths_of(rain.five_year_hour_mm, r, read.factors, rain.climate_percent).depth_mm
    return tuple(zip(durations, depths, strict=True))
