"""When the work ends with its chance, against closed forms."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from pavewright.programme._clock import WorkingTime
from pavewright.programme._finish_chance import Piece, finish_chance, stopped_share

CLOCK = WorkingTime(frozenset({0, 1, 2, 3, 4}), frozenset(), 480.0, 480.0)
START = dt.date(2026, 4, 6)
ALL_YEAR = range(1, 13)


def working_days(last):
    return sum((START + dt.timedelta(days=each)).weekday() < 5 for each in range((last - START).days + 1))


def run(pieces, share, planned=dt.date(2026, 4, 17), alike=0.0):
    return finish_chance(pieces, CLOCK, START, planned, share, alike, 0.3)


@pytest.mark.parametrize("stopped", [0.1, 0.3, 0.5])
def test_dry_days_wanted_end_as_the_negative_binomial_says(stopped):
    found = run((Piece(10 * 480.0, 1.0, 1.0, (), weather=True, wait=False),), dict.fromkeys(ALL_YEAR, stopped))
    for each in found.spread:
        days = working_days(each.on)
        exact = math.fsum(
            math.comb(days, dry) * (1 - stopped) ** dry * stopped ** (days - dry) for dry in range(10, days + 1)
        )
        assert each.chance == pytest.approx(exact, abs=0.04)
    assert found.mean_lost_days == pytest.approx(10 * stopped / (1 - stopped), rel=0.05)


def test_days_that_are_alike_keep_the_mean_share_and_spread_the_end():
    work = (Piece(10 * 480.0, 1.0, 1.0, (), weather=True, wait=False),)
    apart, spells = (run(work, dict.fromkeys(ALL_YEAR, 0.3), alike=alike) for alike in (0.0, 0.5))
    assert spells.by(START + dt.timedelta(days=11)) > apart.by(START + dt.timedelta(days=11))
    assert spells.ends[-1].on > apart.ends[-1].on


def test_without_bad_weather_and_with_exact_outputs_it_ends_as_planned():
    work = (
        Piece(480.0, 1.0, 1.0, (), weather=True, wait=False),
        Piece(24 * 60.0, 1.0, 1.0, (0,), weather=False, wait=True),
        Piece(700.0, 1.0, 1.0, (1,), weather=True, wait=False),
    )
    found = run(work, dict.fromkeys(ALL_YEAR, 0.0), planned=dt.date(2026, 4, 9))
    # Monday; hardens to Tuesday 16:00, the end of the day; Wednesday, and 220 minutes of Thursday
    assert [each.on for each in found.spread] == [dt.date(2026, 4, 9)]
    assert found.planned.chance == 1.0
    assert found.unknown_months == ()


def test_rain_does_not_stop_work_that_it_does_not_stop():
    found = run((Piece(480.0, 1.0, 1.0, (), weather=False, wait=False),), dict.fromkeys(ALL_YEAR, 0.9))
    assert [each.on for each in found.spread] == [START]


def test_an_output_that_differs_moves_the_end_as_its_triangle_does():
    found = run((Piece(10 * 480.0, 0.8, 1.4, (), weather=True, wait=False),), dict.fromkeys(ALL_YEAR, 0.0))
    for each in found.spread[:-1]:
        part = working_days(each.on) / 10.0
        exact = (part - 0.8) ** 2 / (0.6 * 0.2) if part <= 1.0 else 1 - (1.4 - part) ** 2 / (0.6 * 0.4)
        assert each.chance == pytest.approx(exact, abs=0.03)


def test_a_month_that_is_not_known_is_named():
    work = (Piece(30 * 480.0, 1.0, 1.0, (), weather=True, wait=False),)
    assert 5 in run(work, {4: 0.2}).unknown_months
    assert 4 not in run(work, {4: 0.2}).unknown_months


def test_the_same_question_brings_the_same_answer():
    work = (Piece(9000.0, 0.8, 1.5, (), weather=True, wait=False),)
    assert run(work, {4: 0.2, 5: 0.1}) == run(work, {4: 0.2, 5: 0.1})


def test_the_share_of_days_that_are_stopped():
    assert stopped_share(4, 2026, 6.0, 3.0, 0.0) == pytest.approx(1 - 0.8 * 0.9)
    assert stopped_share(2, 2024, 29.0, 0.0, 0.0) == 1.0
