"""How a price is taxed and marked up is said as it is priced, under every regime."""

from __future__ import annotations

import json

import pytest

from pavewright.desk import demo_document, make_plan
from pavewright.findings import Severity
from pavewright.papers import price_text, readiness, tax_row
from pavewright.papers._price_words import margin_text, overhead_text
from pavewright.papers._sheets_front import cover
from pavewright.papers.look import as_data


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


def test_overhead_that_nobody_knows_stops_the_price_and_not_the_crew():
    made = planned(overhead_percent=None)
    assert [each.code for each in made.findings if each.severity is Severity.STOP] == ["cost.percent_not_known"]
    first = json.dumps(cover(made, ()).blocks, default=as_data)
    assert "before anybody digs" not in first
    assert "No finding stops the work." in first
    assert "STOP: 1 finding has to be settled before a price is sent. It stops no work." in first
    assert readiness(made).words == "Not ready to be sent: 1 open point stops this price."


def test_what_stops_the_work_is_counted_apart_from_what_stops_the_price():
    document = json.loads(demo_document())
    document.pop("as_laid")
    document["rates"].pop("overhead_percent")
    for wall in document["site"]["walls"]:
        wall["dpc_level_mm"] = 9_900.0
    made = make_plan(json.dumps(document))
    of_work = sum(each.severity is Severity.STOP and not each.of_money for each in made.findings)
    assert of_work
    first = json.dumps(cover(made, ()).blocks, default=as_data)
    has = "1 finding has" if of_work == 1 else f"{of_work} findings have"
    assert f"STOP: {has} to be settled before anybody digs." in first
    assert "1 finding has to be settled before a price is sent." in first
    assert readiness(made).words.endswith("stop this job.")


def test_a_price_without_something_that_is_built_is_not_ready_to_be_sent():
    document = json.loads(demo_document())
    for unit in document["units"]:
        unit.pop("pack_price_minor", None)
    made = make_plan(json.dumps(document))
    assert any(gap.item is not None and not gap.ours for gap in made.cost.gaps)
    assert "no price" in readiness(made).words
    assert not readiness(planned()).words
