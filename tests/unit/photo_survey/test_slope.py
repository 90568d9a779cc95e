"""A slope by a tool that is turned end for end."""

from __future__ import annotations

import math
import random

import pytest
from scipy import stats

from pavewright.photo_survey import Judged, TurnedSlope, judged, slope_mm_per_m, turned_slope
from pavewright.photo_survey._slope import student_quantile


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 5, 8, 13, 29])
@pytest.mark.parametrize("percent", [50.0, 90.0, 95.0, 99.0])
def test_the_quantile_is_that_of_a_library(percent, freedom):
    assert student_quantile(percent, freedom) == pytest.approx(stats.t.ppf(0.5 + percent / 200.0, freedom), rel=1e-8)


def test_the_error_of_the_tool_cancels_whatever_it_is():
    for error in (-2.0, 0.0, 0.4):
        found = turned_slope((0.7 + error,), (-0.7 + error,), 0.05, 2.0, 95.0)
        assert found.slope_deg == pytest.approx(0.7)
        assert found.error_deg == pytest.approx(error)


def test_repeats_show_the_scatter_and_one_pair_shows_none():
    assert turned_slope((1.3,), (-1.1,), 0.05, 2.0, 95.0).scatter_deg is None
    found = turned_slope((1.3, 1.35, 1.25), (-1.1, -1.1, -1.1), 0.05, 2.0, 95.0)
    assert found.scatter_deg == pytest.approx(0.025)
    assert found.band_deg == pytest.approx(math.hypot(0.1, 4.302653 * 0.025 / math.sqrt(3.0)), rel=1e-6)


def test_the_band_holds_the_truth_at_least_as_often_as_it_says():
    chance, held = random.Random(4), 0
    for _ in range(2000):
        seat = chance.gauss(0.0, 0.05)
        first = [1.0 + 0.2 + seat + chance.gauss(0.0, 0.1) for _ in range(4)]
        turned = [-1.0 + 0.2 - seat + chance.gauss(0.0, 0.1) for _ in range(4)]
        found = turned_slope(first, turned, 0.05, 2.0, 95.0)
        held += abs(found.slope_deg - 1.0) <= found.band_deg
    assert held / 2000 >= 0.95


@pytest.mark.parametrize("within", [0.5, 1.0, 2.0, 3.0])
def test_a_question_of_a_millimetre_is_refused(within):
    found = turned_slope((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), 0.05, 2.0, 95.0)
    assert judged(found, 0.0, within, 1000.0, 0.5)[0] is Judged.TOO_COARSE


def test_a_coarse_question_is_judged_both_ways_and_near_the_limit_left_open():
    level = TurnedSlope(0.0, 0.0, 0.0, 0.1, 3)
    assert judged(level, 0.0, 5.0, 1000.0, 0.5)[0] is Judged.PASSES
    assert judged(level, 20.0, 5.0, 1000.0, 0.5)[0] is Judged.FAILS
    verdict, off, band = judged(level, 6.0, 5.0, 1000.0, 0.5)
    assert verdict is Judged.UNSURE
    assert off == pytest.approx(-6.0)
    assert band == pytest.approx(slope_mm_per_m(0.1), rel=1e-6)
