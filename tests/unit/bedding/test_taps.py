"""Where a tap sinks what; what corner readings say; what is advised, and that it never digs a corner below."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.bedding import (
    Act,
    Care,
    Limits,
    TapPlace,
    Why,
    advise,
    aimed_at,
    best_tap,
    by_percent,
    plane_part,
    plate,
    sink,
    sinks,
)
from pavewright.job.on_site import Rocks
from tests.unit.bedding import fresh_bed

LIMITS: Limits = fresh_bed.LIMITS
SLAB = ((0.0, 0.0), (600.0, 0.0), (600.0, 400.0), (0.0, 400.0))
WEDGE_MM = 0.5


def sunk(part: float) -> list[float]:
    """Sinking of the corners for a tap so far from the middle to the third corner, the far corner first."""
    slab = plate(SLAB)
    return [sink(slab, (300.0 + part * 300.0, 200.0 + part * 200.0), corner) for corner in SLAB]


def test_a_tap_midway_to_a_corner_sinks_it_by_four_and_lifts_the_far_one_by_two():
    assert sunk(1 / 2) == pytest.approx([-2.0, 1.0, 4.0, 1.0])
    assert sink(plate(SLAB), (450.0, 300.0), (300.0, 200.0)) == pytest.approx(1.0)


def test_a_tap_at_a_sixth_of_the_way_leaves_the_far_corner_where_it_is_and_beyond_it_lifts():
    assert sunk(1 / 6) == pytest.approx([0.0, 1.0, 2.0, 1.0])
    assert sunk(0.17)[0] < 0.0 < sunk(0.16)[0]


def test_a_far_corner_that_is_held_does_not_rise_and_the_others_go_two_to_one():
    slab = plate(SLAB)
    assert sinks(slab, (450.0, 300.0)) == ((0.0, pytest.approx(0.5), pytest.approx(1.0), pytest.approx(0.5)), (0,))
    assert sinks(slab, (450.0, 200.0)) == ((0.0, pytest.approx(1.0), pytest.approx(1.0), 0.0), (0, 3))


@given(
    st.floats(150.0, 1200.0), st.floats(150.0, 1200.0), st.floats(-math.pi, math.pi), st.floats(-0.9, 0.9),
    st.floats(-0.9, 0.9),
)  # fmt: skip
def test_equilibrium_holds_for_any_rectangle_however_it_is_turned(a, b, turn, along, across):
    turned = [(x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn))
              for x, y in ((0.0, 0.0), (a, 0.0), (a, b), (0.0, b))]  # fmt: skip
    slab = plate(turned)
    tap = (along * a / 2, across * b / 2)
    spot = (tap[0] + a / 2, tap[1] + b / 2)
    at = (spot[0] * math.cos(turn) - spot[1] * math.sin(turn), spot[0] * math.sin(turn) + spot[1] * math.cos(turn))
    for corner, (x, y) in zip(turned, ((-a, -b), (a, -b), (a, b), (-a, b)), strict=True):
        wanted = 1.0 + 12.0 * tap[0] * x / 2.0 / a**2 + 12.0 * tap[1] * y / 2.0 / b**2
        assert sink(slab, at, corner) == pytest.approx(wanted, abs=1e-6)


def test_the_moments_of_a_cut_piece_are_those_of_its_area_cell_by_cell():
    ring = [(0.0, 0.0), (600.0, 0.0), (600.0, 310.0), (0.0, 590.0)]
    x, y = np.meshgrid(np.arange(0.5, 600.0), np.arange(0.5, 600.0))
    inside = y <= 590.0 - 280.0 * x / 600.0
    xs, ys = x[inside], y[inside]
    slab = plate(ring)
    assert slab.centre == pytest.approx((xs.mean(), ys.mean()), abs=0.5)
    assert (slab.xx, slab.yy, slab.xy) == pytest.approx((xs.var(), ys.var(), np.cov(xs, ys, bias=True)[0, 1]), rel=5e-3)


def test_twist_is_what_four_readings_have_over_their_plane():
    found = plane_part(SLAB, [4.0, 1.0, 2.0, 0.0], WEDGE_MM)
    assert found.twist_mm == pytest.approx((4.0 - 1.0 + 2.0 - 0.0) / 4.0)
    assert found.twist_sd_mm == pytest.approx(WEDGE_MM / 2.0)
    assert [each - over for each, over in zip([4.0, 1.0, 2.0, 0.0], found.over_mm, strict=True)] == pytest.approx(
        [1.25, -1.25, 1.25, -1.25]
    )


def test_three_corners_carry_a_plane_and_say_nothing_of_twist():
    found = plane_part(SLAB, [0.0, 3.0, 6.0, None], WEDGE_MM)
    assert found.over_mm == pytest.approx((0.0, 3.0, 6.0, 3.0))
    assert found.twist_mm is None
    assert plane_part(SLAB, [0.0, 3.0, None, None], WEDGE_MM) is None


@pytest.mark.parametrize(
    ("over", "place", "corners", "down"),
    [
        ((0.0, 3.0, 6.0, 3.0), TapPlace.CORNER, (2,), (0.0, 3.0, 6.0, 3.0)),
        ((0.0, 4.0, 4.0, 0.0), TapPlace.SIDE, (1, 2), (0.0, 4.0, 4.0, 0.0)),
        ((5.0, 5.0, 5.0, 5.0), TapPlace.MIDDLE, (), (5.0, 5.0, 5.0, 5.0)),
    ],
)
def test_a_tap_takes_off_what_stands_proud_and_no_more(over, place, corners, down):
    found = best_tap(plate(SLAB), over, (0.0,) * 4, Care(2.0, 100.0, 0.0, 99.0, (2.0,) * 4))
    assert (found.place, found.corners) == (place, corners)
    assert found.down_mm == pytest.approx(down)


def test_doubtful_readings_are_tapped_less():
    sure, unsure = (
        best_tap(plate(SLAB), (3.0,) * 4, (sd,) * 4, Care(2.0, 67.0, 50.0, 3.0, (2.0,) * 4)) for sd in (0.4, 1.5)
    )
    assert max(unsure.down_mm) < max(sure.down_mm)
    assert best_tap(plate(SLAB), (1.0,) * 4, (2.0,) * 4, Care(2.0, 67.0, 50.0, 3.0, (2.0,) * 4)) is None


@pytest.mark.parametrize(
    ("over", "more", "act", "why"),
    [
        ((0.5, 0.0, -0.5, 0.2), {}, Act.LEAVE, ()),
        ((3.0, 3.0, 3.0, 3.0), {}, Act.TAP, ()),
        ((None, 1.0, None, 1.0), {}, Act.READ, ()),
        ((-4.0, 0.0, 1.0, -3.0), {}, Act.LIFT, (Why.LOW,)),
        ((14.0, 14.0, 14.0, 14.0), {}, Act.LIFT, (Why.HIGH,)),
        ((5.0, -1.0, 5.0, -1.0), {}, Act.LIFT, (Why.TWIST,)),
        ((0.0, 0.0, 0.0, 0.0), {"rocks": Rocks.A_C}, Act.LIFT, (Why.ROCKS,)),
        ((0.0, 0.0, 0.0, 0.0), {"rocks": Rocks.NO}, Act.LEAVE, ()),
        ((4.0, 4.0, 4.0, 4.0), {"bed_mm": 28.0}, Act.LIFT, (Why.THIN,)),
        ((4.0, 4.0, 4.0, 4.0), {"bed_mm": 30.0}, Act.TAP, ()),
        ((-1.4, -1.4, -1.4, -1.4), {}, Act.LOOK, ()),
    ],
)
def test_what_is_advised(over, more, act, why):
    found = advise(SLAB, over, WEDGE_MM, LIMITS, **more)
    assert (found.act, found.why) == (act, why)


def test_a_staff_that_cannot_judge_two_millimetres_never_says_that_a_slab_lies_well():
    assert advise(SLAB, (0.0,) * 4, 1.5, LIMITS).act is Act.LOOK


def test_where_nothing_lies_beside_it_the_level_of_paving_is_what_counts():
    low = (-3.0, -3.0, -3.0, -3.0)
    assert advise(SLAB, low, WEDGE_MM, LIMITS).why == (Why.LOW,)
    assert advise(SLAB, low, WEDGE_MM, LIMITS, allowed_mm=(6.0,) * 4).act is Act.LEAVE
    assert advise(SLAB, (3.0,) * 4, WEDGE_MM, LIMITS, allowed_mm=(6.0,) * 4).act is Act.TAP
    assert advise(SLAB, (0.0,) * 4, 1.5, LIMITS, allowed_mm=(6.0,) * 4).act is Act.LEAVE


def test_bed_that_is_put_in_stands_the_slab_proud_again():
    found = advise(SLAB, (-4.0, -4.0, -4.0, -4.0), WEDGE_MM, LIMITS)
    assert found.low == (0, 1, 2, 3)
    assert found.bed_change_mm == pytest.approx(9.0)


def test_a_corner_is_aimed_at_what_lies_beside_it_within_half_of_the_step():
    assert aimed_at(0.0, [], 2.0, 6.0) == 0.0
    assert aimed_at(0.0, [0.8], 2.0, 6.0) == 0.0
    assert aimed_at(0.0, [-3.0], 2.0, 6.0) == -2.0
    assert aimed_at(0.0, [-3.0, 3.0], 2.0, 6.0) == 0.0
    assert aimed_at(0.0, [9.0], 2.0, 6.0) == 6.0


def test_one_per_cent_is_ten_millimetres_in_a_metre():
    assert by_percent(1000.0, 1.0) == 10.0


# ---- on a bed made by chance


def laid(how, many):
    chance = np.random.default_rng(20_270_518)
    return [how(fresh_bed.FreshBed(chance), WEDGE_MM) for _ in range(many)]


@pytest.fixture(scope="module")
def advised():
    return laid(fresh_bed.by_advice, 500)


@pytest.fixture(scope="module")
def at_random():
    return laid(fresh_bed.by_chance, 100)


def well(one) -> bool:
    return abs(one.highest_mm) <= LIMITS.step_mm and one.lowest_mm >= -LIMITS.step_mm


@pytest.mark.slow
def test_advice_lays_slabs_in_fewer_taps_than_chance(advised, at_random):
    assert np.mean([one.taps for one in advised]) < 5.0
    assert np.mean([one.taps for one in advised]) < 0.5 * np.mean([one.taps for one in at_random])
    assert np.mean([well(one) for one in advised]) > 0.98
    assert np.mean([well(one) for one in at_random]) < 0.5  # the test can tell one from the other


@pytest.mark.slow
def test_advice_never_digs_a_corner_below(advised, at_random):
    assert min(one.lowest_mm for one in advised) > -LIMITS.step_mm
    assert sum(one.lowest_mm < -LIMITS.step_mm for one in at_random) > 30
