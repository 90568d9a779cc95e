"""Factors of storms read from the tables of the rulebook: one reading for sums and jobs."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.rules import UnknownFigureError
from pavewright.sums import FromTable, SumRefusedError
from pavewright.water.rain._storm_depths import StormFactors

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook, Table
    from pavewright.sums import Value

_FIVE_YEARS, _TEN_YEARS = 5.0, 10.0
Z1, Z2 = "water.z1", "water.z2"
"""Tables of the factors for the duration and for the return period."""


@dataclass(frozen=True, slots=True)
class StormTables:
    """Factors of storms by the tables of the rulebook.

    Attributes:
        z1: Factors for the duration, by the ratio r; a column for each duration.
        z2: Factors for the return period, by the five-year depth; a column for each period.
        columns_min: Column of each duration in the first table. [min]
        columns_years: Column of each return period in the second, rising. [years]
    """

    z1: Table
    z2: Table
    columns_min: Mapping[float, str]
    columns_years: Mapping[float, str]

    @property
    def ends_of_r(self) -> tuple[float, float]:
        """The smallest and the largest ratio r for which there are factors. [-]."""
        rows = self.z1.rows
        return float(rows[0].key), float(rows[-1].key)

    def hour_and_ten_years(self) -> tuple[Figure, Figure]:
        """Return the cells by which storms are cited: those of an hour and of ten years in the first rows."""
        return (
            self.z1.figure(self.z1.rows[0].key, self.columns_min[units.MINUTES_PER_HOUR]),
            self.z2.figure(self.z2.rows[0].key, self.columns_years[_TEN_YEARS]),
        )


def storm_tables(rules: Rulebook) -> StormTables:
    """Return the tables of factors, with the durations and the years for which their columns stand.

    Raises:
        UnknownFigureError: a table of an edition does not say for what its columns stand.
    """
    z1, z2 = rules.table(Z1), rules.table(Z2)
    for each in (z1, z2):
        if not each.numbers:
            message = f"table {each.key} of rulebook {rules.edition} does not say for which numbers its columns stand"
            raise UnknownFigureError(message)
    durations, years = ({number: name for name, number in table.numbers} for table in (z1, z2))
    return StormTables(z1, z2, durations, years)


@dataclass(frozen=True, slots=True)
class ReadFactors:
    """Factors of storms, and the cells of the rulebook's tables that went in.

    Attributes:
        factors: The factors.
        low: Cells of the row below.
        high: Cells of the row above.
        z2: Cells of the return period.
    """

    factors: StormFactors
    low: tuple[Figure, ...]
    high: tuple[Figure, ...]
    z2: tuple[Figure, ...]


def factors(r: float, durations_min: tuple[float, ...], years: float, tables: StormTables) -> ReadFactors:
    """Return the factors of storms.

    Between return periods Z2 is read along the logarithm of the years; past the longest it holds. For five years it is
    one by definition, whatever the table prints.

    Args:
        r: Ratio of the sixty-minute to the two-day depth, both of five years. [-]
        durations_min: Durations. [min]
        years: Return period. [years]
        tables: The tables Z1 and Z2.

    Source: flood_studies_report, factors Z1 and Z2

    Raises:
        SumRefusedError: the tables have no such ratio, duration or return period.
    """
    z1 = tables.z1
    low, high = _rows_around(z1, r)
    names = [_duration_column(each, tables) for each in durations_min]
    cells = {key: tuple(z1.figure(key, name) for name in names) for key in (low, high)}
    knots, z2, read = _z2(years, tables)
    z1_low, z1_high = (tuple(each.value for each in cells[key]) for key in (low, high))
    return ReadFactors(
        StormFactors((float(low), float(high)), z1_low, z1_high, knots, z2), cells[low], cells[high], read
    )


def factors_asked(given: Mapping[str, Value], rules: Rulebook) -> dict[str, FromTable]:
    """Return the factors for what a person gave to the sum of storm depths, by the names that it has for them."""
    r, durations, years = given["r"], given["durations_min"], given["years"]
    if not isinstance(r, float | int) or not isinstance(years, float | int) or not isinstance(durations, tuple):
        message = "Give r and years as numbers and the durations as a row."
        raise SumRefusedError(message)
    read = factors(float(r), tuple(float(each) for each in durations), float(years), storm_tables(rules))
    return {
        "rows_r": FromTable(read.factors.rows_r, (*read.low, *read.high)),
        "z1_low": FromTable(read.factors.z1_low, read.low),
        "z1_high": FromTable(read.factors.z1_high, read.high),
        "z2_m5_mm": FromTable(read.factors.z2_m5_mm, read.z2),
        "z2": FromTable(read.factors.z2, read.z2),
    }


def _rows_around(table: Table, r: float) -> tuple[str, str]:
    keys = [row.key for row in table.rows]
    for low, high in itertools.pairwise(keys):
        if float(low) <= r <= float(high):
            return low, high
    message = f"The rulebook's table has factors for r from {keys[0]} to {keys[-1]}; {r:g} is outside it."
    raise SumRefusedError(message)


def _duration_column(minutes: float, tables: StormTables) -> str:
    if minutes not in tables.columns_min:
        words = ", ".join(f"{each:g}" for each in tables.columns_min)
        message = f"The rulebook's table has factors for {words} min, not for {minutes:g}."
        raise SumRefusedError(message)
    return tables.columns_min[minutes]


def _z2(years: float, tables: StormTables) -> tuple[tuple[float, ...], tuple[float, ...], tuple[Figure, ...]]:
    """Return the five-year depths of the table, the factor of a return period at each, and its cells. [mm, -]."""
    table = tables.z2
    knots = tuple(float(row.key) for row in table.rows)
    if years == _FIVE_YEARS:
        return knots, (1.0,) * len(knots), ()
    columns = list(tables.columns_years.items())
    if years < columns[0][0]:
        message = f"The rulebook's table has factors for {columns[0][0]:g} years and longer, not for {years:g}."
        raise SumRefusedError(message)
    for (low, low_name), (high, high_name) in itertools.pairwise(columns):
        if low <= years <= high:
            share = math.log(years / low) / math.log(high / low)
            return knots, *_blended(table, low_name, high_name, share)
    return knots, *_blended(table, columns[-1][1], columns[-1][1], 0.0)


def _blended(table: Table, low: str, high: str, share: float) -> tuple[tuple[float, ...], tuple[Figure, ...]]:
    """Return the factors between two columns; where they lie on one, that alone is read."""
    names = [name for name, part in ((low, 1.0 - share), (high, share)) if part > 0.0]
    values = tuple(row.value(low) + (row.value(high) - row.value(low)) * share for row in table.rows)
    cells: list[Figure] = [table.figure(row.key, name) for name in names for row in table.rows]
    return values, tuple(cells)
