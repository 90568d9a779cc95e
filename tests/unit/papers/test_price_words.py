"""How a price is taxed and marked up is said as it is priced, under every regime."""

from __future__ import annotations

import json

import pytest

from pavewright.desk import demo_document, make_plan
from pavewright.papers import price_text, tax_row
from pavewright.papers._price_words import margin_text, overhead_text


def planned(**rates):
    document = json.loads(demo_document())
    document["rates"] = {key: value for key, value in (document["rates"] | rates).items() if value is not None}
    return make_plan(json.dumps(document))


@pytest.mark.parametrize(
    ("regime", "percent", "end", "label"),
    [
        ("standard", 20.0, " with VAT", "VAT 20 %"),
        ("reduced", None, " with VAT", "VAT 5 %"),
        ("none", None, ", no VAT is charged", "No VAT is charged"),
        (
            "reverse_charge",
            20.0,
            ", without VAT, for which the customer accounts (reverse charge)",
            "VAT, reverse charge",
        ),
        ("zero", None, " with VAT", "VAT 0 %"),
    ],
)
def test_the_tax_is_said_as_it_is_charged(regime, percent, end, label):
    made = planned(tax_regime=regime, tax_percent=percent)
    assert price_text(made).endswith(end)
    name, minor = tax_row(made)
    assert (name, minor) == (label, made.cost.tax_minor)


def test_a_rate_that_nobody_knows_is_not_zero():
    made = planned(tax_regime=None, tax_percent=None)
    assert price_text(made).endswith(", VAT not known and not in it")
    assert tax_row(made) == ("VAT", None)


def test_a_mark_up_and_overhead_by_the_hour_are_known():
    made = planned(margin_percent=None, markup_percent=22.0, overhead_percent=None, overhead_minor_per_hour=632)
    assert margin_text(made) == "Mark-up 22 % on cost and overhead"
    assert overhead_text(made).endswith("6.32 an hour of labour")
