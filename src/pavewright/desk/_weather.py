"""Daily weather from a file, as the table of months of a job."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.files import FileRefusedError, read_weather_csv
from pavewright.programme import month_table

if TYPE_CHECKING:
    from pavewright.files import BadLine


@dataclass(frozen=True, slots=True)
class WeatherTold:
    """What a file of daily weather says.

    Attributes:
        weather: Rows for the calendar of a job, as they stand in its document.
        days: How many days were read.
        bad: Lines that were left out, the first of them.
        bad_count: How many were left out in all.
    """

    weather: tuple[dict[str, Any], ...]
    days: int
    bad: tuple[BadLine, ...]
    bad_count: int


def weather_told(content: bytes, locality: str = rulebook.NEUTRAL) -> WeatherTold:
    """Return the table of months of a file of daily weather, by the limits of the rulebook of a place.

    Raises:
        FileRefusedError: the file cannot be taken over; says where and why.
    """
    found = read_weather_csv(content)
    rows = month_table(found.days, rulebook.load(locality))
    if not rows:
        message = f"No month has enough days: {len(found.days)} were read, and a month is known from twenty on."
        raise FileRefusedError(message)
    return WeatherTold(tuple(row.model_dump(mode="json") for row in rows), len(found.days), found.bad, found.bad_count)
