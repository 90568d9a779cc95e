"""Storms of a place by duration, from its five-year hour and the tables of the rulebook."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import Rain
    from pavewright.rules import Rulebook, Table

_FIVE_YEARS = 5.0


def storms(rain: Rain, rules: Rulebook) -> tuple[tuple[float, float], ...]:
    """Return durations and depths of the storms of a return period. [min, mm].

    The tables are read by straight lines between rows, and between return periods along the logarithm of the years. For
    five years the factor is one by definition, whatever the table prints.

    A table of the job's own goes before them.

    Source: flood_studies_report, depth = M5-60 · Z1 · Z2
    """
    more = 1.0 + rain.climate_percent / 100.0
    if rain.depths or rain.five_year_hour_mm is None or rain.hour_to_two_days is None:
        own = sorted(rain.depths, key=lambda row: row.duration_min)
        return tuple((row.duration_min, row.depth_mm * more) for row in own)
    z1 = rules.table("water.z1")
    found = []
    for name, _ in z1.columns:
        m5 = rain.five_year_hour_mm * _between_rows(z1, name, rain.hour_to_two_days)
        found.append((float(name.removeprefix("min_")), m5 * _years_factor(rain.years, m5, rules) * more))
    return tuple(found)


def _between_rows(table: Table, column: str, key: float) -> float:
    """Return a column of a table at a key between its rows; past the ends the end rows hold."""
    rows = [(float(row.key), row.value(column)) for row in table.rows]
    for (low, at_low), (high, at_high) in itertools.pairwise(rows):
        if low <= key <= high:
            return at_low + (at_high - at_low) * (key - low) / (high - low)
    return rows[0][1] if key < rows[0][0] else rows[-1][1]


def _years_factor(years: float, m5_mm: float, rules: Rulebook) -> float:
    if years == _FIVE_YEARS:
        return 1.0
    table = rules.table("water.z2")
    columns = [(float(name.removeprefix("years_")), name) for name, _ in table.columns]
    for (low, low_name), (high, high_name) in itertools.pairwise(columns):
        if low <= years <= high:
            share = math.log(years / low) / math.log(high / low)
            at_low, at_high = _between_rows(table, low_name, m5_mm), _between_rows(table, high_name, m5_mm)
            return at_low + (at_high - at_low) * share
    return _between_rows(table, columns[-1][1], m5_mm)
