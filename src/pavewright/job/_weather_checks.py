"""The weather of a job: months that stand twice or hold too many days, temperatures of areas that are not there."""

from __future__ import annotations

import calendar
from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job

_LEAP_YEAR = 2024


def weather_faults(job: Job) -> Iterator[Fault]:
    """Give months and temperatures that make no sense together."""
    months: set[int] = set()
    for number, row in enumerate(job.calendar.weather):
        path = f"calendar.weather.{number}"
        name, length = calendar.month_name[row.month], calendar.monthrange(_LEAP_YEAR, row.month)[1]
        if row.month in months:
            yield Fault(f"{path}.month", f"{name} stands in the table of weather already: keep one of the two.")
        months.add(row.month)
        for field in ("wet_days", "frost_days", "hot_days"):
            days = getattr(row, field)
            if days is not None and days > length:
                yield Fault(f"{path}.{field}", f"{name} has {length} days: count them again.")
    names = {area.name for area in job.areas}
    met: set[str] = set()
    for number, bay in enumerate(job.calendar.bay_temperatures):
        path = f"calendar.bay_temperatures.{number}.area"
        if bay.area not in names:
            yield Fault(path, f"No area is called {bay.area}: write the name of one.")
        if bay.area in met:
            yield Fault(path, f"{bay.area} has a temperature already: keep one of the two.")
        met.add(bay.area)
