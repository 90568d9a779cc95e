"""A plan says what it takes from the book, and its document does not grow with what it does not buy."""

from __future__ import annotations

import copy
import json
import time
from pathlib import Path

import pytest

from pavewright.desk import demo_document, make_plan
from pavewright.firm import EntryPlace
from pavewright.papers import plan_json

FIRM = Path(__file__).parents[3] / "examples" / "firm"


@pytest.fixture(scope="module")
def book():
    return json.loads((FIRM / "book.json").read_bytes())


@pytest.fixture(scope="module")
def job():
    return (FIRM / "left_to_the_book.json").read_text("utf-8")


@pytest.fixture(scope="module")
def made(job, book):
    return make_plan(job, None, json.dumps(book))


def test_what_is_taken_is_named_with_supplier_and_day(made):
    used = made.book
    assert (used.firm, used.invented) == ("Wrenfold Paving (invented)", True)
    named = {(each.place, each.name): each for each in used.entries}
    cement = named[EntryPlace.MATERIALS, "Cement, 25 kg"]
    assert (cement.supplier, cement.priced_on.isoformat()) == ("Tessamere Builders' Yard (invented)", "2027-02-15")
    assert (EntryPlace.UNITS, "Flag 600") in named
    assert (EntryPlace.LABOUR, "layer") in named
    assert {"rates.margin_percent", "rates.overhead_percent", "crew.people"} <= set(used.fields)
    bought = {item.key.material.value for item in made.quantities.items if item.key.material}
    keys = {each.key.value: each.name for each in made.job.rates.materials}
    assert {each.name for each in used.entries if each.place is EntryPlace.MATERIALS} == {keys[key] for key in bought}
    written = json.loads(plan_json(made))
    assert written["book"]["entries"][0]["place"]
    assert written["cost"]["orders"]


def test_without_a_book_or_with_a_quotation_nothing_is_taken(made_plan, made, job, book):
    assert made_plan("demo").book is None
    quoted = json.loads(demo_document()) | {"quoted": {"on": "2027-03-19", "revision": 1, "rates": {}, "crew": {}}}
    assert make_plan(json.dumps(quoted), None, json.dumps(book)).book is None


def test_a_catalogue_of_five_thousand_items_neither_swells_the_plan_nor_slows_it(made, job, book):
    large = copy.deepcopy(book)
    large["rates"]["catalogue"] += [
        {
            "key": f"extra_{n}",
            "name": f"Extra {n}",
            "pack_amount": 1.0,
            "pack_unit": "each",
            "pack_price_minor": 100 + n,
        }
        for n in range(5000)
    ]
    text = json.dumps(large)
    began = time.perf_counter()
    grown = make_plan(job, None, text)
    took = time.perf_counter() - began
    assert grown.cost == made.cost
    assert len(plan_json(grown)) == len(plan_json(made))
    assert took < 10.0
