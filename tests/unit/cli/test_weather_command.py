"""A table of months from a file of daily weather, on the command line."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

from click.testing import CliRunner

from pavewright.cli._weather import weather_command

TERRACE = Path(__file__).parents[3] / "examples" / "l_terrace.json"


def daily(tmp_path, *more):
    first = dt.date(2024, 5, 1)
    lines = [f"{first + dt.timedelta(days=n)},{3 if n % 2 else 0},{-1 if n < 3 else 4},{10}" for n in range(31)]
    path = tmp_path / "daily.csv"
    path.write_text("\n".join(["date,rain_mm,min_c,max_c", *lines, *more]), "utf-8")
    return path


def test_the_table_goes_into_a_job(tmp_path):
    found = CliRunner().invoke(weather_command, [str(daily(tmp_path, "x,1,2,3")), "--into", str(TERRACE)])
    assert found.exit_code == 0
    assert "is no date" in found.stderr
    assert "1 lines left out, 31 days read." in found.stderr
    weather = json.loads(found.stdout)["calendar"]["weather"]
    assert weather == [{"month": 5, "wet_days": 15.0, "frost_days": 3.0, "hot_days": 0.0, "mean_c": 6.8}]


def test_too_few_days_say_nothing_of_a_month(tmp_path):
    path = tmp_path / "short.csv"
    path.write_text("date,rain_mm\n" + "".join(f"2024-05-{n:02d},1\n" for n in range(1, 10)), "utf-8")
    found = CliRunner().invoke(weather_command, [str(path)])
    assert (found.exit_code, found.stdout) == (2, "")
    assert "No month has enough days: 9 were read" in found.stderr


def test_a_file_of_something_else_is_refused_with_a_sentence(tmp_path):
    path = tmp_path / "other.csv"
    path.write_text("name,price\nslab,4\n", "utf-8")
    found = CliRunner().invoke(weather_command, [str(path)])
    assert found.exit_code == 2
    assert "The first line names the columns" in found.stderr
