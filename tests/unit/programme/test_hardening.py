"""How long a bay hardens by its temperature, and what a gate stops."""

from __future__ import annotations

import datetime as dt

import pytest

from pavewright import rulebook
from pavewright.cost import TaskKind
from pavewright.programme._cure_clock import Temperatures, cure_time, regimes_of
from pavewright.programme._figures import programme_figures
from pavewright.programme._gates import Gate, gate_limits, gates_of
from pavewright.programme._three_point import ThreePointsError, three_point

RULES = rulebook.load("england")
FIGURES = programme_figures(RULES)
REGIMES = regimes_of(RULES, FIGURES)
APRIL = dt.datetime(2026, 4, 10, 16)


def timed(warm, begins=APRIL):
    return cure_time(begins, FIGURES.base_cure_h, warm, REGIMES, FIGURES)


def test_without_a_temperature_the_rule_stays():
    found = timed(Temperatures())
    assert (found.hours, found.known, found.regimes) == (24.0, False, ())
    assert found.deciding == FIGURES.base_cure_h


def test_at_five_degrees_the_longest_regime_decides():
    found = timed(Temperatures(5.0))
    assert found.hours == pytest.approx(24.0 / 0.25)
    assert found.deciding.key == "programme.maturity_datum.zero.datum_c"
    by_key = {each.figure.key: each.hours for each in found.regimes}
    assert by_key["programme.activation_energy.portland.energy_kj_per_mol"] == pytest.approx(24.0 / 0.4713, rel=1e-3)
    assert by_key["programme.activation_energy.slag_70.energy_kj_per_mol"] == pytest.approx(24.0 / 0.2651, rel=1e-3)


def test_at_ten_degrees_the_slowest_cement_decides():
    assert timed(Temperatures(10.0)).deciding.key == "programme.activation_energy.slag_70.energy_kj_per_mol"


@pytest.mark.parametrize("warm_c", [20.0, 25.0, 35.0])
def test_no_warmth_makes_a_wait_shorter_than_the_rule(warm_c):
    found = timed(Temperatures(warm_c))
    assert found.hours == 24.0
    assert found.known


def test_frost_counts_nothing_and_says_so():
    found = timed(Temperatures(-2.0))
    assert not found.ends
    assert found.hours == FIGURES.cure_longest_days.value * 24.0


def test_a_month_without_a_temperature_is_not_told_as_known():
    found = timed(Temperatures(None, {4: 5.0}), dt.datetime(2026, 4, 30, 12))
    assert not found.known
    assert timed(Temperatures(None, {4: 5.0})).known


def test_what_begins_later_never_ends_earlier():
    warm = Temperatures(None, {1: 0.5, 2: 3.0, 3: 12.0, 4: 22.0, 12: -1.0, 11: 6.0})
    last = dt.datetime.min
    for hour in range(0, 24 * 150, 7):
        begins = dt.datetime(2025, 11, 10) + dt.timedelta(hours=hour)
        ends = begins + dt.timedelta(hours=timed(warm, begins).hours)
        assert ends >= last
        last = ends


def test_sources_of_a_gate_stay_apart_and_the_strictest_decides():
    cold = gate_limits(RULES, Gate.MORTAR_COLD)
    assert [each.value for each in cold.limits] == [5.0, 3.0, 3.0]
    assert cold.deciding.source == "ontario_code"
    assert [each.source for each in cold.broken_by(4.0)] == ["ontario_code"]
    assert len(cold.broken_by(2.0)) == 3
    hot = gate_limits(RULES, Gate.CONCRETE_HOT)
    assert [each.value for each in hot.limits] == [30.0, 32.0, 35.0]
    assert len(hot.broken_by(33.0)) == 2


def test_units_on_sand_have_no_gate_of_mortar():
    assert gates_of(TaskKind.LAY, mortar=False) == ()
    assert gates_of(TaskKind.LAY, mortar=True) == (Gate.MORTAR_COLD,)
    assert Gate.CONCRETE_COLD in gates_of(TaskKind.EDGES_HAUNCH, mortar=False)


def test_a_shortest_time_above_the_longest_is_refused():
    with pytest.raises(ThreePointsError):
        three_point(9.0, 5.0, 7.0)
