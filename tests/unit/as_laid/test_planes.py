"""Planes despite mistakes: what is put aside, and that nothing leans towards it."""

from __future__ import annotations

import numpy as np
import pytest

from pavewright.as_laid.planes import bent_plane, centred_plane, median_plane, robust_plane, weighed_plane

SLAB = [
    (0.0, 0.0, 0.6), (2.0, 0.0, -25.2), (4.0, 0.0, -51.9), (0.0, 2.0, -10.8), (2.0, 2.0, -35.1), (4.0, 2.0, -62.3),
    (0.0, 3.0, -15.1), (2.0, 3.0, -41.8), (4.0, 3.0, -36.4),
]  # fmt: skip


def test_the_one_wrong_reading_of_a_slab_is_named():
    found = robust_plane(SLAB)
    assert found.out == (8,)
    assert found.plane.fall == pytest.approx(14.08, abs=0.005)
    plain, _ = centred_plane(np.array(SLAB))
    worst = max(range(9), key=lambda k: abs(SLAB[k][2] - plain.level_at(SLAB[k][:2])))
    off = [abs(z - plain.level_at((x, y))) for x, y, z in SLAB]
    assert sum(each > 7.0 for each in off) == 3, (
        "by least squares three readings look bad, and which is wrong is hidden"
    )
    assert worst == 8


def test_of_six_readings_none_is_put_aside():
    assert robust_plane(SLAB[3:]).out == ()


def test_good_readings_are_not_put_aside_for_their_own_scatter():
    exact = [(x, y, 1000.0 - x / 60.0) for x in (0.0, 1000.0, 2000.0) for y in (0.0, 1000.0, 2000.0)]
    exact[4] = (*exact[4][:2], exact[4][2] + 2.0)
    assert robust_plane(exact).out == (4,)
    assert robust_plane(exact, sd_mm=1.5).out == ()


def test_readings_on_one_line_carry_no_plane():
    line = [(x, 0.0, 0.0) for x in range(9)]
    for fit in (robust_plane, median_plane):
        with pytest.raises(ValueError, match="one line"):
            fit(line)


def test_nearly_half_of_the_readings_may_be_wrong():
    dice = np.random.default_rng(3)
    places = dice.uniform(0.0, 5000.0, (21, 2))
    levels = 1000.0 - places[:, 0] / 60.0 + dice.normal(0.0, 0.5, 21)
    levels[:9] += dice.uniform(40.0, 400.0, 9)
    found = robust_plane(np.column_stack([places, levels]), 0.5)
    assert set(found.out) == set(range(9))


def terrace(dice, count, share):
    array = np.column_stack([dice.uniform(0.0, 5400.0, count), dice.uniform(0.0, 4200.0, count), np.zeros(count)])
    array[:, 2] = 100_000.0 - array[:, 0] / 60.0 + dice.normal(0.0, 2.0, count)
    array[dice.random(count) < share, 2] += 100.0
    return array


@pytest.mark.parametrize("fit", [robust_plane, weighed_plane])
def test_two_mistakes_in_a_hundred_do_not_lean_the_plane(fit):
    dice = np.random.default_rng(11)
    robust, plain = [], []
    for _ in range(120):
        array = terrace(dice, 400, 0.02)
        for kept, plane in ((robust, fit(array).plane), (plain, centred_plane(array)[0])):
            level = plane.level_at((2700.0, 2100.0)) - 100_000.0 + 45.0
            kept.append((1000.0 * (plane.slope_x + 1.0 / 60.0), 1000.0 * plane.slope_y, level))
    mean, spread = np.mean(robust, axis=0), np.std(robust, axis=0) / np.sqrt(len(robust))
    assert (np.abs(mean) < 3.5 * spread + 1e-9).all(), "unbiased: no more off zero than chance"
    assert np.abs(mean[:2]).max() < 0.02
    assert abs(mean[2]) < 0.05
    assert np.mean(plain, axis=0)[2] == pytest.approx(2.0, abs=0.3), "least squares takes the mistakes for level"
    assert np.std(robust, axis=0)[0] < 0.4 * np.std(plain, axis=0)[0]


def test_the_stated_scatter_of_level_and_fall_is_what_simulation_shows():
    dice = np.random.default_rng(5)
    places = [(x, y) for x in (0.0, 2000.0, 4000.0) for y in (0.0, 1500.0, 3000.0)]
    fits = [robust_plane([(*at, -at[0] / 60.0 + dice.normal(0.0, 1.5)) for at in places], 1.5) for _ in range(400)]
    corner, levels = (4000.0, 3000.0), []
    levels = [fit.plane.level_at(corner) for fit in fits]
    assert np.std(levels) == pytest.approx(np.median([fit.level_sd_mm(corner) for fit in fits]), rel=0.2)
    falls = [fit.plane.fall_along((1.0, 0.0)) for fit in fits]
    assert np.std(falls) == pytest.approx(np.median([fit.fall_sd((1.0, 0.0)) for fit in fits]), rel=0.2)


def test_the_twist_of_four_corners_is_a_quarter_of_their_sum_with_signs():
    corners = [(0.0, 0.0, 10.0), (3000.0, 0.0, 4.0), (3000.0, 2000.0, 11.0), (0.0, 2000.0, 5.0)]
    found = bent_plane(np.array(corners), 1.5)
    assert found.twist_mm == pytest.approx((10.0 - 4.0 + 11.0 - 5.0) / 4.0)
    assert found.sd_mm == pytest.approx(0.75)
    assert bent_plane(np.array(corners[:3]), 1.5) is None
    assert bent_plane(np.array([(x, x, 0.0) for x in range(5)]), 1.5) is None
