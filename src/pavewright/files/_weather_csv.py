"""Daily weather as lines of text: a date, rain, the coldest and the warmest of each day."""

from __future__ import annotations

import csv
import datetime as dt
import io
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.files._read import FileRefusedError
from pavewright.programme import WeatherDay
from pavewright.writing import fahrenheit_to_celsius

if TYPE_CHECKING:
    from collections.abc import Iterator

MAX_DAYS = 40_000
"""A hundred years, and some more."""
_MAX_BYTES = 8 << 20
_MAX_CELL = 200
_BAD_SHOWN = 200
_EARLIEST, _LATEST = 1800, 2200
_COLDEST, _HOTTEST, _WETTEST = -90.0, 60.0, 2000.0
_DATE = "date"
_HEADINGS = {
    "date": (_DATE, ""),
    "day": (_DATE, ""),
    **dict.fromkeys(("rain_mm", "rain (mm)", "precipitation_mm", "precipitation (mm)"), ("rain", "mm")),
    **dict.fromkeys(("rain_in", "rain (in)", "precipitation_in", "precipitation (in)"), ("rain", "in")),
    **dict.fromkeys(("min_c", "min (°c)", "tmin_c", "min (c)"), ("min", "c")),
    **dict.fromkeys(("max_c", "max (°c)", "tmax_c", "max (c)"), ("max", "c")),
    **dict.fromkeys(("min_f", "min (°f)", "tmin_f", "min (f)"), ("min", "f")),
    **dict.fromkeys(("max_f", "max (°f)", "tmax_f", "max (f)"), ("max", "f")),
}
"""What a column holds and in which unit, by its heading in small letters: a unit is read, never guessed."""


@dataclass(frozen=True, slots=True)
class BadLine:
    """A line that was not taken over.

    Attributes:
        number: Its number in the file, from 1.
        said: Why, in a sentence.
    """

    number: int
    said: str


@dataclass(frozen=True, slots=True)
class DailyWeather:
    """What a file of daily weather holds.

    Attributes:
        days: Its days, the earliest first.
        bad: Lines that were not taken over, the first two hundred of them.
        bad_count: How many there are in all.
    """

    days: tuple[WeatherDay, ...]
    bad: tuple[BadLine, ...]
    bad_count: int


def read_weather_csv(content: bytes) -> DailyWeather:
    """Return the days of a file of daily weather; a line that makes no sense is reported and left out.

    The first line names the columns: date, and rain_mm or rain_in, min_c or min_f, max_c or max_f. Dates are written
    year first (2026-01-31), as no other order can be read in one way only. Commas, semicolons or tabs part the columns.

    Args:
        content: The file.

    Raises:
        FileRefusedError: it is too large, is no text, has no heading that says what it holds, or holds no day.
    """
    rows = _rows(content)
    number, heading = next(rows, (0, []))
    columns = _columns(heading)
    days: dict[dt.date, tuple[WeatherDay, int]] = {}
    bad: list[BadLine] = []
    for number, row in rows:
        try:
            day = _day(row, columns)
        except ValueError as problem:
            bad.append(BadLine(number, f"Line {number}: {problem}."))
            continue
        if day.on in days:
            said = f"Line {number}: {day.on.isoformat()} stands in line {days[day.on][1]} too, which was taken."
            bad.append(BadLine(number, said))
            continue
        days[day.on] = day, number
        if len(days) > MAX_DAYS:
            message = f"The file holds more than {MAX_DAYS} days: take the last thirty years."
            raise FileRefusedError(message)
    if not days:
        why = f" {bad[0].said}" if bad else ""
        message = f"The file holds no day of weather.{why}"
        raise FileRefusedError(message)
    return DailyWeather(tuple(days[each][0] for each in sorted(days)), tuple(bad[:_BAD_SHOWN]), len(bad))


def _rows(content: bytes) -> Iterator[tuple[int, list[str]]]:
    if len(content) > _MAX_BYTES:
        message = "The file is larger than 8 MB: take the last thirty years, one line a day."
        raise FileRefusedError(message)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        message = "The file is no text in UTF-8: save it as CSV in UTF-8."
        raise FileRefusedError(message) from None
    if "\0" in text:
        message = "The file is no text: save it as CSV."
        raise FileRefusedError(message)
    first = text.lstrip().partition("\n")[0]
    mark = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=False)
    try:
        for row in reader:
            cells = [cell.strip() for cell in row]
            if any(cells) and not cells[0].startswith("#"):
                yield reader.line_num, cells
    except csv.Error:
        message = f"Line {reader.line_num + 1} cannot be read as columns: a quotation mark is open, or it is too long."
        raise FileRefusedError(message) from None


def _columns(heading: list[str]) -> dict[str, tuple[int, str]]:
    """Return where each thing stands, and in which unit."""
    found: dict[str, tuple[int, str]] = {}
    for place, cell in enumerate(heading):
        known = _HEADINGS.get(cell.casefold())
        if known is None:
            continue
        if known[0] in found:
            message = f"Two columns hold the same: rename “{cell[:_MAX_CELL]}”, or delete the column."
            raise FileRefusedError(message)
        found[known[0]] = place, known[1]
    if _DATE not in found or len(found) == 1:
        message = (
            "The first line names the columns: date, and of rain_mm (or rain_in), min_c (or min_f) and max_c "
            "(or max_f) those that there are."
        )
        raise FileRefusedError(message)
    return found


def _day(row: list[str], columns: dict[str, tuple[int, str]]) -> WeatherDay:
    text = _cell(row, columns[_DATE][0])
    try:
        on = dt.date.fromisoformat(text)
    except ValueError:
        message = f"“{text[:40]}” is no date: write it as 2026-01-31"
        raise ValueError(message) from None
    if not _EARLIEST <= on.year <= _LATEST:
        message = f"{on.isoformat()} lies outside {_EARLIEST} to {_LATEST}: read the year again"
        raise ValueError(message)
    rain, low, high = (_number(row, columns.get(name), name) for name in ("rain", "min", "max"))
    if rain is None and low is None and high is None:
        message = "nothing was read on this day"
        raise ValueError(message)
    if rain is not None and not 0.0 <= rain <= _WETTEST:
        message = f"{rain:g} mm is no rain of a day: read it again"
        raise ValueError(message)
    if not all(each is None or _COLDEST <= each <= _HOTTEST for each in (low, high)):
        message = "no air is so cold or so warm: check that °C and °F are not mixed up"
        raise ValueError(message)
    if low is not None and high is not None and low > high:
        message = f"the coldest ({low:.1f} °C) is above the warmest ({high:.1f} °C): read both again"
        raise ValueError(message)
    return WeatherDay(on, rain, low, high)


def _cell(row: list[str], place: int) -> str:
    return row[place] if place < len(row) else ""


def _number(row: list[str], column: tuple[int, str] | None, name: str) -> float | None:
    text = "" if column is None else _cell(row, column[0])
    if column is None or text in {"", "-", "NA", "NaN", "nan"}:
        return None
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        message = f"“{text[:40]}” is no number for {name}: correct it, or leave it empty"
        raise ValueError(message)
    if column[1] == "in":
        return value * units.MM_PER_INCH
    return fahrenheit_to_celsius(value) if column[1] == "f" else value
