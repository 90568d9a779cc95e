"""What laying does to levels: twist, whole millimetres, scatter, the preview while dragging, and access."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.findings import Severity
from pavewright.geometry import Facet, FoldedSurface, Plane
from pavewright.levels import finished_levels
from pavewright.levels.design._rounding import rounding_findings
from pavewright.levels._sums_laying_levels import bay_twist, standing_water_chance, whole_millimetres

SIZES = {"bay_length_mm": 3000.0, "bay_width_mm": 2400.0, "slab_length_mm": 600.0, "slab_width_mm": 400.0}


@settings(max_examples=50, deadline=None)
@given(st.lists(st.integers(-40, 40), min_size=4, max_size=4))
def test_the_lip_is_what_neighbouring_tangent_planes_differ_by(corners):
    reported = bay_twist(*(float(each) for each in corners), **SIZES, lip_limit_mm=2.0)
    c1, c2, c3, c4 = corners
    length, width, long, wide = SIZES.values()

    def level(x, y):
        u, v = x / length, y / width
        return c1 * (1 - u) * (1 - v) + c2 * u * (1 - v) + c3 * u * v + c4 * (1 - u) * v

    def tangent(x, y):
        h = 1e-3
        slope_x = (level(x + h, y) - level(x - h, y)) / (2 * h)
        slope_y = (level(x, y + h) - level(x, y - h)) / (2 * h)
        return lambda px, py: level(x, y) + slope_x * (px - x) + slope_y * (py - y)

    first, second = tangent(1000.0, 1000.0), tangent(1000.0 + long, 1000.0)
    joint_x, end_y = 1000.0 + long / 2, 1000.0 + wide / 2
    assert abs(first(joint_x, end_y) - second(joint_x, end_y)) == pytest.approx(reported["lip_mm"], abs=1e-6)


def test_a_flat_bay_takes_any_slab_and_the_largest_just_keeps_the_limit():
    assert bay_twist(10.0, 10.0, 0.0, 0.0, **SIZES, lip_limit_mm=2.0)["largest_square_slab_mm"] == "any"
    twisted = bay_twist(0.0, 0.0, 60.0, 0.0, **SIZES, lip_limit_mm=2.0)
    side = twisted["largest_square_slab_mm"]
    again = bay_twist(
        0.0, 0.0, 60.0, 0.0, **(SIZES | {"slab_length_mm": side, "slab_width_mm": side}), lip_limit_mm=2.0
    )
    assert again["lip_mm"] == pytest.approx(2.0)


def test_a_run_of_1600_at_60_may_come_out_at_62():
    assert whole_millimetres(1600.0, 60.0)["flattest_one_in"] == pytest.approx(62.3, abs=0.1)
    assert whole_millimetres(1600.0, 60.0)["mm_per_m"] == pytest.approx(0.6, abs=0.05)


def test_flatter_falls_and_wilder_corners_leave_more_puddles():
    def chance(one_in, spread, seed=1.0):
        return standing_water_chance(one_in, 4200.0, 5400.0, 600.0, spread, 3.0, 150.0, seed)["chance_percent"]

    falls = [chance(one_in, 3.0) for one_in in (40.0, 80.0, 100.0, 150.0)]
    assert falls == sorted(falls)
    assert falls[0] == 0.0
    # another program, with the puddles of another patio, had 22 % at 1 in 100 and 52 % at 1 in 150
    assert 5.0 < falls[2] < 25.0
    assert 25.0 < falls[3] < 60.0
    assert chance(100.0, 2.0) < chance(100.0, 3.0)
    assert chance(100.0, 3.0) == chance(100.0, 3.0)


def test_the_interval_holds_the_share_and_narrows():
    few = standing_water_chance(100.0, 4200.0, 5400.0, 600.0, 3.0, 3.0, 40.0, 1.0)
    many = standing_water_chance(100.0, 4200.0, 5400.0, 600.0, 3.0, 3.0, 160.0, 1.0)
    for reported in (few, many):
        assert reported["low_percent"] <= reported["chance_percent"] <= reported["high_percent"]
    assert many["high_percent"] - many["low_percent"] < few["high_percent"] - few["low_percent"]


class Square:
    name = "Patio"


def test_short_planes_lose_their_fall_to_whole_millimetres():
    # over 90 mm a fall of 1 in 60 is 1.5 mm: printed as 1 or 2
    short = ((0.0, 0.0), (600.0, 0.0), (600.0, 90.0), (0.0, 90.0))
    steep = FoldedSurface((Facet(short, Plane(10.4, (0.0, 0.0), 0.0, -1 / 60)),))
    (finding,) = rounding_findings(Square(), steep, 1 / 60)
    assert finding.value == pytest.approx(1 / 90)
    long = tuple((10.0 * x, 10.0 * y) for x, y in short)
    assert (
        rounding_findings(Square(), FoldedSurface((dataclasses.replace(steep.facets[0], outline=long),)), 1 / 60) == ()
    )


def levelled(small, one_in, step=15.0, accessible=True):
    entered = small.rectangle(6000.0, 4000.0)
    entered |= {"accessible": accessible, "fall": {"away_from": "House", "one_in": one_in}}
    door = {
        "name": "Door",
        "along_mm": 1000.0,
        "width_mm": 900.0,
        "threshold_level_mm": 1000.0 + step,
        "min_step_mm": 0.0,
    }
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1150.0, "openings": [door]}]
    job, measured = small.surveyed()
    return {each.code: each for each in finished_levels(job, measured, small.rules).findings}


@pytest.mark.parametrize(("one_in", "severity"), [(15.0, Severity.STOP), (30.0, Severity.CHECK)])
def test_an_accessible_area_that_is_too_steep_is_told(small, one_in, severity):
    assert levelled(small, one_in)["levels.not_accessible"].severity is severity


def test_an_accessible_area_within_the_limits_is_not(small):
    assert not {"levels.not_accessible", "levels.step_at_accessible_door"} & set(levelled(small, 60.0))


def test_a_step_at_an_accessible_door_is_told_and_marked_as_memory(small):
    finding = levelled(small, 60.0, step=60.0)["levels.step_at_accessible_door"]
    assert finding.value == pytest.approx(60.0)
    assert finding.figure.status.value == "M"
    assert "levels.step_at_accessible_door" not in levelled_again(small)


def levelled_again(small):
    small.document["areas"][0]["accessible"] = False
    job, measured = small.surveyed()
    return {each.code for each in finished_levels(job, measured, small.rules).findings}


def test_the_edge_of_the_interval_is_wilsons():
    reported = standing_water_chance(40.0, 4200.0, 5400.0, 600.0, 0.5, 3.0, 100.0, 1.0)
    square = 1.96**2
    assert reported["chance_percent"] == 0.0
    assert reported["high_percent"] == pytest.approx(100.0 * (square / 100.0) / (1.0 + square / 100.0))
    assert math.isclose(reported["low_percent"], 0.0, abs_tol=1e-9)
