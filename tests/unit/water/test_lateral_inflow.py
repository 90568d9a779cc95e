"""A channel fed along its length, checked against the differential equation stepped by another program."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.sums import SumRefusedError
from pavewright.water.drains._hydraulics import G_M_PER_S2, level_channel_flow_m3_per_s
from pavewright.water.drains._lateral_inflow import friction_slope, normal_depth_m, profile_upstream
from pavewright.water.drains._sums_channels import collector_channel


def stepped(width, length, slope, n, flow, outlet):
    from scipy.integrate import solve_ivp  # noqa: PLC0415 - slow to load

    """Depth by distance from the closed end: dy/dx = (S0 − Sf − 2Qq/gA²) / (1 − Fr²), from the outlet upwards."""

    def steeper(up, depth):
        there = flow / length * (length - up)
        area = width * depth
        rubbing = (n * there / area) ** 2 / (area / (width + 2.0 * depth)) ** (4.0 / 3.0)
        gathering = 2.0 * there * flow / length / (G_M_PER_S2 * area**2)
        return -(slope - rubbing - gathering) / (1.0 - there**2 * width / (G_M_PER_S2 * area**3))

    critical = ((flow / width) ** 2 / G_M_PER_S2) ** (1.0 / 3.0)
    start, depth = 0.0, outlet
    if outlet <= critical:
        # leave the place where the slope has no end: distance by depth instead of depth by distance
        depth = 1.02 * critical
        left = solve_ivp(lambda y, up: [1.0 / steeper(up[0], y)], (critical * (1 + 1e-9), depth), [0.0], rtol=1e-10)
        start = left.y[0, -1]
    found = solve_ivp(
        lambda up, y: [steeper(up, y[0])], (start, length * (1 - 1e-6)), [depth], rtol=1e-9, dense_output=True
    )
    return lambda x: float(found.sol(length - x)[0])


@pytest.mark.parametrize(
    "channel",
    [
        (0.1, 10.0, 0.0, 0.012, 0.003, 0.0),
        (0.1, 10.0, 0.005, 0.012, 0.003, 0.0),
        (0.1, 10.0, 0.01, 0.012, 0.003, 0.0),
        (0.13, 8.0, 0.002, 0.010, 0.004, 0.0),
        (0.1, 10.0, 0.005, 0.012, 0.003, 0.08),
    ],
)
def test_the_balance_of_momentum_agrees_with_the_differential_equation(channel):
    ours, other = profile_upstream(*channel), stepped(*channel)
    for place in range(20, 400, 38):
        assert ours.depth_m[place] == pytest.approx(other(ours.x_m[place]), rel=5e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.05, 0.4), st.floats(0.02, 0.4), st.floats(1.0, 30.0))
def test_a_level_channel_without_friction_is_the_closed_form(width, depth, length):
    flow = level_channel_flow_m3_per_s(width, depth)
    found = profile_upstream(width, length, 0.0, 0.0, flow, 0.0)
    assert found.depth_m[0] == pytest.approx(depth, rel=1e-6)
    for place in range(0, 401, 50):
        share = found.depth_m[place] / found.critical_m
        # both powers, which a copy of this formula in circulation has lost
        assert share * (1.5 - 0.5 * share**2) == pytest.approx((found.x_m[place] / length) ** 2, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.05, 0.4), st.floats(1.0, 30.0), st.floats(0.0, 0.1), st.floats(0.0, 0.03), st.floats(0.0002, 0.02))
def test_force_and_momentum_balance_over_the_whole_channel(width, length, slope, n, flow):
    found = profile_upstream(width, length, slope, n, flow, 0.0)
    x, y = np.array(found.x_m), np.array(found.depth_m)
    assert np.all(y[1:] > 0.0)
    # water comes in evenly and all of it leaves: nothing is carried at the closed end
    carried = flow * x / length
    assert carried[0] == 0.0
    assert carried[-1] == pytest.approx(flow)
    below = np.searchsorted(x, found.control_m)
    if below == 0:
        return
    x, y, carried = x[: below + 1], y[: below + 1], carried[: below + 1]
    thrust = carried**2 / (G_M_PER_S2 * width * y) + width * y**2 / 2.0
    pull = [
        width * d * (slope - (friction_slope(width, d, q, n) if q > 0.0 else 0.0))
        for d, q in zip(y, carried, strict=True)
    ]
    gained = np.sum((np.array(pull[1:]) + np.array(pull[:-1])) / 2.0 * np.diff(x))
    assert thrust[-1] - thrust[0] == pytest.approx(gained, abs=1e-9 + 1e-6 * thrust[-1])


def test_friction_raises_the_water_and_a_fall_lowers_it():
    def closed_end(slope, n):
        return profile_upstream(0.1, 10.0, slope, n, 0.003, 0.0).depth_m[0]

    assert closed_end(0.0, 0.012) > closed_end(0.0, 0.0) > closed_end(0.005, 0.0)
    assert closed_end(0.0, 0.016) > closed_end(0.0, 0.012)


def test_in_a_steep_channel_the_control_lies_inside_and_stands_at_critical_depth():
    found = profile_upstream(0.1, 10.0, 0.02, 0.012, 0.003, 0.0)
    assert 0.0 < found.control_m < 10.0
    place = found.x_m.index(found.control_m)
    flow = 0.003 * found.control_m / 10.0
    depth = found.depth_m[place]
    assert depth == pytest.approx(((flow / 0.1) ** 2 / G_M_PER_S2) ** (1.0 / 3.0))
    # there the fall is what friction and gathering use up
    used = friction_slope(0.1, depth, flow, 0.012) + 2.0 * flow * 0.0003 / (G_M_PER_S2 * (0.1 * depth) ** 2)
    assert used == pytest.approx(0.02, rel=0.02)


def test_a_long_channel_comes_near_the_steady_depth_and_steady_depth_is_mannings():
    depth = normal_depth_m(0.1, 0.003, 0.012, 0.005)
    assert friction_slope(0.1, depth, 0.003, 0.012) == pytest.approx(0.005)
    reported = collector_channel(100.0, 100.0, 100_000.0, 0.5, 0.012, 3.0, 0.0, 0.0)
    assert reported["steady_mm"] == pytest.approx(1e3 * depth)
    assert reported["deepest_mm"] == pytest.approx(reported["steady_mm"], rel=0.05)


def test_a_channel_whose_sides_grow_with_its_fall_has_more_freeboard():
    even = collector_channel(100.0, 60.0, 10_000.0, 0.5, 0.012, 3.0, 0.0, 0.0)
    grown = collector_channel(100.0, 60.0, 10_000.0, 0.5, 0.012, 3.0, 0.0, 110.0)
    assert even["verdict"] == "overflows"
    assert grown["verdict"] == "enough"
    assert grown["freeboard_mm"] > even["freeboard_mm"]


@pytest.mark.parametrize(
    "wrong", [{"width_mm": 0.0}, {"flow_l_s": 0.0}, {"fall_percent": -1.0}, {"fall_percent": 12.0}, {"n": -0.01}]
)
def test_what_makes_no_channel_is_refused(wrong):
    sound = {
        "width_mm": 100.0,
        "depth_mm": 100.0,
        "length_mm": 5000.0,
        "fall_percent": 0.5,
        "n": 0.012,
        "flow_l_s": 2.0,
        "outlet_water_mm": 0.0,
        "outlet_side_mm": 0.0,
    }
    assert math.isfinite(collector_channel(**sound)["freeboard_mm"])
    with pytest.raises(SumRefusedError):
        collector_channel(**(sound | wrong))
