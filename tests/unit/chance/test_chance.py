"""Chance: draws, shapes, orders and learning against what has a closed form."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.special import ndtri
from scipy.stats import nbinom

from pavewright.chance import (
    Breakages,
    Even,
    Fixed,
    Normal,
    Triangle,
    best_order,
    chance_of,
    even_draws,
    leaning,
    learnt_output,
    order_at_chance,
    order_costs,
    quantile_of,
    shrunk,
    variance_shares,
)


def test_the_same_seed_draws_the_same_and_another_does_not():
    one, again, other = even_draws(64, 3, 5), even_draws(64, 3, 5), even_draws(64, 3, 6)
    assert one.tobytes() == again.tobytes()
    assert not np.array_equal(one, other)
    assert one.min() > 0.0
    assert one.max() < 1.0


@pytest.mark.parametrize(("count", "causes"), [(0, 1), (3, 1), (1 << 17, 1), (8, 0), (8, 501)])
def test_draws_that_make_no_sequence_are_refused(count, causes):
    with pytest.raises(ValueError, match="power of two"):
        even_draws(count, causes, 1)


@pytest.mark.parametrize(
    "shape", [Fixed(3.0), Even(2.0, 5.0), Triangle(8.0, 10.0, 15.0), Triangle(1.0, 1.0, 2.0), Normal(4.0, 2.0)]
)
def test_shapes_have_the_mean_and_variance_that_they_state(shape):
    values = shape.at(even_draws(16_384, 1, 2)[:, 0])
    assert values.mean() == pytest.approx(shape.mean, abs=2e-3)
    assert values.var() == pytest.approx(shape.variance, rel=2e-3, abs=1e-12)


def test_breakages_are_those_of_a_negative_binomial():
    draws = even_draws(1024, 1, 3)[:, 0]
    for sound, chance in ((1, 0.5), (40, 0.02), (900, 0.03), (20_000, 0.1)):
        assert np.array_equal(Breakages(sound, chance).at(draws), nbinom(sound, 1.0 - chance).ppf(draws))
    assert not Breakages(40, 0.0).at(draws).any()


def test_a_triangle_with_its_peak_outside_is_refused():
    with pytest.raises(ValueError, match="between"):
        Triangle(1.0, 3.0, 2.0)


@pytest.mark.parametrize("wanted", [0.0, 0.3, 0.8, 1.0])
def test_causes_that_lean_on_the_same_have_the_correlation_asked_for(wanted):
    draws = even_draws(16_384, 3, 4)
    one, two = (ndtri(leaning(draws[:, each], draws[:, 2], wanted)) for each in (0, 1))
    assert np.corrcoef(one, two)[0, 1] == pytest.approx(wanted, abs=5e-3)
    assert one.std() == pytest.approx(1.0, abs=5e-3)


def test_quantiles_of_a_linear_sum_lie_within_their_stated_error():
    # 1 000 + 3 x + 4 y, both standard normal: mean 1 000, standard deviation 5
    made = [
        1000.0 + Normal(0.0, 3.0).at(draws[:, 0]) + Normal(0.0, 4.0).at(draws[:, 1])
        for draws in (even_draws(1024, 2, seed) for seed in range(16))
    ]
    for chance, normal in ((0.1, -1.2815516), (0.5, 0.0), (0.8, 0.8416212), (0.9, 1.2815516)):
        found = quantile_of(made, chance)
        assert 0.0 < found.error < 0.05
        assert abs(found.value - (1000.0 + 5.0 * normal)) < 4.0 * found.error + 0.01
    assert float(np.mean(made)) == pytest.approx(1000.0, abs=1e-2)
    assert float(np.std(made)) == pytest.approx(5.0, abs=1e-2)
    below = chance_of([each < 1005.0 for each in made])
    assert abs(below.value - 0.8413447) < 4.0 * below.error + 1e-3


def test_one_replicate_has_no_error_and_is_refused():
    with pytest.raises(ValueError, match="two replicates"):
        quantile_of([np.zeros(4)], 0.5)


def test_shares_of_a_linear_answer_are_its_variances():
    found = variance_shares(lambda u: 3.0 * Normal(0, 1).at(u[:, 0]) + 4.0 * Normal(0, 1).at(u[:, 1]), 2, 4096, 1)
    assert [each.first for each in found] == pytest.approx([0.36, 0.64], abs=0.01)
    assert [each.total for each in found] == pytest.approx([0.36, 0.64], abs=0.01)


def test_what_does_not_move_has_no_shares():
    assert [each.total for each in variance_shares(lambda u: np.full(len(u), 7.0), 2, 64, 1)] == [0.0, 0.0]


def test_the_best_order_is_that_of_the_closed_form():
    # one too few costs 8 more when bought later, one too many costs 4
    needs = Normal(200.0, 80.0).at(even_draws(16_384, 1, 7)[:, 0])
    exact = 200.0 + 80.0 * 0.4307273
    assert best_order(needs, 4.0, 0.0, 12.0).ordered == pytest.approx(exact, abs=1.5)
    assert order_at_chance(8.0, 4.0) == pytest.approx(2.0 / 3.0)
    assert order_costs(needs, round(exact), 4.0, 0.0, 12.0).short == pytest.approx(1.0 / 3.0, abs=0.01)


def test_a_dear_second_delivery_makes_a_larger_order():
    needs = Triangle(2.2, 3.1, 4.6).at(even_draws(4096, 1, 7)[:, 0])
    assert best_order(needs, 100.0, 1.0).ordered < best_order(needs, 100.0, 900.0).ordered == 5


def test_packs_round_the_total_once():
    # 34.2 m² and 8 % in packs of 15.30: 2.41, so 3 packs
    need = np.full(8, 34.2 * 1.08 / 15.30)
    assert order_costs(need, 3, 10.0, 5.0).short == 0.0
    assert order_costs(need, 2, 10.0, 5.0).mean == 2 * 10.0 + 5.0 + 10.0


def test_own_jobs_are_weighed_by_how_far_they_scatter():
    assert learnt_output(10.0, 2.0, [], 3.0).value == 10.0
    steady, wild = learnt_output(10.0, 2.0, [7.9, 8.0, 8.1]), learnt_output(10.0, 2.0, [2.0, 8.0, 14.0])
    assert steady.value < wild.value < 10.0
    assert steady.sd < wild.sd < 2.0
    with pytest.raises(ValueError, match="scatter"):
        learnt_output(10.0, 2.0, [7.0, 8.0])


def test_drawn_towards_the_centre_the_players_are_nearer_to_their_season():
    first = [
        0.400,
        0.378,
        0.356,
        0.333,
        0.311,
        0.311,
        0.289,
        0.267,
        0.244,
        0.244,
        0.222,
        0.222,
        0.222,
        0.222,
        0.222,
        0.200,
        0.178,
        0.156,
    ]
    season = [
        0.346,
        0.298,
        0.276,
        0.222,
        0.273,
        0.270,
        0.263,
        0.210,
        0.269,
        0.230,
        0.264,
        0.256,
        0.303,
        0.264,
        0.226,
        0.285,
        0.316,
        0.200,
    ]
    mean = math.fsum(first) / len(first)
    centre, kept, found = shrunk(first, mean * (1.0 - mean) / 45.0)
    raw, drawn = (sum((a - b) ** 2 for a, b in zip(each, season, strict=True)) for each in (first, found))
    assert (round(centre, 3), round(kept, 3)) == (0.265, 0.212)
    assert (round(raw, 4), round(drawn, 4)) == (0.0754, 0.0213)


def test_groups_that_differ_less_than_chance_are_all_taken_as_the_centre():
    assert shrunk([1.0, 1.1, 0.9, 1.0], 5.0)[1] == 0.0
