"""Margin and mark-up, rounding, tax by line, hire periods, prime-cost items and provisional rates, to the penny."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.cost._hire_lines import hire_period
from pavewright.cost._money import Percents, chain, in_steps, shared_out, to_minor
from pavewright.cost._tax import tax_on
from pavewright.job import RoundingKind, TaxRegime, TaxRounding, writing_of
from pavewright.papers import customer_money
from pavewright.papers._figures import paper_figures
from pavewright.papers._words import sum_behind
from pavewright.pipeline import plan
from pavewright.units import minor_to_text
from pavewright.writing import written_as

MONEY = st.integers(0, 5_000_000)


def priced(small):
    return plan(small.job(), small.rules).cost


def line(cost, key):
    return next(each for each in cost.lines if each.key.text == key)


def test_a_margin_and_its_mark_up_make_one_price(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    by_margin = priced(small)
    small.document["rates"] |= {"margin_percent": None, "markup_percent": 25.0}
    by_markup = priced(small)
    assert by_markup.net_minor == by_margin.net_minor
    assert by_markup.markup_percent == pytest.approx(25.0, abs=0.01)
    assert by_markup.margin_percent == pytest.approx(20.0, abs=0.01)
    said = " ".join(working.expression for working in by_markup.workings)
    assert "× (1 + 25 %)" in said
    assert "a part of the price" in said
    assert not any(each.code == "cost.percent_not_known" for each in by_markup.findings)


def test_overhead_by_the_hour_is_hours_times_its_rate(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": None, "overhead_minor_per_hour": 850, "margin_percent": 0.0}
    cost = priced(small)
    hours = sum(Fraction(repr(task.person_hours)) for task in cost.labour)
    assert cost.overhead_minor == pytest.approx(float(hours * 850), abs=0.51)


def test_tax_falls_on_each_group_in_its_own_way(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {
        "overhead_percent": 10.0,
        "margin_percent": 20.0,
        "tax_percent": 20.0,
        "tax_lines": [{"group": "material", "regime": "reduced", "percent": 5.0}],
    }
    cost = priced(small)
    shares = {share.taxed.regime: share for share in cost.tax}
    assert sum(share.net_minor for share in cost.tax) == cost.net_minor
    assert sum(share.tax_minor for share in cost.tax) == cost.tax_minor
    for regime, percent in ((TaxRegime.STANDARD, 20), (TaxRegime.REDUCED, 5)):
        assert shares[regime].tax_minor == to_minor(Fraction(shares[regime].net_minor * percent, 100))


def test_a_reverse_charge_is_told_and_not_charged(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"margin_percent": 20.0, "tax_percent": 20.0, "tax_regime": "reverse_charge"}
    cost = priced(small)
    assert cost.tax_minor == 0
    assert cost.tax[0].taxed.percent == 20.0
    assert any("the customer accounts for the tax" in working.note for working in cost.workings)


def test_a_rate_of_the_place_is_taken_where_a_regime_is_chosen_and_unknown_stays_unknown(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"margin_percent": 20.0, "tax_percent": None, "tax_regime": "reduced"}
    cost = priced(small)
    if small.rules.has("cost.tax_reduced_percent"):
        assert cost.tax[0].taxed.figure is not None
        assert cost.tax_minor > 0
    else:
        assert cost.tax[0].taxed.percent is None
        assert any("rate is not known" in gap.words for gap in cost.gaps)
    small.document["rates"]["tax_regime"] = None
    unknown = priced(small)
    assert unknown.tax_minor == 0
    assert any("rate is not known" in gap.words for gap in unknown.gaps)


def test_a_hire_pays_its_shortest_period_days_after_the_call_weeks_and_delivery(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"]["plant"] = [
        {"key": "plate", "day_price_minor": 3000, "days": 4, "weekly_price_minor": 9000, "delivery_minor": 2500},
        {"key": "saw", "day_price_minor": 2000, "days": 1, "min_days": 2, "off_hire_days": 0.5},
    ]
    cost = priced(small)
    assert line(cost, "charge.hire_weeks.1").amount_minor == 9000
    assert line(cost, "charge.hire_delivery.1").amount_minor == 2500
    assert line(cost, "hire.saw.2").amount_minor == 2 * 2000
    assert all(each.amount_minor == to_minor(Fraction(repr(each.quantity)) * each.rate_minor) for each in cost.lines)


def test_prime_cost_items_and_provisional_rates_stand_in_the_price_with_what_settles_them(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    before = priced(small)
    small.document["terms"] = {
        "prime_costs": [{"name": "Bench", "amount_minor": 40_000, "attendance_percent": 10}],
        "provisional": [
            {"name": "Soft ground", "unit": "m3", "rate_minor": 9_000, "amount": 2, "low_amount": 0, "high_amount": 5},
            {"name": "Rock", "unit": "hour", "rate_minor": 4_500},
        ],
    }
    cost = priced(small)
    assert cost.prime_minor - before.prime_minor == 40_000 + 4_000 + 18_000
    rates = {rate.description: rate for rate in cost.provisional.rates}
    of_one = Fraction(cost.net_minor, cost.prime_minor)
    assert rates["Provisional: Soft ground"].rate_minor == to_minor(9_000 * of_one)
    assert rates["Provisional: Rock"].amount == 0.0
    assert rates["Provisional: Rock"].rate_minor == to_minor(4_500 * of_one)
    assert cost.provisional.low_minor == 0
    assert cost.provisional.high_minor > cost.provisional.likely_minor > 0
    assert [(each.name, each.supply_minor) for each in cost.prime_costs] == [("Bench", 40_000)]


def test_provisional_work_is_what_its_rates_come_to_with_tax_and_rounding_stands_beside_it(small):
    """2 m³ at the rate of the paper and 20 % of tax; the price goes up in steps of 50.00, which is no part of it."""
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    small.document["rates"]["rounding"] = {"kind": "up", "to_minor": 5_000}
    without = priced(small)
    small.document["terms"] = {
        "provisional": [
            {"name": "Soft", "unit": "m3", "rate_minor": 9_000, "amount": 2, "low_amount": 1, "high_amount": 5}
        ]
    }
    cost = priced(small)
    share = cost.provisional
    (rate,) = share.rates
    found = [each * rate.rate_minor * Fraction(120, 100) for each in (1, 2, 5)]
    assert [share.low_minor, share.likely_minor, share.high_minor] == [to_minor(each) for each in found]
    assert share.likely_minor + share.rounding_minor == cost.total_minor - without.total_minor
    assert share.rounding_minor != 0
    said = " ".join(customer_money(plan(small.job(), small.rules), small.rules).settling)
    assert f"Of what is to pay {minor_to_text(share.likely_minor, 'GBP')} are provisional, at these rates" in said
    assert f"would be {minor_to_text(share.likely_minor + share.rounding_minor, 'GBP')} less" in said
    assert "by rounding alone" in said
    small.document["rates"]["rounding"] = None
    assert "rounding" not in " ".join(customer_money(plan(small.job(), small.rules), small.rules).settling)


def test_money_in_the_sums_behind_a_price_is_written_as_money(small):
    """A sum reads £9,221.02, or with its own sign, never 922102 of the smallest coin."""
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    small.document["terms"] = {"prime_costs": [{"name": "Bench", "amount_minor": 123_456, "attendance_percent": 10}]}
    for currency in ("GBP", "EUR", "JPY"):
        small.document["identity"]["currency"] = currency
        made = plan(small.job(), small.rules)
        cost = made.cost
        total, lines = cost.workings[-1].expression, [each.working for each in cost.lines]
        parts = (minor_to_text(each, currency) for each in (cost.net_minor, cost.tax_minor))
        assert total == f"total = {' + '.join(parts)}"
        bench = next(each for each in lines if each.expression.startswith("attendance"))
        assert bench.expression == f"attendance = {minor_to_text(123_456, currency)} × 10 %"
        coins = [each for each in (*cost.workings, *lines) if each.unit == "minor units"]
        assert not [each for each in coins if re.search(r"(?<![\d.,\u202f])\d{5,}(?!\d* h)", each.expression)]
        with written_as(writing_of(made.job)):
            said = sum_behind(cost.workings[-1], paper_figures(small.rules))
        assert f"→ {minor_to_text(cost.total_minor, currency)}" in said
        assert "coin" not in said


@settings(max_examples=200, deadline=None)
@given(st.lists(MONEY, min_size=1, max_size=20), MONEY)
def test_what_is_shared_out_is_all_there(parts, whole):
    shares = shared_out(whole, parts)
    if sum(parts):
        assert sum(shares) == whole
        assert all(abs(share - whole * part / sum(parts)) < 1.0 for share, part in zip(shares, parts, strict=True))


@settings(max_examples=200, deadline=None)
@given(st.lists(st.tuples(MONEY, st.sampled_from([0.0, 5.0, 13.5, 17.5, 20.0])), min_size=1, max_size=20))
def test_the_ways_of_rounding_tax_differ_by_no_more_than_a_unit_a_line(parts):
    nets, percents = [net for net, _ in parts], [percent for _, percent in parts]
    whole = sum(Fraction(net) * Fraction(repr(percent)) / 100 for net, percent in parts)
    for way in TaxRounding:
        taxed = tax_on(nets, percents, way)
        assert abs(sum(taxed) - whole) <= len(parts)
        assert all(
            abs(tax - Fraction(net) * Fraction(repr(percent)) / 100) < 2
            for tax, (net, percent) in zip(taxed, parts, strict=True)
        )
    assert sum(tax_on(nets, percents, TaxRounding.DOWN)) <= whole


@settings(max_examples=200, deadline=None)
@given(MONEY, MONEY, st.floats(0, 60), st.floats(0, 80), st.floats(0, 30), st.sampled_from(RoundingKind), st.booleans())
def test_a_price_never_falls_where_the_cost_rises(first, second, overhead, part, tax, kind, as_markup):
    low, high = sorted((first, second))
    percents = Percents(overhead, 0.0 if as_markup else part, tax, part if as_markup else 0.0)
    one, other = (chain(cost, percents, to_minor, lambda net: in_steps(net, kind, 500)) for cost in (low, high))
    assert one.total <= other.total
    assert one.net <= other.net


@settings(max_examples=200, deadline=None)
@given(st.floats(0, 60), st.floats(0, 60), st.integers(1, 9000), st.one_of(st.none(), st.integers(1, 30_000)))
def test_a_longer_hire_never_costs_less(first, second, day_minor, week_minor):
    low, high = sorted((first, second))
    one, other = (hire_period(days, day_minor, week_minor, 0.0, 0.0, 5.0) for days in (low, high))
    assert one.amount_minor <= other.amount_minor
    assert other.amount_minor <= to_minor(Fraction(repr(high)) * day_minor)


def test_lines_down_to_a_tenth_of_a_penny_are_added_up_before_they_are_rounded():
    assert sum(tax_on([1013] * 3, [5.0] * 3, TaxRounding.TENTH)) == 152  # 3 × 0.506 = 1.518
    # 0.0505 is 5.0 tenths of a penny: nine such lines lose what one sum of them keeps
    nets = [101] * 9
    assert sum(tax_on(nets, [5.0] * 9, TaxRounding.TENTH)) == 45
    assert sum(tax_on(nets, [5.0] * 9, TaxRounding.INVOICE)) == 45
    nets = [119] * 9
    assert sum(tax_on(nets, [5.0] * 9, TaxRounding.TENTH)) == 53  # 9 × 5.9
    assert sum(tax_on(nets, [5.0] * 9, TaxRounding.INVOICE)) == 54  # 53.55
    assert sum(tax_on(nets, [5.0] * 9, TaxRounding.LINE)) == 54  # 9 × 6
