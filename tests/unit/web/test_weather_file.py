"""A file of daily weather over the web: its months, what was left out, and why a file is refused."""

from __future__ import annotations

import datetime as dt

import pytest

DAYS = [dt.date(2025, 1, 1) + dt.timedelta(days=number) for number in range(59)]
HEAD = "date;rain_mm;min_c;max_c"
LINES = [f"{day};{'6,5' if day.day % 4 == 0 else '0'};{-2 if day.month == 1 else 3};9" for day in DAYS]


def send(client, text, locality="england"):
    kind = {"Content-Type": "application/octet-stream"}
    return client.post(f"/api/weather?locality={locality}", content=text, headers=kind)


@pytest.mark.parametrize("locality", ["england", "elsewhere", "nowhere"])
def test_months_come_of_days(client, locality):
    told = send(client, "\n".join((HEAD, *LINES)), locality).json()
    assert (told["days"], told["bad_count"]) == (59, 0)
    january, february = told["weather"]
    assert (january["month"], january["wet_days"], january["frost_days"]) == (1, 7.0, 31.0)
    assert (february["month"], february["wet_days"], february["frost_days"]) == (2, 7.0, 0.0)
    assert january["mean_c"] == 3.5


def test_lines_that_make_no_sense_are_told_by_their_number(client):
    told = send(client, "\n".join((HEAD, *LINES, "31/01/2026;1;2;3", "2026-01-31;much;2;3"))).json()
    assert (told["days"], told["bad_count"]) == (59, 2)
    assert [each["number"] for each in told["bad"]] == [61, 62]
    assert "31/01/2026" in told["bad"][0]["said"]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "names the columns"),
        ("a,b\n1,2\n", "names the columns"),
        (f"{HEAD}\n", "holds no day"),
        ("\n".join((HEAD, *LINES[:10])), "No month has enough days"),
        (b"\xff\xfe\x00", "no text"),
    ],
)
def test_a_file_is_refused_with_a_sentence(client, text, why):
    answer = send(client, text)
    assert answer.status_code == 422
    assert why in answer.json()["message"]
