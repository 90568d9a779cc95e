"""Spares: checked against sums in whole fractions, and against what the order then says."""

from __future__ import annotations

from fractions import Fraction
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.quantities import of_unit
from pavewright.quantities._spares import spares_for

from .test_quantities import taken


def short_exactly(sound, spares, broken):
    """Chance that more than ``spares`` of ``sound + spares`` break, as a whole fraction."""
    many = sound + spares
    held = sum(comb(many, k) * broken**k * (1 - broken) ** (many - k) for k in range(spares + 1))
    return 1 - held


@given(st.integers(1, 120), st.integers(1, 300), st.integers(1, 400))
def test_spares_are_the_fewest_that_serve_by_exact_fractions(sound, broken_in_1000, short_in_1000):
    broken, limit = Fraction(broken_in_1000, 1000), Fraction(short_in_1000, 1000)
    found = spares_for(sound, broken_in_1000 / 10.0, short_in_1000 / 10.0)
    short = short_exactly(sound, found.spares, broken)
    assert found.short_percent == pytest.approx(float(100 * short), abs=1e-9)
    assert float(short) <= float(limit) + 1e-12
    if found.spares:
        less = short_exactly(sound, found.spares - 1, broken)
        assert found.short_one_less_percent == pytest.approx(float(100 * less), abs=1e-9)
        assert float(less) > float(limit) - 1e-12


def test_a_large_order_of_fragile_units_is_summed_without_drowning():
    found = spares_for(50_000, 50.0, 5.0)
    # as many break as are laid, give or take sqrt(2 · 50 000) ≈ 316 times 1.645
    assert found.spares == pytest.approx(50_000 + 1.645 * 316.2, abs=8)
    assert 4.9 < found.short_percent <= 5.0 < found.short_one_less_percent


def test_the_order_takes_its_spares_from_the_chance_of_breaking_only_where_it_is_given(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    small.unit["part_packs"] = True
    before = taken(small).item(of_unit(0))
    assert (before.gross, before.allowance_percent) == (21.0, 3.0)
    small.unit["breakage_percent"] = 10.0
    item = taken(small).item(of_unit(0))
    spares = item.gross - 20
    assert spares == spares_for(20, 10.0, 5.0).spares == 5
    assert item.allowance_percent == 25.0
    assert "one in 10 breaks" in item.workings[-1].note
    small.unit["breakage_percent"] = 0.0
    assert taken(small).item(of_unit(0)).gross == 20.0
