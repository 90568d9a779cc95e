"""From daily weather to a table of months: how many days are wet, frosty or hot in the mean, and how warm it is."""

from __future__ import annotations

import calendar
import math
from typing import TYPE_CHECKING

from pavewright.job import MonthWeather
from pavewright.programme._figures import programme_figures

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.programme._weather_day import WeatherDay
    from pavewright.rules import Rulebook

_MONTHS = range(1, 13)
_MIN_READ = 20
"""So few days of a month say nothing about it. [days]"""


def month_table(days: Sequence[WeatherDay], rules: Rulebook) -> tuple[MonthWeather, ...]:
    """Return the mean weather of each month; a month with fewer than twenty days read is left out.

    A day is wet, frosty or hot by the figures of the rulebook. What too few days of a month say stays unknown.

    Args:
        days: Days, of any years.
        rules: The rulebook.

    Source: definition, part of the days that were read times the days of the month
    """
    figures = programme_figures(rules)
    hot = rules.table("programme.gate_joint_hot").rows[0].value("limit_c")
    found = []
    for month in _MONTHS:
        own = [day for day in days if day.on.month == month]
        length = _mean([float(calendar.monthrange(day.on.year, month)[1]) for day in own])
        row = MonthWeather(
            month=month,
            wet_days=_days(own, length, lambda day: _at_least(day.rain_mm, figures.wet_day_mm.value)),
            frost_days=_days(own, length, lambda day: _at_most(day.min_c, figures.cure_freezing_c.value)),
            hot_days=_days(own, length, lambda day: _at_least(day.max_c, hot)),
            mean_c=_mean(
                [(day.min_c + day.max_c) / 2.0 for day in own if day.min_c is not None and day.max_c is not None]
            ),
        )
        if any(each is not None for each in (row.wet_days, row.frost_days, row.hot_days, row.mean_c)):
            found.append(row)
    return tuple(found)


def _at_least(value: float | None, limit: float) -> bool | None:
    return None if value is None else value >= limit


def _at_most(value: float | None, limit: float) -> bool | None:
    return None if value is None else value <= limit


def _days(days: Sequence[WeatherDay], length: float | None, holds: Callable[[WeatherDay], bool | None]) -> float | None:
    known = [each for each in map(holds, days) if each is not None]
    if len(known) < _MIN_READ or length is None:
        return None
    return round(length * sum(known) / len(known), 1)


def _mean(values: Sequence[float]) -> float | None:
    return round(math.fsum(values) / len(values), 1) if len(values) >= _MIN_READ else None
