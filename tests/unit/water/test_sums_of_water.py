"""Sums of rain, inlets, pipes and storage: limits, shapes of the answers and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.catalogue import find
from pavewright.desk import answer_sum
from pavewright.job import Rain
from pavewright.sums import SumRefusedError
from pavewright.water.rain._rain_curve import RainCurve
from pavewright.water.rain import storm_tables, storms

TIMES = (5.0, 10.0, 15.0, 30.0, 60.0, 120.0)


def run(name, **given_):
    return answer_sum(name, given_).answers


@settings(max_examples=40, deadline=None)
@given(st.floats(200.0, 3000.0), st.floats(0.0, 40.0), st.floats(0.5, 1.0))
def test_a_curve_is_found_again_from_its_own_points(a, b, c):
    curve = RainCurve(a, b, c)
    found = run("rain-curve", durations_min=TIMES, rain_mm_per_h=tuple(curve.mm_per_h(each) for each in TIMES))
    assert found["worst_percent"] < 1e-3
    assert found["a"] == pytest.approx(a, rel=1e-3)
    assert found["b_min"] == pytest.approx(b, abs=1e-2)
    assert found["c"] == pytest.approx(c, rel=1e-3)


@settings(max_examples=15, deadline=None)
@given(st.lists(st.floats(-0.05, 0.05), min_size=6, max_size=6))
def test_no_other_program_finds_less_misfit(noise):
    from scipy.optimize import minimize  # noqa: PLC0415 - slow to load

    curve = RainCurve(900.0, 6.0, 0.8)
    rain = tuple(curve.mm_per_h(each) * (1.0 + more) for each, more in zip(TIMES, noise, strict=True))
    if any(later >= sooner for sooner, later in zip(rain, rain[1:], strict=False)):
        return
    found = run("rain-curve", durations_min=TIMES, rain_mm_per_h=rain)
    times, wanted = np.array(TIMES), np.log(rain)

    def squares(at):
        return float(np.sum((at[0] - at[2] * np.log(times + at[1]) - wanted) ** 2))

    ours = squares((math.log(found["a"]), found["b_min"], found["c"]))
    other = minimize(squares, (7.0, 6.0, 0.8), bounds=((0, 20), (0, 120), (0, 5)), method="L-BFGS-B")
    assert ours <= other.fun + 1e-9


@pytest.mark.parametrize(
    ("durations", "rain"),
    [
        ((5.0, 10.0, 15.0), (60.0, 50.0, 40.0)),
        ((5.0, 10.0, 10.0, 15.0), (60.0, 50.0, 45.0, 40.0)),
        ((5.0, 10.0, 15.0, 20.0), (60.0, 50.0, 55.0, 40.0)),
        ((0.0, 10.0, 15.0, 20.0), (60.0, 50.0, 45.0, 40.0)),
        ((5.0, 10.0, 15.0, 20.0), (60.0, 50.0, 45.0)),
    ],
)
def test_a_table_that_makes_no_curve_is_refused(durations, rain):
    with pytest.raises(SumRefusedError):
        run("rain-curve", durations_min=durations, rain_mm_per_h=rain)


def test_the_sum_of_storms_and_the_storms_of_a_job_read_the_tables_alike():
    rules = rulebook.load("england")
    z1, z2 = rules.table("water.z1"), rules.table("water.z2")
    names = [name for name, _ in z1.columns]
    found = run(
        "storm-depths",
        m5_60_mm=19.0,
        r=0.37,
        durations_min=tuple(float(name.removeprefix("min_")) for name in names),
        rows_r=(0.36, 0.39),
        z1_low=tuple(z1.row("0.36").value(name) for name in names),
        z1_high=tuple(z1.row("0.39").value(name) for name in names),
        z2_m5_mm=tuple(float(row.key) for row in z2.rows),
        z2=tuple(row.value("years_10") for row in z2.rows),
        climate_percent=20.0,
    )
    rain = Rain(five_year_hour_mm=19.0, hour_to_two_days=0.37, years=10.0, climate_percent=20.0)
    assert found["depth_mm"] == pytest.approx([depth for _, depth in storms(rain, storm_tables(rules))])


@pytest.mark.parametrize(
    "wrong",
    [{"rows_r": (0.4,)}, {"z1_low": (1.0, 1.0)}, {"z2_m5_mm": (25.0, 20.0)}, {"z2": (1.2,)}, {"climate_percent": -1.0}],
)
def test_tables_that_do_not_fit_are_refused(wrong):
    sound = {
        "m5_60_mm": 20.0,
        "r": 0.4,
        "durations_min": (60.0,),
        "rows_r": (0.39, 0.42),
        "z1_low": (1.0,),
        "z1_high": (1.0,),
        "z2_m5_mm": (20.0, 25.0),
        "z2": (1.24, 1.24),
    }
    assert run("storm-depths", **sound)["depth_mm"] == pytest.approx((24.8,))
    with pytest.raises(SumRefusedError):
        run("storm-depths", **(sound | wrong))


@given(st.floats(20.0, 300.0))
def test_an_outlet_takes_the_same_from_either_formula_where_they_meet(bore):
    low = run("gutter-outlet", bore_mm=bore, water_mm=bore / 2.0)
    high = run("gutter-outlet", bore_mm=bore, water_mm=bore / 2.0 * (1.0 + 1e-12))
    assert (low["governs"], high["governs"]) == ("rim", "hole")
    assert low["flow_l_s"] == pytest.approx(high["flow_l_s"])


def test_a_clogged_grating_takes_less_and_fewer_sides_feed_it_less():
    clean = run("gully-grating", length_mm=150.0, width_mm=150.0, water_mm=20.0, clogged_percent=0.0)
    half = run("gully-grating", length_mm=150.0, width_mm=150.0, water_mm=20.0)
    corner = run("gully-grating", length_mm=150.0, width_mm=150.0, water_mm=20.0, sides=2.0)
    assert clean["flow_l_s"] == pytest.approx(2.0 * half["flow_l_s"])
    assert corner["rim_l_s"] == pytest.approx(half["rim_l_s"] / 2.0)
    with pytest.raises(SumRefusedError):
        run("gully-grating", length_mm=150.0, width_mm=150.0, water_mm=20.0, sides=5.0)


@settings(max_examples=40, deadline=None)
@given(st.floats(75.0, 300.0), st.floats(20.0, 300.0), st.floats(0.01, 0.999))
def test_the_depth_found_carries_the_flow_that_was_asked_for(bore, one_in, share):
    full = run("pipe-full-bore", bore_mm=bore, one_in=one_in)["flow_l_s"]
    found = run("pipe-self-cleansing", bore_mm=bore, one_in=one_in, flow_l_s=full * share)
    again = run("pipe-part-full-rough", bore_mm=bore, depth_mm=found["depth_mm"], one_in=one_in)
    assert again["flow_l_s"] == pytest.approx(full * share, rel=1e-6)
    assert found["depth_percent"] < 90.0


@settings(max_examples=40, deadline=None)
@given(st.floats(0.3, 2.0), st.floats(0.5, 2.0), st.floats(5.0, 200.0), st.floats(1e-6, 1e-4))
def test_a_trench_of_the_length_found_is_just_enough_and_a_shorter_one_is_not(width, depth, area, rate):
    storm = {"durations_min": (15.0, 60.0, 360.0), "rain_mm": (15.5, 24.8, 38.7)}
    pit = {"width_mm": 1e3 * width, "depth_mm": 1e3 * depth, "area_m2": area, "infiltration_m_per_s": rate}
    length = run("soakaway-trench", **pit, **storm)["length_mm"]
    longer, shorter = (
        run("soakaway-pit", length_mm=max(length, 1.0) * more, **pit, **storm)["verdict"] for more in (1.001, 0.99)
    )
    assert longer != "too small"
    assert shorter == "too small" or length < 1.0


def test_other_paving_that_drains_on_to_permeable_paving_deepens_its_stone():
    storm = {"infiltration_m_per_s": 1e-5, "durations_min": (10.0, 30.0), "rain_mm": (12.8, 19.9)}
    depths = [run("permeable-storage", ratio=ratio, **storm)["depth_mm"] for ratio in (0.0, 1.0, 2.0)]
    assert depths == sorted(depths)
    with pytest.raises(SumRefusedError):
        run("permeable-storage", ratio=-1.0, **storm)


def test_ground_that_takes_all_of_it_wants_no_stone():
    found = run("permeable-storage", infiltration_m_per_s=1e-3, durations_min=(10.0,), rain_mm=(12.8,))
    assert found["depth_mm"] == 0.0
    assert found["depths_mm"] == (0.0,)


def test_the_wedge_under_a_slope_is_the_whole_stone_on_the_level_and_joins_where_it_just_ends():
    nearly_level = run("storage-under-slope", thickness_mm=300.0, length_mm=6000.0, one_in=1e9)
    assert nearly_level["share_percent"] == pytest.approx(100.0)
    before, after = (
        run("storage-under-slope", thickness_mm=300.0, length_mm=12_000.0 * more, one_in=40.0)["litres_per_m"]
        for more in (1.0 - 1e-9, 1.0 + 1e-9)
    )
    assert before == pytest.approx(after)


def test_a_rain_garden_of_the_min_floor_is_just_enough():
    garden = {
        "area_m2": 20.0,
        "ponding_mm": 150.0,
        "soil_mm": 300.0,
        "infiltration_m_per_s": 5e-6,
        "durations_min": (60.0, 360.0),
        "rain_mm": (25.0, 40.0),
    }
    least = run("rain-garden", garden_m2=6.0, **garden)["min_garden_m2"]
    assert run("rain-garden", garden_m2=least * 1.001, **garden)["verdict"] == "enough for these storms only"
    assert run("rain-garden", garden_m2=least * 0.999, **garden)["verdict"] == "too small"


def test_the_base_counts_in_the_test_and_not_in_the_soakaway():
    pit = {"length_mm": 2000.0, "width_mm": 1500.0, "depth_mm": 1500.0}
    tested = run("trial-pit-fills", **pit, times_min=(56.0, 55.0, 56.0))["wetted_m2"]
    sized = run("soakaway-pit", **pit, area_m2=75.0, infiltration_m_per_s=4e-5, durations_min=(30.0,), rain_mm=(19.5,))[
        "sides_m2"
    ]
    assert tested - sized == pytest.approx(2.0 * 1.5)


def test_the_slowest_fall_sizes_a_soakaway_and_the_mean_a_field():
    found = run("percolation-tests", times_s=(1500.0, 1500.0, 24_000.0))
    assert found["mean_s_per_mm"] == pytest.approx(60.0)
    assert (found["drainage_field"], found["soakaway"]) == ("works", "too slow")
    one = run("percolation", seconds=2700.0)
    same = run("percolation-tests", times_s=(2700.0,))
    assert same["infiltration_m_per_s"] == pytest.approx(one["infiltration_m_per_s"])
    assert same["sides_only_m_per_s"] == pytest.approx(one["sides_only_m_per_s"])


@pytest.mark.parametrize(
    ("name", "given_"),
    [
        ("trial-pit-fills", {"length_mm": 1000.0, "width_mm": 750.0, "depth_mm": 1000.0, "times_min": ()}),
        ("percolation-tests", {"times_s": (0.0,)}),
        ("dished-channel", {"width_mm": 300.0, "dish_mm": 30.0, "water_mm": 31.0, "one_in": 80.0}),
        ("dished-channel", {"width_mm": 300.0, "dish_mm": 200.0, "water_mm": 30.0, "one_in": 80.0}),
        ("open-channel", {"width_mm": 0.0, "water_mm": 31.0, "one_in": 80.0}),
        ("kerb-channel", {"spread_mm": 1000.0, "cross_percent": 0.0, "one_in": 80.0}),
        ("gutter-outlet", {"bore_mm": 0.0, "water_mm": 31.0}),
        ("storage-under-slope", {"thickness_mm": 300.0, "length_mm": 6000.0, "one_in": 0.0}),
        ("rain-from-curve", {"a": 0.0, "c": 0.8, "duration_min": 5.0}),
    ],
)
def test_what_makes_no_sum_is_refused(name, given_):
    with pytest.raises(SumRefusedError):
        run(name, **given_)


SLOW = {
    "length_mm": 4000.0,
    "width_mm": 2000.0,
    "depth_mm": 2000.0,
    "area_m2": 60.0,
    "durations_min": (240.0, 360.0, 600.0, 1440.0, 2880.0),
    "rain_mm": (36.0, 40.0, 46.0, 58.0, 62.0),
}


def test_a_pit_that_is_half_empty_after_days_is_not_enough():
    slow = run("soakaway-pit", **SLOW, infiltration_m_per_s=1e-6)
    assert slow["required_m3"] < slow["available_m3"]
    assert slow["half_empty_min"] > 24.0 * 60.0
    assert slow["verdict"] == "half empty too late"
    assert run("soakaway-pit", **SLOW, infiltration_m_per_s=1e-6, half_empty_h=1e4)["verdict"] != slow["verdict"]


def test_one_storm_proves_no_pit():
    pit = {"length_mm": 2000.0, "width_mm": 1500.0, "depth_mm": 1500.0, "area_m2": 75.0, "infiltration_m_per_s": 4e-5}
    one = run("soakaway-pit", **pit, durations_min=(10.0,), rain_mm=(12.3,))
    assert one["verdict"] == "enough for these storms only"
    row = {"durations_min": (5.0, 10.0, 15.0, 30.0, 60.0, 120.0), "rain_mm": (8.5, 12.3, 15.1, 19.5, 24.8, 30.4)}
    assert run("soakaway-pit", **pit, **row)["verdict"] == "enough"


def test_the_time_to_half_empty_of_the_sums_is_that_of_the_rulebook():
    limit = rulebook.load("england").value("water.half_empty_h")
    for name in ("soakaway-pit", "soakaway-size", "soakaway-trench", "ring-in-dig"):
        (asked,) = (each for each in find(name).inputs if each.name == "half_empty_h")
        assert rulebook.load("england").value(asked.figure) == limit
        assert asked.default is None


@settings(max_examples=30, deadline=None)
@given(st.floats(10.0, 120.0), st.floats(2e-6, 1e-4))
def test_the_pit_that_is_sized_is_the_shortest_in_its_steps(area, rate):
    ground = {"width_mm": 1000.0, "depth_mm": 1200.0, "area_m2": area, "infiltration_m_per_s": rate}
    row = {"durations_min": (5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0), "rain_mm": (8.5, 12.3, 15, 19.5, 25, 30, 37)}
    found = run("soakaway-size", **ground, **row, longest_mm=100_000.0)
    assert found["verdict"] in {"enough", "enough for these storms only"}
    if found["length_mm"] > 50.0:
        shorter = run("soakaway-pit", length_mm=found["length_mm"] - 50.0, **ground, **row)
        assert shorter["verdict"] in {"too small", "half empty too late"}


def test_ground_too_tight_for_any_pit_is_refused():
    tight = {key: value for key, value in SLOW.items() if key != "length_mm"}
    with pytest.raises(SumRefusedError, match="half empty"):
        run("soakaway-size", **tight, infiltration_m_per_s=1e-8)


@pytest.mark.parametrize("name", ["pipe-full-bore", "pipe-part-full-rough", "pipe-self-cleansing"])
def test_gravity_is_a_figure_with_its_source(name):
    gravity = next(each for each in find(name).inputs if each.name == "gravity_m_per_s2")
    figure = rulebook.load("elsewhere").figure(gravity.figure)
    assert (figure.value, figure.status.value) == (9.81, "C")
    assert gravity.default is None
    assert "9.80665" in figure.citation
