"""Daily weather: what is taken over, and what is reported."""

from __future__ import annotations

import datetime as dt

import pytest

from pavewright.files import FileRefusedError, read_weather_csv


def test_days_are_read_in_either_unit():
    found = read_weather_csv(b"date;rain_in;min_f;max_f;wind\n2026-01-02;0.5;32;50;3\n2026-01-01;;-;41;2\n")
    assert [each.on for each in found.days] == [dt.date(2026, 1, 1), dt.date(2026, 1, 2)]
    assert found.days[1].rain_mm == pytest.approx(12.7)
    assert (found.days[1].min_c, found.days[1].max_c) == (pytest.approx(0.0), pytest.approx(10.0))
    assert found.days[0].rain_mm is None
    assert found.bad == ()


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("31/01/2026,1,2,3", "is no date"),
        ("2026-01-02,-1,2,3", "no rain of a day"),
        ("2026-01-02,1,20,3", "above the warmest"),
        ("2026-01-02,1,32,99", "mixed up"),
        ("2026-01-02,nought,2,3", "is no number for rain"),
        ("2026-01-02,,,", "nothing was read"),
        ("0001-01-02,1,2,3", "read the year again"),
        ("2026-01-01,1,2,3", "stands in line 2 too"),
        ("2026-01-02,inf,2,3", "is no number"),
    ],
)
def test_a_bad_line_is_reported_and_the_rest_is_kept(line, part):
    found = read_weather_csv(f"date,rain_mm,min_c,max_c\n2026-01-01,1,2,3\n{line}\n".encode())
    assert len(found.days) == 1
    assert found.bad[0].number == 3
    assert part in found.bad[0].said
    assert found.bad_count == 1


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xfe\x00",
        b"date,rain\n2026-01-01,3\n",
        b"date,rain_mm,rain_in\n2026-01-01,3,3\n",
        b"date,rain_mm\n",
        b"date,rain_mm\nx,y\n",
        b"date\x00,rain_mm\n2026-01-01,3\n",
        b"x" * (9 << 20),
        b'date,rain_mm\n"' + b"9" * 200_000,
    ],
)
def test_a_file_that_says_nothing_is_refused_with_a_sentence(content):
    with pytest.raises(FileRefusedError, match=r"\w+ \w+ \w+"):
        read_weather_csv(content)


def test_thousands_of_bad_lines_are_counted_and_the_first_are_shown():
    found = read_weather_csv(b"date,rain_mm\n2026-01-01,1\n" + b"x,1\n" * 5000)
    assert (len(found.bad), found.bad_count) == (200, 5000)
