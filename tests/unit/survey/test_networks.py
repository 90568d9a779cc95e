"""Networks: derivatives against differences, free datum, tests against scipy, slips named, the tape that helps most."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pavewright.survey.networks._adjustment import LooseNetworkError, adjust_network
from pavewright.survey.tapes._next_tape import next_tape
from pavewright.survey.networks._observations import Distance, OnLine, RightAngle, network_of
from pavewright.survey.networks._slips import find_slips, standardised, tau_limit

BOTH = ((1.0, 0.0), (0.0, 1.0))


def house(rng=None, sd_mm=3.0):
    """A garden behind a house: the wall A-B, corners C, D, a tree E; every pair taped but D-E."""
    places = {"A": (0.0, 0.0), "B": (8000.0, 0.0), "C": (8300.0, 5200.0), "D": (400.0, 5000.0), "E": (4100.0, 7000.0)}
    pairs = [("A", "B"), ("A", "C"), ("B", "C"), ("A", "D"), ("B", "D"), ("C", "D"), ("A", "E"), ("B", "E"), ("C", "E")]
    freedom = {"B": ((1.0, 0.0),), "C": BOTH, "D": BOTH, "E": BOTH}
    noise = rng.normal(0.0, sd_mm, len(pairs)) if rng is not None else np.zeros(len(pairs))
    tapes = [Distance(a, b, math.dist(places[a], places[b]) + slip, sd_mm)
             for (a, b), slip in zip(pairs, noise.tolist(), strict=True)]  # fmt: skip
    return places, freedom, tapes


def test_slopes_are_those_of_small_differences():
    rng = np.random.default_rng(3)
    places, freedom, tapes = house(rng)
    network = network_of(tuple(places), freedom, [*tapes, RightAngle("A", "B", "D", 5.0), RightAngle("C", "E", "B", 4.0),
                                                  OnLine("E", "A", "C", 2.0)])  # fmt: skip
    at = np.array(list(places.values())) + rng.normal(0.0, 200.0, (5, 2))
    slopes = network.slopes(at).table
    for unknown in range(slopes.shape[1]):
        step = np.zeros(slopes.shape[1])
        step[unknown] = 1e-3
        change = (network.misfits(network.moved(at, -step)) - network.misfits(network.moved(at, step))) / 2e-3
        assert change == pytest.approx(slopes[:, unknown], abs=1e-7)


def test_it_is_the_plan_that_scipy_finds():
    from scipy.optimize import least_squares  # noqa: PLC0415 - slow to load

    places, freedom, tapes = house(np.random.default_rng(11))
    shapes = [*tapes, RightAngle("A", "B", "D", 8.0), OnLine("E", "C", "D", 900.0)]
    found = adjust_network(places, freedom, shapes)
    network = network_of(tuple(places), freedom, shapes)
    start = np.array(list(places.values()))
    twin = least_squares(lambda step: network.misfits(network.moved(start, step)), np.zeros(7), xtol=1e-15, ftol=1e-15)
    assert found.weighted_squares == pytest.approx(2.0 * twin.cost, rel=1e-9)
    moved = network.moved(start, twin.x)
    for number, name in enumerate(places):
        assert found.places[name] == pytest.approx(moved[number], abs=1e-4)
    assert sum(found.redundancy) == pytest.approx(found.spare) == pytest.approx(11 - 7)
    covariance = np.linalg.inv(twin.jac.T @ twin.jac)
    assert found.cofactors == pytest.approx(covariance, rel=1e-4, abs=1e-6)


def test_a_free_network_keeps_its_shape_and_its_middle():
    places, freedom, tapes = house(np.random.default_rng(5))
    held = adjust_network(places, freedom, tapes)
    free = adjust_network(places, dict.fromkeys(places, BOTH), tapes, free=True)
    assert free.spare == held.spare
    assert free.residuals_mm == pytest.approx(held.residuals_mm, abs=1e-5)
    assert free.redundancy == pytest.approx(held.redundancy, abs=1e-9)
    middle = np.mean(list(places.values()), axis=0)
    assert np.mean(list(free.places.values()), axis=0) == pytest.approx(middle, abs=1e-6)
    assert sum(np.trace(s) for s in free.spreads.values()) < sum(np.trace(s) for s in held.spreads.values())
    with pytest.raises(LooseNetworkError):
        adjust_network(places, dict.fromkeys(places, BOTH), tapes)


@pytest.mark.parametrize("spare", [2, 3, 4, 7, 14, 31])
@pytest.mark.parametrize("chance", [0.05, 0.01, 0.001])
def test_the_limit_of_tau_is_that_of_student(spare, chance):
    from scipy import stats  # noqa: PLC0415 - slow to load

    t = stats.t.ppf(1.0 - chance / 2.0, spare - 1)
    assert tau_limit(chance, spare) == pytest.approx(t * math.sqrt(spare) / math.sqrt(spare - 1 + t * t), rel=1e-9)


def test_a_slip_is_named_with_its_size_and_a_second_after_it():
    places, freedom, tapes = house(np.random.default_rng(1))
    tapes += [Distance("D", "E", math.dist(places["D"], places["E"]), 3.0)]
    wrong = list(tapes)
    wrong[5] = Distance("C", "D", tapes[5].length_mm + 100.0, 3.0)
    found = find_slips(places, freedom, wrong, 0.001)
    assert [slip.number for slip in found.slips] == [5]
    assert found.slips[0].size == pytest.approx(100.0, abs=12.0)
    assert 5 not in found.left
    assert found.adjustment.places["D"] == pytest.approx(places["D"], abs=10.0)


def test_with_one_spare_tape_the_error_shows_but_has_no_place():
    places, freedom, tapes = house()
    one_spare = [t for t in tapes if "E" not in t.points]
    one_spare[1] = Distance("A", "C", one_spare[1].length_mm + 80.0, 3.0)
    del places["E"], freedom["E"]
    (slip,) = find_slips(places, freedom, one_spare, 0.001).slips
    assert set(slip.alike) == set(range(6))
    settled = adjust_network(places, freedom, one_spare)
    assert np.abs(standardised(settled, one_spare)) == pytest.approx(abs(slip.standardised), rel=1e-3)
    assert np.abs(standardised(settled, one_spare, own_scatter=True)) == pytest.approx(1.0, rel=1e-3)


def test_the_tape_advised_is_the_one_that_helps_max_when_it_is_really_taken():
    places, freedom, tapes = house()
    few = [t for t in tapes if t.points not in {("C", "E"), ("C", "D")}]
    settled = adjust_network(places, freedom, few)
    advised = next_tape(settled, few, lambda _: 3.0)
    assert advised.gain == "point"

    def weakest(observations):
        found = adjust_network(places, freedom, observations)
        return max(math.sqrt(np.linalg.eigvalsh(spread)[-1]) for spread in found.spreads.values())

    pairs = [("C", "E"), ("C", "D"), ("D", "E")]
    taken = {pair: weakest([*few, Distance(*pair, math.dist(places[pair[0]], places[pair[1]]), 3.0)]) for pair in pairs}
    assert advised.before == pytest.approx(weakest(few))
    assert advised.after == pytest.approx(min(taken.values()))
    assert {advised.start, advised.end} == set(min(taken, key=lambda pair: taken[pair]))
    assert advised.length_mm == pytest.approx(math.dist(places[advised.start], places[advised.end]))


def test_readings_that_look_alike_are_parted_by_the_tape_advised():
    places, freedom, tapes = house()
    few = [t for t in tapes if t.points != ("C", "E")]
    few[1] = Distance("A", "C", few[1].length_mm + 80.0, 3.0)
    (slip,) = find_slips(places, freedom, few, 0.001).slips
    assert len(slip.alike) > 1
    settled = adjust_network(places, freedom, few)
    advised = next_tape(settled, few, lambda _: 3.0, alike=slip.alike)
    assert advised.gain == "place"
    assert advised.before == pytest.approx(1.0)
    assert advised.after < 0.999
    more = [*few, Distance(advised.start, advised.end, advised.length_mm, 3.0)]
    named = find_slips(places, freedom, more, 0.001).slips[0]
    assert len(named.alike) < len(slip.alike)


def test_nothing_is_advised_where_every_pair_is_taped():
    places, freedom, tapes = house()
    full = [*tapes, Distance("D", "E", math.dist(places["D"], places["E"]), 3.0)]
    assert next_tape(adjust_network(places, freedom, full), full, lambda _: 3.0) is None


def test_readings_that_nothing_checks_come_before_the_weakest_point():
    places, freedom, tapes = house()
    few = [t for t in tapes if t.points != ("C", "E")]
    settled = adjust_network(places, freedom, few)
    assert min(settled.redundancy) < 1e-9
    advised = next_tape(settled, few, lambda _: 3.0, min_redundancy=0.05)
    assert advised.gain == "check"
    more = [*few, Distance(advised.start, advised.end, advised.length_mm, 3.0)]
    after = adjust_network(places, freedom, more).redundancy
    assert min(after) > 0.05
    assert advised.after == pytest.approx(0.0)


def grid(side):
    """A yard of side × side points, each taped to its neighbours, one point and one direction held."""
    rng = np.random.default_rng(side)
    places = {f"{i},{j}": (i * 3e3 + rng.uniform(-800, 800), j * 3e3 + rng.uniform(-800, 800))
              for i in range(side) for j in range(side)}  # fmt: skip
    pairs = [(f"{i},{j}", f"{i + a},{j + b}") for i in range(side) for j in range(side)
             for a, b in ((1, 0), (0, 1), (1, 1)) if i + a < side and j + b < side]  # fmt: skip
    tapes = [Distance(a, b, math.dist(places[a], places[b]) + float(rng.normal(0.0, 3.0)), 3.0) for a, b in pairs]
    freedom = dict.fromkeys(places, BOTH) | {"0,0": (), "1,0": ((1.0, 0.0),)}
    first = {
        name: (x + float(rng.normal(0.0, 30.0)), y) if freedom[name] else (x, y) for name, (x, y) in places.items()
    }
    return first, freedom, [*tapes, RightAngle("0,0", "1,0", "0,1", 5.0)]


def plain(places, freedom, observations):
    """The same by whole matrices, every round anew."""
    network = network_of(tuple(places), freedom, observations)
    at = np.array(list(places.values()))
    for _ in range(20):
        table = network.slopes(at).table
        at = network.moved(at, np.linalg.lstsq(table, network.misfits(at))[0])
    cofactors = np.linalg.inv(table.T @ table)
    return at, cofactors, 1.0 - np.einsum("ij,jk,ik->i", table, cofactors, table, optimize=True)


def test_a_large_network_is_settled_by_few_numbers_of_each_tape_with_the_same_answers(monkeypatch):
    at, cofactors, redundancy = plain(*grid(9))
    inverses = []
    plainly = np.linalg.inv
    monkeypatch.setattr(np.linalg, "svd", lambda *_, **__: pytest.fail("no singular values are wanted here"))
    monkeypatch.setattr(np.linalg, "inv", lambda matrix: inverses.append(1) or plainly(matrix))
    found = adjust_network(*grid(9))
    assert np.array(list(found.places.values())) == pytest.approx(at, abs=1e-6)
    assert found.cofactors == pytest.approx(cofactors, rel=1e-8, abs=1e-9)
    assert found.redundancy == pytest.approx(redundancy, abs=1e-9)
    assert len(inverses) <= 4
