"""A plan with other prices is the plan that is made anew with them, line by line; other packs are refused."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from pavewright import firm, rulebook
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.job import Rates, TaxRegime, TaxRounding, parse
from pavewright.pipeline import repriced


def rules():
    return rulebook.load("england")


@pytest.fixture(scope="module")
def made(made_plan):
    return made_plan("demo")


def other_prices(rates):
    """Change every kind of price, and what goes on the cost."""
    rates["labour_minor_per_hour"] = 3333
    for number, each in enumerate(rates["materials"]):
        each["pack_price_minor"] = each["pack_price_minor"] + 7 * number
        each["carriage_minor"] = 1234
    for each in rates["plant"]:
        if not each.get("owned"):
            each["day_price_minor"] += 111
    rates["disposal"]["load_price_minor"] = 30_001
    for each in rates["catalogue"]:
        each["pack_price_minor"] = (each["pack_price_minor"] or 0) + 3
    rates |= {"overhead_percent": 11.5, "margin_percent": 21.0, "tax_percent": 13.5, "tax_rounding": "line"}
    rates["tax_lines"] = [{"group": "material", "regime": "reduced", "percent": 5.0}]
    rates["rounding"] = {"kind": "nearest", "to_minor": 500}


def test_the_same_prices_give_the_same_price(made):
    again = repriced(made, made.job.rates, rules())
    assert replace(again, assumed=made.cost.assumed) == made.cost


def test_other_prices_give_what_a_plan_made_anew_gives_line_by_line(made):
    document = json.loads(demo_document())
    other_prices(document["rates"])
    anew = make_plan_so_far(json.dumps(document).encode()).cost
    found = repriced(made, parse(document).rates, rules())
    assert found.total_minor != made.cost.total_minor
    assert [(line.key, line.amount_minor) for line in found.lines] == [
        (line.key, line.amount_minor) for line in anew.lines
    ]
    assert replace(found, assumed=anew.assumed) == anew


def test_a_price_that_is_taken_away_is_a_gap_of_the_price_again(made):
    materials = tuple(each.model_copy(update={"pack_price_minor": None}) for each in made.job.rates.materials)
    found = repriced(made, made.job.rates.model_copy(update={"materials": materials}), rules())
    assert len(found.gaps) >= len(made.cost.gaps) + len(
        {line.key for line in made.cost.lines} - {x.key for x in found.lines}
    )
    assert found.total_minor < made.cost.total_minor


@pytest.mark.parametrize(
    "change",
    [
        lambda rates: rates["materials"][0].update(pack_amount=rates["materials"][0]["pack_amount"] * 2),
        lambda rates: rates["materials"][0].update(min_packs=40),
        lambda rates: rates["plant"].clear(),
        lambda rates: rates["disposal"].update(volume_m3=3.0),
        lambda rates: rates["catalogue"].clear(),
    ],
    ids=["pack", "smallest order", "plant", "load", "catalogue"],
)
def test_rates_that_buy_in_other_amounts_are_refused(made, change):
    document = json.loads(demo_document())
    change(document["rates"])
    with pytest.raises(ValueError, match="other packs"):
        repriced(made, parse(document).rates, rules())


def test_how_tax_is_rounded_comes_from_the_firms_book_where_the_job_leaves_it_out():
    document = json.loads(demo_document())
    for name in ("tax_rounding", "tax_percent", "tax_regime"):
        document["rates"].pop(name, None)
    book = {"format": "pavewright.firm", "version": 1, "rates": {"tax_rounding": "down", "tax_regime": "reduced"}}
    job = firm.with_book(parse(document), firm.read(book))
    assert (job.rates.tax_rounding, job.rates.tax_regime) == (TaxRounding.DOWN, TaxRegime.REDUCED)
    document["rates"]["tax_rounding"] = "line"
    assert firm.with_book(parse(document), firm.read(book)).rates.tax_rounding is TaxRounding.LINE
    assert Rates().tax_rounding is None
