"""A day of weather as it was read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt


@dataclass(frozen=True, slots=True)
class WeatherDay:
    """The weather of a day.

    Attributes:
        on: The day.
        rain_mm: Rain; None where it is not given. [mm]
        min_c: Coldest; None where it is not given. [°C]
        max_c: Warmest; None where it is not given. [°C]
    """

    on: dt.date
    rain_mm: float | None
    min_c: float | None
    max_c: float | None
